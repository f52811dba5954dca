#include "flinch/explain/reasons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numbers>

#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/choice.hpp"
#include "flinch/model/shown_weight.hpp"

namespace flinch {
namespace {

// As people say it: a puppy's in weeks, then months, then years.
std::string age_text(double years) {
  constexpr double weeks_in_year = 365.25 / 7;
  auto const in = [](double amount, std::string_view unit) {
    return fmt::format("{:.4g} {}{}", amount, unit, amount == 1 ? "" : "s");
  };
  if (years * 12 < 4) return in(std::round(years * weeks_in_year * 10) / 10, "week");
  if (years < 1) return in(std::round(years * 12 * 10) / 10, "month");
  return in(years, "year");
}

}  // namespace

double decibans(double nats) { return 10 * nats / std::numbers::ln10; }

std::string weight_in_words(double nats) {
  struct Word {
    double from;
    std::string_view word;
  };
  constexpr std::array words = {Word{15, "very strongly"}, Word{10, "strongly"}, Word{5, "clearly"},
                                Word{1, "a little"}, Word{0, "barely"}};
  auto const strength = std::abs(decibans(nats));
  constexpr double shown_as_zero = 0.05;
  if (strength < shown_as_zero) return "neither way";
  auto const* word =
      std::find_if(words.begin(), words.end(), [&](Word const& w) { return strength >= w.from; });
  return fmt::format("{} {}", word->word, nats > 0 ? "for" : "against");
}

std::vector<Reason> reasons(Assessment const& result, CauseId cause) {
  std::vector<Reason> out;
  for (auto const& rule : result.rules)
    for (auto const& c : result.contributions_of(rule))
      if (c.cause == cause) out.push_back({rule.rule, rule.truth, rule.band, c.counted(), c.share});
  std::stable_sort(out.begin(), out.end(), [](Reason const& a, Reason const& b) {
    return std::abs(a.weight) > std::abs(b.weight);
  });
  return out;
}

std::string reason_text(Pack const& pack, Reason const& reason) {
  auto const& rule = pack[reason.rule];
  if (!rule.bands.empty()) return fmt::format("{}: {}", rule.title, rule.bands[reason.band].text);
  // What is unknown weighs only where nobody mentioned it.
  return reason.truth == Truth::yes  ? rule.title
         : reason.truth == Truth::no ? "not: " + rule.title
                                     : "not mentioned: " + rule.title;
}

std::string title_of(Pack const& pack, std::optional<CauseId> cause) {
  return cause ? pack[*cause].title : "None of the listed causes";
}

std::string clinical_title(Pack const& pack, std::optional<CauseId> cause) {
  auto const& title = title_of(pack, cause);
  if (!cause || pack[*cause].also_called.empty()) return title;
  auto const& clinical = pack[*cause].also_called.front();
  auto const is_same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
  };
  bool const is_said = std::search(title.begin(), title.end(), clinical.begin(), clinical.end(),
                                   is_same) != title.end();
  return is_said ? title : fmt::format("{} ({})", title, clinical);
}

std::string not_pain_mark(Pack const& pack, std::optional<CauseId> cause) {
  return cause && pack[*cause].not_pain ? " (not pain)" : "";
}

std::optional<FamilyId> family_of(Pack const& pack, RuleId rule, CauseId cause) {
  for (auto const& entry : pack[rule].entries)
    if (entry.cause == cause) return entry.family;
  return std::nullopt;
}

std::string title_of(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].title : "Nothing told that says how soon";
}

std::string_view truth_text(Truth truth) {
  constexpr std::array<std::string_view, 3> words = {"no", "unknown", "yes"};
  return words.at(static_cast<std::size_t>(truth));
}

std::string_view kind_text(Contradiction::Kind kind) {
  constexpr std::array<std::string_view, 3> words = {"part_without_whole", "does_not_apply",
                                                     "found_and_clear"};
  return words.at(static_cast<std::size_t>(kind));
}

std::string contradiction_text(Pack const& pack, Contradiction const& contradiction) {
  auto const& counted = pack[contradiction.counted].label;
  auto const& against = pack[contradiction.against].label;
  switch (contradiction.kind) {
    case Contradiction::Kind::part_without_whole:
      return fmt::format("Yes to \"{}\", no to \"{}\", which includes it.", counted, against);
    case Contradiction::Kind::does_not_apply:
      return fmt::format("\"{}\" is answered, but cannot apply, by \"{}\".", counted, against);
    case Contradiction::Kind::found_and_clear:
      break;
  }
  return fmt::format("\"{}\" was found at a site that is given as clear.", counted);
}

std::string site_text(Pack const& pack, SiteMark const& mark) {
  std::string_view const side = mark.side == Side::left    ? "left "
                                : mark.side == Side::right ? "right "
                                                           : "";
  return fmt::format("{}{}", side, pack[mark.site].title);
}

std::string answer_text(Pack const& pack, SignId sign, Answer const& answer) {
  auto const& s = pack[sign];
  if (auto const* yes = std::get_if<bool>(&answer)) return *yes ? "yes" : "no";
  if (auto const* number = std::get_if<double>(&answer)) {
    if (sign == patient_sign::age) return age_text(*number);
    if (sign == patient_sign::weight || sign == patient_sign::weight_confirmed)
      return weight_text(pack, *number);
    if (s.unit.name.empty()) return fmt::format("{:.4g}", *number);
    std::string_view unit = s.unit.name;
    if (*number == 1 && s.unit.dimension == Dimension::time && unit.ends_with('s'))
      unit.remove_suffix(1);  // 1 hour
    return fmt::format("{:.4g} {}", *number, unit);
  }
  if (auto const* choice = std::get_if<Choice>(&answer)) return choice_label(pack, s, *choice);
  auto const& findings = std::get<Findings>(answer);
  if (findings.clear_everywhere && !findings.found_somewhere) return "nowhere";
  std::string out;
  for (auto const& mark : findings.found) out += (out.empty() ? "" : ", ") + site_text(pack, mark);
  if (out.empty() && findings.found_somewhere) out = "somewhere";
  std::string clear;
  for (auto const& mark : findings.clear)
    clear += (clear.empty() ? "" : ", ") + site_text(pack, mark);
  if (!clear.empty()) out += (out.empty() ? "" : "; ") + ("clear: " + clear);
  return out;
}

std::string said_text(Pack const& pack, Assessment const& result, SignId sign) {
  auto const* found = result.find(sign);
  if (found == nullptr) {
    bool const was_asked = result.knowledge.could_not_be_told(sign);
    return was_asked ? "could not be told" : "not known";
  }
  auto const& known = *found;
  auto text = answer_text(pack, known.sign, known.answer);
  auto const& from = pack[known.from].label;
  switch (known.origin) {
    case Origin::given:
      return text;
    case Origin::from_whole:
      return text + fmt::format(" (follows from no to \"{}\")", from);
    case Origin::from_part:
      return text + fmt::format(" (follows from yes to \"{}\")", from);
    case Origin::inapplicable:
      if (known.from == sign) return text;
      return text + fmt::format(" (cannot apply, by \"{}\")", from);
    case Origin::from_breed:
    case Origin::from_weight:
      return text + fmt::format(" (by the {})", from);
  }
  return text;
}

std::string known_text(Pack const& pack, Assessment const& result, SignId sign) {
  return fmt::format("{}: {}", pack[sign].label, said_text(pack, result, sign));
}

std::string change_text(Pack const& pack, Change const& change) {
  return fmt::format(
      "{}: {}", pack[change.sign].label,
      change.answer ? answer_text(pack, change.sign, *change.answer) : std::string("can't tell"));
}

// "neutered (gelding)" where the pack has a word for one of its sex.
static std::string neutered_text(Pack const& pack, Assessment const& result) {
  auto const* sex = result.find(patient_sign::sex);
  auto const word = sex == nullptr
                        ? std::nullopt
                        : word_for_neutered(pack.words, std::get<Choice>(sex->answer).index == 0);
  return word ? fmt::format("neutered ({})", *word) : "neutered";
}

std::string signalment_text(Pack const& pack, Assessment const& result) {
  std::string out;
  for (auto const sign : {patient_sign::age, patient_sign::weight, patient_sign::breed,
                          patient_sign::sex, patient_sign::neutered}) {
    auto const* known = result.find(sign);
    if (known == nullptr) continue;
    if (sign == patient_sign::neutered && known->origin == Origin::inapplicable) continue;
    auto text = answer_text(pack, sign, known->answer);
    if (sign == patient_sign::neutered)
      text = known->answer == Answer(true) ? neutered_text(pack, result) : "entire";
    if (sign == patient_sign::weight && doubt_of_weight(pack, result.knowledge))
      text += " (far from usual, not confirmed)";
    out += (out.empty() ? "" : ", ") + text;
  }
  return out;
}

std::string told_where_text(Pack const& pack, Care const& care) {
  std::string causes;
  for (std::size_t i = 0; i < care.causes.size(); ++i)
    causes += (i == 0                        ? ""
               : i + 1 == care.causes.size() ? " or "
                                             : ", ") +
              pack[care.causes[i]].title;
  if (causes.empty()) return causes;
  return fmt::format("told where {} is at least {:g} % likely", causes,
                     100 * likely_enough_for_care);
}

std::string grade_words(char grade) {
  switch (grade) {
    case 'A':
      return "A, trials agree";
    case 'B':
      return "B, some trials";
    case 'C':
      return "C, expert opinion";
    default:
      return "D, no good evidence that it helps";
  }
}

}  // namespace flinch
