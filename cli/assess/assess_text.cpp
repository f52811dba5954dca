#include "assess/assess_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "care/care_text.hpp"
#include "flinch/assess/localisation.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/open_count.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"
#include "look/urgency_text.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t questions_shown = 6;
constexpr std::size_t reasons_shown = 2;

class AssessmentText {
 public:
  AssessmentText(Tables const& tables, Case const& dog, Assessment const& result,
                 TextOptions const& options, Look const& look)
      : tables_(tables),
        pack_(tables.pack()),
        dog_(dog),
        result_(result),
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
    write_care_summary(pack_, plan_care(tables_, result_, CareReader::keeper), page_);
    caution();
    return page_.take();
  }

 private:
  void who() {
    auto const facts = signalment_text(pack_, result_);
    page_.heading(dog_.name.empty() ? "A dog" : dog_.name);
    if (!facts.empty()) page_.paragraph(facts);
    if (!dog_.note.empty()) page_.paragraph("Note: " + dog_.note);
    page_.blank();
  }

  void how_soon() {
    page_.heading("HOW SOON");
    auto const tiers = pack_.tiers.size();
    if (!result_.tier) {
      page_.line("  " + page_.marks(0, tiers) + "  " +
                 page_.strong(" Nothing told that says how soon "));
      page_.paragraph(
          "Answers of no, and what kind of dog it is, do not say how soon: one sign that is there "
          "does. No alarm has fired on what is known. Unknown is not no: see what is still open "
          "below.");
      page_.blank();
      return;
    }
    write_tier(pack_, result_, options_.are_dangers_unasked ? "At least:" : "", page_);
    if (options_.are_dangers_unasked)
      page_.paragraph("Dangers have not all been asked for: it may be more urgent.");
    write_findings(pack_, result_, Wording::in_full,
                   options_.are_causes_named ? Causes::named : Causes::left_out, page_);
    if (options_.numbers == Numbers::shown) tier_numbers();
    page_.blank();
  }

  void tier_numbers() {
    for (std::size_t i = 0; i < result_.tiers.size(); ++i) {
      auto const& tier = result_.tiers[i];
      if (!tier.threshold) continue;
      page_.line(
          fmt::format("    {}  chance of a cause that needs it {:6.2f}%, enough from {:5.2f}%{}",
                      fitted(pack_.tiers[i].name, 8), 100 * tier.probability, 100 * *tier.threshold,
                      tier.is_reached ? "  reached" : ""));
    }
  }

  void could_be_higher() {
    if (result_.ceiling == result_.tier || !result_.ceiling) return;
    auto questions = open_questions(tables_, result_);
    if (options_.audience)
      std::erase_if(questions, [&](OpenQuestion const& open) {
        return !can_see(*options_.audience, pack_[open.sign].seen_by);
      });
    if (questions.empty()) return;
    page_.heading("COULD BE HIGHER");
    page_.paragraph(fmt::format("Up to \"{}\" until these are answered; unknown is not no. {}.",
                                pack_[questions.front().could_reach].title,
                                open_count_text(pack_, questions)));
    for (std::size_t i = 0; i < std::min(questions.size(), questions_shown); ++i) {
      auto const& question = questions[i];
      auto const& sign = pack_[question.sign];
      auto const ask =
          sign.of_the_dog ? fmt::format("What is the dog's {}?", sign.label) : sign.ask;
      page_.paragraph(fmt::format("{}{}{}", question.could_not_tell ? "(could not be told) " : "",
                                  ask, sign.seen_by == SeenBy::clinic ? " (at the clinic)" : ""),
                      2, fmt::format("{} ", fitted(pack_[question.could_reach].name, 6)));
    }
    if (questions.size() > questions_shown)
      page_.paragraph(
          fmt::format("... and {} more open questions", questions.size() - questions_shown));
    page_.blank();
  }

  void contradictions() {
    if (result_.contradictions.empty()) return;
    page_.heading("ANSWERS THAT CLASH (the more dangerous one was counted)");
    for (auto const& c : result_.contradictions)
      page_.paragraph(contradiction_text(pack_, c), 2, page_.bullet());
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
      bool const tells =
          !result_.nothing_told && !place.regions.empty() && place.regions[0].probability >= likely;
      page_.paragraph(tells ? fmt::format("No place was named; the ranked causes point to the {}.",
                                          pack_[place.regions[0].region].title)
                            : "Not localised.");
    }
    if (options_.numbers == Numbers::shown && !result_.nothing_told)
      for (auto const& region : place.regions)
        page_.line(fmt::format("    {}  {:6.2f}%", fitted(pack_[region.region].title, 20),
                               100 * region.probability));
    page_.blank();
  }

  void causes() {
    page_.heading("WHAT IT MAY BE");
    if (result_.nothing_told) {
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

  // What to examine or test next, from the causes that stand highest, each step once.
  void next_steps() {
    if (result_.nothing_told || !options_.are_causes_named) return;
    constexpr std::size_t causes_asked = 3;
    constexpr double worth_a_test = 0.05;
    std::vector<std::string> steps;
    std::size_t asked = 0;
    for (auto const& ranked : result_.ranking) {
      if (!ranked.cause) continue;
      if (asked++ == causes_asked || ranked.posterior < worth_a_test) break;
      for (auto const& next : pack_[*ranked.cause].next)
        if (std::find(steps.begin(), steps.end(), next) == steps.end()) steps.push_back(next);
    }
    if (steps.empty()) return;
    page_.heading("NEXT, FOR THE VET");
    for (auto const& step : steps) page_.paragraph(step, 2, page_.bullet());
    page_.blank();
  }

  // Answers that nobody gave, but that follow from those given: the first few of each kind.
  void settled() {
    std::map<std::pair<SignId, Origin>, std::vector<std::string>> by_cause;
    for (auto const& known : result_.known) {
      if (known.origin == Origin::given) continue;
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
        return fmt::format("no to \"{}\" is no to: {}", label, signs);
      case Origin::from_part:
        return fmt::format("yes to \"{}\" is yes to: {}", label, signs);
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

  void caution() {
    page_.paragraph(
        "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and "
        "local "
        "rules decide. Give no human painkillers. If the dog gets worse, ring again at once.",
        0);
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& dog_;
  Assessment const& result_;
  TextOptions const& options_;
  Page page_;
};

}  // namespace

std::string signalment_text(Pack const& pack, Assessment const& result) {
  std::string out;
  for (auto const sign :
       {dog_sign::age, dog_sign::weight, dog_sign::breed, dog_sign::sex, dog_sign::neutered}) {
    auto const* known = result.find(sign);
    if (known == nullptr) continue;
    auto text = answer_text(pack, sign, known->answer);
    if (sign == dog_sign::neutered) text = text == "yes" ? "neutered" : "entire";
    out += (out.empty() ? "" : ", ") + text;
  }
  return out;
}

std::string assessment_text(Tables const& tables, Case const& dog, Assessment const& result,
                            TextOptions const& options, Look const& look) {
  return AssessmentText(tables, dog, result, options, look).write();
}

}  // namespace flinch::cli
