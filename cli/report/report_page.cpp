#include "report/report_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/source_subjects.hpp"
#include "flinch/explain/statements.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "flinch/telling/telling.hpp"
#include "look/chance_words.hpp"
#include "report/pictures.hpp"
#include "report/report_care.hpp"
#include "report/report_causes.hpp"
#include "report/report_where.hpp"
#include "review/review_text.hpp"

namespace flinch::cli {
namespace {

class ReportPage {
 public:
  ReportPage(Reviewed const& reviewed, Reader reader, Setting const& setting, Extent extent,
             OverTime const& over_time)
      : reviewed_(reviewed),
        pack_(reviewed.tables.pack()),
        result_(reviewed.result),
        setting_(setting),
        told_(tell(reviewed.tables, reviewed.result, reader, setting)),
        is_for_keeper_(reader != Reader::clinician),
        is_whole_(extent == Extent::all),
        over_time_(over_time) {}

  std::string write(Paper paper) {
    auto const name = reviewed_.patient.name.empty() ? capitalised(with_article(pack_.words.one))
                                                     : reviewed_.patient.name;
    auto const title = fmt::format("{}: {}", name, title_of(pack_, result_.judgement.tier));
    auto body = "<header>\n" + heading(name) + "</header>\n<main>\n" + urgency();
    body += is_for_keeper_ ? for_keeper() : for_clinic();
    body += over_time();
    body += fmt::format("</main>\n<footer>\n<p>{}</p>\n<p>Rules: {} {}. {}</p>\n</footer>\n",
                        escaped(caution), escaped(pack_.title), escaped(pack_.version),
                        escaped(read_sentence(pack_)));
    return html_page({title, paper, {}, fmt::format("{}, written {}", name, setting_.written)},
                     body);
  }

 private:
  // One visit has no course.
  [[nodiscard]] std::string over_time() const {
    if (over_time_.visits.size() < 2) return "";
    auto out = over_time_.sentence.empty() ? "" : paragraph(over_time_.sentence + ".");
    return section("visits", "Over time",
                   out + "<figure>\n" + visits_picture(pack_, over_time_.visits) + "</figure>\n");
  }

  [[nodiscard]] std::string until_seen() const {
    return fmt::format("Until the {} is seen", pack_.words.one);
  }

  [[nodiscard]] std::string for_keeper() const {
    auto body = section("do", "What to do", what_to_do());
    if (auto const items = not_to_do(); !items.empty())
      body += section("dont", "What not to do", list(items));
    body += section("watch", "Ring again at once if", what_to_watch());
    if (auto const care = care_on_page(reviewed_, told_, extent()); !care.empty())
      body += section("until", until_seen(), care);
    if (is_whole_) body += section("where", "Where", where_on_the_patient(reviewed_));
    body += section("causes", "What it may be",
                    not_a_diagnosis() + causes_in_short(reviewed_, Reader::keeper, 3, extent()));
    return body + section("told", "What was told",
                          contradictions() + (is_whole_ ? answers() : answers_in_short()));
  }

  [[nodiscard]] std::string for_clinic() const {
    auto body = section("why", "Why so soon", why_so_soon());
    body += section("open", "What could make it more urgent", still_open());
    body += section("where", "Where", where_on_the_patient(reviewed_));
    body += section("causes", "What it may be",
                    not_a_diagnosis() + causes_in_short(reviewed_, Reader::clinician, 5, extent()));
    if (is_whole_) body += section("reasons", "Reasons", causes_in_full(reviewed_));
    body += section("next", "Next, for the vet", next_steps());
    if (auto const care = care_on_page(reviewed_, told_, extent()); !care.empty())
      body += section("until", until_seen(), care);
    if (!is_whole_)
      return body + section("told", "What was told",
                            answers_in_short() +
                                paragraph("Reasons, smallest changes, care at home and sources: "
                                          "the same page with --all."));
    body += section("changes", "What would change the result", changes());
    body += section("told", "What was told, and what follows", answers());
    return body + section("sources", "Sources", sources());
  }

  [[nodiscard]] Extent extent() const { return is_whole_ ? Extent::all : Extent::in_short; }

  // What is written for the practice alone is not for a keeper to read.
  [[nodiscard]] std::string heading(std::string const& name) const {
    auto const facts = signalment_text(pack_, result_);
    auto out = fmt::format("<h1>{}</h1>\n", from_outside(name));
    if (!facts.empty()) out += paragraph(facts);
    if (!reviewed_.patient.note.empty() && !is_for_keeper_)
      out += fmt::format("<p>Note: {}</p>\n", from_outside(reviewed_.patient.note));
    auto written = fmt::format("Written {}", setting_.written);
    if (auto const& practice = setting_.practice)
      written += fmt::format(" by {}, telephone {}", practice->name, practice->telephone);
    return out + paragraph(written + ".");
  }

  // Words first; the filled marks repeat them for the eye.
  [[nodiscard]] std::string urgency() const {
    auto const all = pack_.tiers.size();
    auto const filled = result_.judgement.tier ? all - index(*result_.judgement.tier) : 0;
    std::string marks;
    for (std::size_t i = 0; i < all; ++i) marks += i < filled ? "\u25A0" : "\u25A1";
    auto out = fmt::format(
        "<section class=\"urgency\" aria-labelledby=\"urgency\">\n"
        "<p class=\"marks\" aria-hidden=\"true\">{}</p>\n<h2 id=\"urgency\" "
        "class=\"tier\">{}</h2>\n",
        marks, escaped(title_of(pack_, result_.judgement.tier)));
    out += paragraph(told_.urgency.say);
    if (told_.urgency.could_be)
      out += paragraph(fmt::format("Not everything has been asked: it could still be \"{}\".",
                                   pack_[*told_.urgency.could_be].title));
    for (auto const& held : told_.urgency.held_back) out += paragraph(held);
    return out + "</section>\n";
  }

  [[nodiscard]] static std::string not_a_diagnosis() {
    return "<p class=\"caution\">This is no diagnosis. A licensed veterinarian decides what it "
           "is.</p>\n";
  }

  [[nodiscard]] std::string what_to_do() const {
    std::string items;
    for (auto const& line : told_.script.lines) items += item(line);
    auto out = items.empty() ? items : numbered_list(items);
    items.clear();
    if (!told_.mouth.food_and_water.empty())
      items += item("Food and water: " + told_.mouth.food_and_water);
    std::string page =
        told_.seen_at == SeenAt::home ? "Show this page to the vet" : "Take this page with you";
    if (!setting_.practice)
      page += told_.seen_at == SeenAt::home ? "; keep the telephone number of the vet at hand"
                                            : ", and the telephone number of the clinic";
    items += item(page + ".");
    return out + list(items);
  }

  // What the pack says of painkillers stands first among its warnings, if it says it.
  [[nodiscard]] std::string not_to_do() const {
    std::string out;
    if (told_.do_not.empty())
      out += item("Give no medicine that is meant for people: no human painkillers, not even one.");
    for (auto const& warning : told_.do_not) out += item(warning.title + ": " + warning.text);
    out += item(fmt::format(
        "Give nothing but what this page says and what a vet has given for this {} and this "
        "trouble; ask before the next dose. Do not stop a steroid, or a medicine for heart or "
        "fits, by yourself, unless this page says so.",
        pack_.words.one));
    return is_whole_ && !told_.may_not.empty() ? out + item(told_.may_not) : out;
  }

  [[nodiscard]] std::string what_to_watch() const {
    return list(item(fmt::format("The {} gets worse in any way.", pack_.words.one)) +
                watch_on_page(told_, extent()));
  }

  [[nodiscard]] std::string why_so_soon() const {
    auto const why = explain_tier(reviewed_.tables, result_);
    bool const has_alarm =
        std::any_of(why.fired.begin(), why.fired.end(), [&](FiredAlarm const& fired) {
          return pack_[fired.alarm].see == result_.judgement.tier && !pack_[fired.alarm].floor_of;
        });
    std::string items;
    for (auto const& fired : why.fired) {
      auto const& alarm = pack_[fired.alarm];
      // In short what asks for less, and single signs beside an alarm of several, stay away.
      bool const is_left_out =
          alarm.see != *result_.judgement.tier || (alarm.floor_of && has_alarm);
      if (!is_whole_ && is_left_out) continue;
      std::string told;
      for (auto const sign : fired.behind)
        told += (told.empty() ? "" : "; ") + known_text(pack_, result_, sign);
      items += item(fmt::format("Alarm, {}: {}. {} Answered: {}.", pack_[alarm.see].title,
                                alarm.title, alarm.because, told));
    }
    for (auto const i : why.taken) {
      auto const& exposure = result_.judgement.exposures[i];
      items += item(fmt::format("Taken, {}: {}; {}. {}", pack_[*exposure.see].title,
                                taken_text(pack_, exposure), harm_text(pack_, result_, exposure),
                                pack_.care[exposure.care].because));
    }
    auto const none = why.fired.empty() ? "No alarm has fired." : "No alarm asks for this tier.";
    return (items.empty() ? paragraph(none) : list(items)) + by_ranking(why) + contradictions();
  }

  [[nodiscard]] std::string by_ranking(TierExplanation const& why) const {
    if (result_.judgement.nothing_told)
      return paragraph("The ranking sets no tier: no sign was told.");
    Uncertainty const uncertainty(reviewed_.tables, result_);
    std::vector<std::vector<std::string>> rows;
    for (auto const& reason : why.tiers) {
      if (!reason.chance.threshold) continue;
      std::string causes;
      for (std::size_t i = 0; i < std::min<std::size_t>(2, reason.causes.size()); ++i)
        causes += (causes.empty() ? "" : ", ") + pack_[reason.causes[i].cause].title;
      rows.push_back({escaped(pack_[reason.tier].title + how_far_reached(reason, uncertainty)),
                      per_cent(reason.chance.probability),
                      chance_range(uncertainty.tier_chance(reason.tier)),
                      per_cent(*reason.chance.threshold), escaped(causes)});
    }
    return table("By the ranking",
                 {{"needs"},
                  {"chance", true},
                  {"the figures allow", true},
                  {"enough from", true},
                  {"most of it"}},
                 rows, Narrow::stacks);
  }

  [[nodiscard]] static std::string how_far_reached(TierReason const& reason,
                                                   Uncertainty const& uncertainty) {
    bool const is_only_just = uncertainty.is_only_just(reason.tier);
    if (reason.chance.is_reached) return is_only_just ? " (reached, but only just)" : " (reached)";
    return is_only_just ? " (not reached, but only just)" : "";
  }

  [[nodiscard]] std::string contradictions() const {
    if (told_.clashes.empty()) return {};
    std::string items;
    for (auto const& clash : told_.clashes) items += item(clash);
    return paragraph("Answers that clash; the more dangerous one was counted:") + list(items);
  }

  [[nodiscard]] std::string still_open() const {
    std::size_t const shown = is_whole_ ? 12 : 6;
    auto const& open = told_.open;
    if (open.empty()) return paragraph("Nothing that is still open.");
    std::string items;
    for (std::size_t i = 0; i < std::min(shown, open.size()); ++i)
      items += item(
          fmt::format("{}: {}{}", pack_[open[i].open.could_reach].title, open[i].ask,
                      open[i].who_else.empty() ? std::string() : " (" + open[i].who_else + ")"));
    auto out = paragraph("Unknown is not no. These answers could raise it:") + list(items);
    if (open.size() > shown) out += paragraph(fmt::format("... and {} more.", open.size() - shown));
    return out;
  }

  [[nodiscard]] std::string next_steps() const {
    if (told_.next.empty()) return paragraph("Nothing in particular yet.");
    std::string items;
    for (auto const& step : told_.next) items += item(step);
    return list(items);
  }

  [[nodiscard]] std::string change_sets(std::string_view title, std::vector<ChangeSet> const& sets,
                                        bool is_first_told) const {
    std::string items;
    for (auto const& set : sets) {
      std::string text;
      for (auto const& change : set.changes)
        text += (text.empty() ? "" : " and ") + change_text(pack_, change);
      text += is_first_told ? fmt::format(" (first: {})", title_of(pack_, set.first))
                            : fmt::format(" ({})", title_of(pack_, set.tier));
      items += item(text);
    }
    return fmt::format("<h3>{}</h3>\n", escaped(title)) +
           (items.empty() ? paragraph("No change of one or two answers.") : list(items));
  }

  [[nodiscard]] std::string changes() const {
    auto const found = smallest_changes(reviewed_.tables, reviewed_.assessor, reviewed_.patient);
    auto out = paragraph("Where to look twice, because much hangs on it; the smallest changes:");
    if (!result_.judgement.tier || index(*result_.judgement.tier) > 0)
      out += change_sets("More urgent", found.higher_tier, false);
    out += change_sets("Less urgent", found.lower_tier, false);
    if (!result_.judgement.nothing_told)
      out += change_sets("Another cause first", found.other_first, true);
    return out;
  }

  [[nodiscard]] std::string answers() const {
    std::vector<std::vector<std::string>> rows;
    for (auto const& known : result_.knowledge.known) {
      if (is_for_keeper_ && known.origin != Origin::given) continue;
      rows.push_back(
          {escaped(pack_[known.sign].label), escaped(said_text(pack_, result_, known.sign))});
    }
    for (auto const sign : result_.knowledge.cannot_tell)
      rows.push_back({escaped(pack_[sign].label), "could not be told"});
    if (rows.empty()) return paragraph("Nothing.");
    return table("Answers", {{"sign"}, {"answer"}}, rows);
  }

  // As given, in one paragraph.
  [[nodiscard]] std::string answers_in_short() const {
    std::string out;
    for (auto const& known : result_.knowledge.known)
      if (known.origin == Origin::given && !pack_[known.sign].of_the_patient)
        out += (out.empty() ? "" : "; ") + known_text(pack_, result_, known.sign);
    for (auto const sign : result_.knowledge.cannot_tell)
      out += (out.empty() ? "" : "; ") + pack_[sign].label + ": could not be told";
    return paragraph(out.empty() ? "Nothing." : out + ".");
  }

  // Those that anything on this page rests on.
  [[nodiscard]] std::string sources() const {
    std::set<SourceId> used;
    SourceSubjects const subjects(pack_);
    std::size_t detailed = 0;
    for (auto const& ranked : result_.ranking) {
      if (!ranked.cause) continue;
      if (result_.judgement.nothing_told || ++detailed > 3) break;
      for (auto const source : pack_[*ranked.cause].cites) used.insert(source);
      for (auto const& reason : reasons(result_, *ranked.cause))
        for (auto const source : subjects.at(reason.rule, *ranked.cause)) used.insert(source);
    }
    for (auto const& outcome : result_.alarms)
      if (outcome.truth == Truth::yes)
        for (auto const source : pack_[outcome.alarm].cites) used.insert(source);
    if (used.empty()) return paragraph("None: nothing was concluded.");
    std::string out = "<dl>\n";
    for (auto const source : used)
      out += fmt::format("<dt>{}</dt><dd>{}{}</dd>\n", escaped(pack_[source].name),
                         escaped(pack_[source].text),
                         pack_[source].doi.empty() ? "" : escaped(". doi:" + pack_[source].doi));
    return out + "</dl>\n";
  }

  Reviewed reviewed_;
  Pack const& pack_;
  Assessment const& result_;
  Setting const& setting_;
  Telling told_;
  bool is_for_keeper_;
  bool is_whole_;
  OverTime const& over_time_;
};

}  // namespace

std::string report_page(Reviewed const& reviewed, Reader reader, Paper paper,
                        Setting const& setting, Extent extent, OverTime const& over_time) {
  return ReportPage(reviewed, reader, setting, extent, over_time).write(paper);
}

}  // namespace flinch::cli
