#include "assess/assess_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "flinch/assess/localisation.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/open_count.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"
#include "look/urgency_text.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t questions_shown = 6;
constexpr std::size_t reasons_shown = 2;

class AssessmentText {
 public:
  AssessmentText(Tables const& tables, Case const& patient, Assessment const& result,
                 TextOptions const& options, Look const& look)
      : tables_(tables),
        pack_(tables.pack()),
        patient_(patient),
        result_(result),
        told_(tell(tables, result, options.reader.value_or(Reader::keeper), options.setting)),
        options_(options),
        page_(look) {}

  std::string write() {
    who();
    how_soon();
    could_be_higher();
    contradictions();
    where();
    causes();
    next_steps();
    settled();
    until_seen();
    page_.paragraph(caution, 0);
    return page_.take();
  }

 private:
  void who() {
    auto const facts = signalment_text(pack_, result_);
    page_.heading(patient_.name.empty() ? capitalised(with_article(pack_.words.one))
                                        : patient_.name);
    if (!facts.empty()) page_.paragraph(facts);
    if (!patient_.note.empty()) page_.paragraph("Note: " + patient_.note);
    page_.blank();
  }

  void how_soon() {
    page_.heading("HOW SOON");
    write_tier(pack_, told_.urgency, options_.are_dangers_unasked ? "At least:" : "", page_);
    if (options_.are_dangers_unasked)
      page_.paragraph("Dangers have not all been asked for: it may be more urgent.");
    write_reasons(told_.urgency, Wording::in_full,
                  options_.are_causes_named ? Causes::named : Causes::left_out, page_);
    if (options_.numbers == Numbers::shown && result_.judgement.tier) tier_numbers();
    page_.blank();
  }

  void tier_numbers() {
    for (std::size_t i = 0; i < result_.judgement.tiers.size(); ++i) {
      auto const& tier = result_.judgement.tiers[i];
      if (!tier.threshold) continue;
      page_.line(
          fmt::format("    {}  chance of a cause that needs it {:6.2f}%, enough from {:5.2f}%{}",
                      fitted(pack_.tiers[i].name, 8), 100 * tier.probability, 100 * *tier.threshold,
                      tier.is_reached ? "  reached" : ""));
    }
  }

  [[nodiscard]] std::string open_count() const {
    if (!options_.reader) return told_.open_count;
    std::vector<OpenQuestion> own;
    for (auto const& one : told_.open) own.push_back(one.open);
    return open_count_text(pack_, own, told_.seen_at);
  }

  void could_be_higher() {
    auto const& open = told_.open;
    if (!told_.urgency.could_be || open.empty()) return;
    auto const highest = std::min_element(open.begin(), open.end(),
                                          [](ToldQuestion const& a, ToldQuestion const& b) {
                                            return a.open.could_reach < b.open.could_reach;
                                          })
                             ->open.could_reach;
    page_.heading("COULD BE HIGHER");
    page_.paragraph(fmt::format("Up to \"{}\" until these are answered; unknown is not no. {}.",
                                pack_[highest].title, open_count()));
    for (std::size_t i = 0; i < std::min(open.size(), questions_shown); ++i)
      page_.paragraph(open[i].ask + (open[i].who_else.empty() ? "" : " (" + open[i].who_else + ")"),
                      2, fmt::format("{} ", fitted(pack_[open[i].open.could_reach].name, 6)));
    if (open.size() > questions_shown)
      page_.paragraph(fmt::format("... and {} more open questions", open.size() - questions_shown));
    page_.blank();
  }

  void contradictions() {
    if (told_.clashes.empty()) return;
    page_.heading("ANSWERS THAT CLASH (the more dangerous one was counted)");
    for (auto const& clash : told_.clashes) page_.paragraph(clash, 2, page_.bullet());
    page_.blank();
  }

  void where() {
    auto const place = localise(tables_, result_);
    page_.heading("WHERE");
    for (auto const& found : place.found) {
      std::string signs;
      for (auto const sign : found.signs) signs += (signs.empty() ? "" : ", ") + pack_[sign].label;
      page_.paragraph(fmt::format("{}: {}", site_text(pack_, found.mark), signs), 2,
                      page_.bullet());
    }
    if (place.found.empty()) {
      constexpr double likely = 0.5;
      bool const tells = !result_.judgement.nothing_told && !place.regions.empty() &&
                         place.regions[0].probability >= likely;
      page_.paragraph(tells ? fmt::format("No place was named; the ranked causes point to the {}.",
                                          pack_[place.regions[0].region].title)
                            : "Not localised.");
    }
    if (options_.numbers == Numbers::shown && !result_.judgement.nothing_told)
      for (auto const& region : place.regions)
        page_.line(fmt::format("    {}  {:6.2f}%", fitted(pack_[region.region].title, 20),
                               100 * region.probability));
    page_.blank();
  }

  void causes() {
    page_.heading("WHAT IT MAY BE");
    if (result_.judgement.nothing_told) {
      page_.paragraph("Nothing was told to rank causes by.");
      page_.blank();
      return;
    }
    if (!options_.are_causes_named) {
      page_.paragraph(
          "Too little is known yet to name causes: not all first questions are answered.");
      page_.blank();
      return;
    }
    std::size_t shown = 0;
    for (auto const& ranked : result_.ranking) {
      if (shown == options_.causes) break;
      ++shown;
      cause_line(shown, ranked);
      if (ranked.cause) cause_reasons(*ranked.cause);
    }
    alike_causes();
    page_.blank();
  }

  // Those among the causes shown that the figures cannot place behind the first.
  void alike_causes() {
    Uncertainty const uncertainty(tables_, result_);
    auto const first = result_.ranking.front().cause;
    std::string names;
    for (std::size_t i = 1; i < std::min(options_.causes, result_.ranking.size()); ++i)
      if (auto const cause = result_.ranking[i].cause; !uncertainty.are_told_apart(first, cause))
        names += (names.empty() ? "" : "; ") + title_of(pack_, cause);
    if (!names.empty())
      page_.paragraph(
          fmt::format("Not to be told apart from the first, as far as the figures behind it are "
                      "known: {}.",
                      names));
  }

  void cause_line(std::size_t rank, Ranked const& ranked) {
    constexpr std::size_t widest_bar = 20;
    constexpr std::size_t narrowest_name = 12;
    auto const width = page_.look().width;
    auto const bar_width = std::min(widest_bar, width / 4);
    auto const title = title_of(pack_, ranked.cause);
    auto const tail =
        options_.numbers == Numbers::shown
            ? fmt::format(" {:5.1f}% from {:4.1f}%", 100 * ranked.posterior, 100 * ranked.prior)
            : std::string();
    auto const taken = bar_width + 6 + tail.size();
    auto const columns = std::max(narrowest_name, width > taken ? width - taken : 0);
    auto const name = fitted(title + not_pain_mark(pack_, ranked.cause), columns);
    page_.line(fmt::format("{:>2}  {} {}{}", rank, page_.bold(name),
                           page_.bar(ranked.posterior, bar_width), tail));
  }

  void cause_reasons(CauseId cause) {
    auto const all = reasons(result_, cause);
    auto const shown =
        options_.numbers == Numbers::shown ? all.size() : std::min(all.size(), reasons_shown);
    for (std::size_t i = 0; i < shown; ++i) {
      auto const& reason = all[i];
      auto words = weight_in_words(reason.weight);
      if (options_.numbers == Numbers::shown)
        words += fmt::format(" ({:+.1f} dB{})", decibans(reason.weight),
                             reason.share < 1 ? ", overlap" : "");
      page_.paragraph(fmt::format("{}: {}", reason_text(pack_, reason), words), 4,
                      reason.weight >= 0 ? "+ " : "- ");
    }
  }

  void next_steps() {
    if (told_.next.empty() || !options_.are_causes_named) return;
    page_.heading("NEXT, FOR THE VET");
    for (auto const& step : told_.next) page_.paragraph(step, 2, page_.bullet());
    page_.blank();
  }

  // What to do at once in full, of the rest the first few by name.
  void until_seen() {
    constexpr std::size_t shown = 3;
    if (pack_.care.empty()) return;
    page_.heading("UNTIL SEEN");
    write_script(told_, page_);
    std::size_t offered = 0;
    std::string titles;
    for (auto const& measure : told_.plan.measures) {
      auto const& care = pack_.care[measure.care];
      bool const is_in_script = care.first_aid && !care.say.empty();
      if (measure.advice != Advice::offered || measure.fits != Truth::yes || is_in_script) continue;
      if (++offered <= shown) titles += (titles.empty() ? "" : "; ") + care.title;
    }
    for (auto const& text : {told_.mouth.medicines, titles.empty() ? titles : titles + ".",
                             "Look again: " + told_.look_again})
      if (!text.empty()) page_.paragraph(text, 2, page_.bullet());
    if (!options_.care_command.empty())
      page_.paragraph("What to do, what not, and when to ring again: " + options_.care_command, 2,
                      page_.bullet());
    page_.blank();
  }

  // Answers that nobody gave, but that follow from those given: the first few of each kind.
  void settled() {
    std::map<std::pair<SignId, Origin>, std::vector<std::string>> by_cause;
    for (auto const& known : result_.knowledge.known) {
      if (known.origin == Origin::given || known.from == known.sign) continue;
      auto const is_value =
          known.origin == Origin::from_breed || known.origin == Origin::from_weight;
      by_cause[{known.from, known.origin}].push_back(
          pack_[known.sign].label +
          (is_value ? " " + answer_text(pack_, known.sign, known.answer) : ""));
    }
    if (by_cause.empty()) return;
    page_.heading("FOLLOWS FROM WHAT WAS SAID");
    for (auto const& [key, signs] : by_cause)
      page_.paragraph(settled_text(key.first, key.second, first_few(signs)), 2, page_.bullet());
    page_.blank();
  }

  [[nodiscard]] std::string settled_text(SignId from, Origin origin, std::string const& signs) {
    auto const& label = pack_[from].label;
    switch (origin) {
      case Origin::from_whole:
        return fmt::format("\"{}\" was answered no, and so these are no: {}", label, signs);
      case Origin::from_part:
        return fmt::format("\"{}\" was answered yes, and so these are yes: {}", label, signs);
      case Origin::inapplicable:
        return fmt::format("by \"{}\", cannot apply: {}", label, signs);
      case Origin::from_breed:
      case Origin::from_weight:
      case Origin::given:
        break;
    }
    return fmt::format("by the {}: {}", label, signs);
  }

  [[nodiscard]] static std::string first_few(std::vector<std::string> const& names) {
    constexpr std::size_t few = 3;
    auto const shown = names.size() > few + 1 ? few : names.size();
    std::string out;
    for (std::size_t i = 0; i < shown; ++i) out += (i == 0 ? "" : ", ") + names[i];
    return shown == names.size() ? out : out + fmt::format(" and {} more", names.size() - shown);
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& patient_;
  Assessment const& result_;
  Telling told_;
  TextOptions const& options_;
  Page page_;
};

}  // namespace

std::string assessment_text(Tables const& tables, Case const& patient, Assessment const& result,
                            TextOptions const& options, Look const& look) {
  return AssessmentText(tables, patient, result, options, look).write();
}

}  // namespace flinch::cli
