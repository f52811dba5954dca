#include "flinch/telling/note.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/assess/localisation.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

constexpr std::size_t causes_named = 3;
constexpr double worth_naming = 0.05;
constexpr std::size_t open_named = 8;
constexpr std::size_t negatives_named = 6;
constexpr std::size_t steps_named = 4;

void join(std::string& list, std::string_view item, std::string_view between = "; ") {
  if (!list.empty()) list += between;
  list += item;
}

// Some of many, and how many more there are.
std::string some_of(std::vector<std::string> const& all, std::size_t named) {
  std::string out;
  for (std::size_t i = 0; i < std::min(named, all.size()); ++i) join(out, all[i]);
  return all.size() > named ? out + fmt::format("; and {} more", all.size() - named) : out;
}

class NoteWriter {
 public:
  NoteWriter(Tables const& tables, Case const& patient, Assessment const& result,
             Setting const& setting)
      : tables_(tables),
        pack_(tables.pack()),
        patient_(patient),
        result_(result),
        setting_(setting),
        told_(tell(tables, result, Reader::nurse, setting)) {}

  std::vector<NotePart> write() {
    return {{"Situation", situation()},
            {"Background", background()},
            {"Assessment", assessment()},
            {"Recommendation", recommendation()}};
  }

 private:
  using Items = std::vector<NoteItem>;

  static void add(Items& items, std::string label, std::string text) {
    // A note is lines: where a caller's words break, they go on behind a blank.
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    if (!text.empty()) items.push_back({std::move(label), std::move(text)});
  }

  [[nodiscard]] Items situation() const {
    Items items;
    auto caller = patient_.caller;
    if (!patient_.call_back.empty()) join(caller, "call back " + patient_.call_back, ", ");
    add(items, "Reported by", caller);
    add(items, "Written", taken_down());
    auto who = patient_.name;
    if (auto const facts = signalment_text(pack_, result_); !facts.empty()) join(who, facts, ", ");
    add(items, "Patient", who);
    auto const& could_be = told_.urgency.could_be;
    add(items, "Urgency",
        told_.urgency.title +
            (could_be ? fmt::format("; not settled, could still be: {}", pack_[*could_be].title)
                      : ""));
    std::string why;
    for (auto const& reason : told_.urgency.reasons)
      if (reason.sets_tier && (reason.by != UrgentBy::likelihood || told_.urgency.is_by_likelihood))
        join(why, reason.what, " ");
    for (auto const& held : told_.urgency.held_back) join(why, held, " ");
    add(items, "Because", why);
    return items;
  }

  [[nodiscard]] std::string taken_down() const {
    auto out = setting_.written;
    if (!setting_.practice) return out;
    auto const& practice = *setting_.practice;
    if (!practice.initials.empty()) join(out, "by " + practice.initials, " ");
    join(out, practice.name, ", ");
    return out;
  }

  static bool is_no(Answer const& answer) {
    if (auto const* yes = std::get_if<bool>(&answer)) return !*yes;
    auto const* findings = std::get_if<Findings>(&answer);
    return findings != nullptr && !findings->found_somewhere;
  }

  // What was found or measured; first that which made an alarm fire.
  [[nodiscard]] std::string seen() const {
    std::vector<SignId> signs;
    for (auto const& [sign, answer] : patient_.answers)
      if (!pack_[sign].of_the_patient && !is_no(answer)) signs.push_back(sign);
    std::stable_partition(signs.begin(), signs.end(), [&](SignId sign) { return fired(sign); });
    std::string out;
    for (auto const sign : signs) {
      auto const& answer = result_.find(sign)->answer;
      bool const is_plain_yes = answer == plain_answer(pack_[sign], true);
      join(out, pack_[sign].label + (is_plain_yes ? "" : ": " + answer_text(pack_, sign, answer)));
    }
    return out;
  }

  [[nodiscard]] bool fired(SignId sign) const {
    return std::any_of(result_.alarms.begin(), result_.alarms.end(), [&](AlarmOutcome const& one) {
      if (one.truth != Truth::yes) return false;
      auto const steps = tables_.trigger_steps(one.alarm);
      return std::any_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
        return step.kind == Tables::Step::Kind::leaf && tables_.leaves()[step.detail].sign == sign;
      });
    });
  }

  [[nodiscard]] Items background() const {
    Items items;
    std::string complaint;
    for (auto const sign : patient_.came_for) join(complaint, pack_[sign].label);
    add(items, "Came for", complaint);
    add(items, "Seen", seen());
    add(items, "Asked and absent", negatives());
    std::string untold;
    for (auto const sign : patient_.cannot_tell) join(untold, pack_[sign].label);
    add(items, "Caller could not tell", untold);
    std::vector<std::string> open;
    for (auto const& question : told_.open)
      if (!question.open.could_not_tell) open.push_back(pack_[question.open.sign].label);
    add(items, "NOT ASKED, could make it more urgent", some_of(open, open_named));
    add(items, "Note", patient_.note);
    if (items.empty()) add(items, "", "Nothing else was said.");
    return items;
  }

  // The answers of no that matter: those first whose yes would make it more urgent.
  [[nodiscard]] std::string negatives() const {
    Assessor assessor(tables_);
    std::vector<std::string> raising;
    std::vector<std::string> turning;
    std::size_t others = 0;
    auto changed = patient_;
    for (auto& [sign, answer] : changed.answers) {
      if (pack_[sign].of_the_patient || !is_no(answer)) continue;
      auto const no = std::exchange(answer, plain_answer(pack_[sign], true));
      auto const after = assessor.assess(changed);
      answer = no;
      bool const is_raised =
          after.judgement.tier &&
          (!result_.judgement.tier || *after.judgement.tier < *result_.judgement.tier);
      bool const is_turned = !after.ranking.empty() && !result_.ranking.empty() &&
                             after.ranking.front().cause != result_.ranking.front().cause;
      if (is_raised || is_turned)
        (is_raised ? raising : turning).push_back(pack_[sign].label);
      else
        ++others;
    }
    raising.insert(raising.end(), turning.begin(), turning.end());
    if (raising.size() > negatives_named) {
      others += raising.size() - negatives_named;
      raising.resize(negatives_named);
    }
    std::string out;
    for (auto const& label : raising) join(out, label);
    if (others > 0)
      join(out, out.empty() ? fmt::format("{} asked, none of which would change much", others)
                            : fmt::format("and {} more", others));
    return out;
  }

  [[nodiscard]] Items assessment() const {
    Items items;
    for (auto const& exposure : result_.judgement.exposures)
      add(items, "Taken",
          fmt::format("{}; {} ({})", taken_text(pack_, exposure),
                      harm_text(pack_, result_, exposure),
                      exposure.see ? pack_[*exposure.see].title : "sets no urgency by itself"));
    for (auto const& clash : told_.clashes) add(items, "Answers clash", clash);
    std::string places;
    for (auto const& found : localise(tables_, result_).found)
      join(places, site_text(pack_, found.mark), ", ");
    add(items, "Where", places);
    add(items, "Prepare for",
        result_.judgement.nothing_told ? "Nothing was told to rank causes by." : prepare_for());
    return items;
  }

  // The likeliest; then what the figures cannot place behind the first of them.
  [[nodiscard]] std::string prepare_for() const {
    std::string out;
    std::vector<std::optional<CauseId>> named;
    for (auto const& ranked : result_.ranking) {
      if (named.size() == causes_named || ranked.posterior < worth_naming) break;
      named.push_back(ranked.cause);
      join(out, clinical_title(pack_, ranked.cause));
    }
    if (out.empty()) return "No cause stands out.";
    std::string alike;
    for (auto const cause : Uncertainty(tables_, result_).alike_with_first())
      if (std::find(named.begin(), named.end(), cause) == named.end())
        join(alike, clinical_title(pack_, cause));
    out += " (likeliest first; not a diagnosis)";
    return alike.empty() ? out : out + ". Not told apart from the first: " + alike;
  }

  [[nodiscard]] Items recommendation() const {
    Items items;
    add(items, "First", some_of(told_.next, steps_named));
    // Whether it was read out is not known.
    auto advice = told_.urgency.tier ? told_.urgency.say : std::string();
    for (auto const& line : told_.script.lines) join(advice, line, " ");
    join(advice, told_.mouth.food_and_water, " ");
    add(items, "For the caller", advice);
    add(items, "Ring back",
        patient_.ring_back_at.empty() ? "no time agreed" : "at " + patient_.ring_back_at);
    return items;
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& patient_;
  Assessment const& result_;
  Setting const& setting_;
  Telling told_;
};

}  // namespace

std::vector<NotePart> handover_note(Tables const& tables, Case const& patient,
                                    Assessment const& result, Setting const& setting) {
  return NoteWriter(tables, patient, result, setting).write();
}

}  // namespace flinch
