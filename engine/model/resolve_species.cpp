// What the pack says of its species: words, believable ages and weights, sizes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <tuple>

#include "flinch/model/shown_weight.hpp"
#include "flinch/syntax/print.hpp"

#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

constexpr std::string_view neutered_part = "neutered ";
constexpr std::size_t longest_word = 40;  // of one for the species, in bytes
constexpr std::size_t most_words = 64;    // of one part of `called`
// Beyond these a doubt about weights would hardly ever be raised; judgement.
constexpr double most_above = 3;         // of the heavy end of what is usual
constexpr double least_below = 0.2;      // of the light end
constexpr double weight_of_leeways = 4;  // so many fit into the heaviest weight
constexpr double leeways_of_dosed = 4;   // so many lightest weights of `doses` are one

// Letters, blanks, `-` and `'`: such a word is harmless wherever it is shown. Of what is not ASCII
// the control characters and the marks that turn the direction of writing are no letters.
bool is_plain_word(std::string_view word) {
  if (word.empty() || word.size() > longest_word || word.front() == ' ' || word.back() == ' ')
    return false;
  for (std::size_t i = 0; i < word.size(); ++i) {
    auto const byte = static_cast<unsigned char>(word[i]);
    auto const next = i + 1 < word.size() ? static_cast<unsigned char>(word[i + 1]) : 0;
    bool const is_letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
    if (byte < 0x80 && !is_letter && byte != ' ' && byte != '-' && byte != '\'') return false;
    if ((byte == 0xC2 && next < 0xA0) || (byte == 0xE2 && (next == 0x80 || next == 0x81)))
      return false;
  }
  return true;
}

// What a case or an example says by a word of its own cannot be a species as well.
bool is_taken(std::string_view key) {
  constexpr std::array<std::string_view, 14> taken = {
      "name",    "answers", "outcome", "note", "caller", "yes",    "no",
      "unknown", "found",   "clear",   "with", "expect", "accept", "patient"};
  return std::find(taken.begin(), taken.end(), key) != taken.end();
}

// In kg; below zero where the unit is wrong.
double most_of(syntax::SizeStep const& size) {
  auto const unit = size.up_to ? find_unit(size.up_to->unit) : std::nullopt;
  if (!size.up_to) return std::numeric_limits<double>::max();
  return unit && unit->dimension == Dimension::mass ? size.up_to->value * unit->factor : -1;
}

// As they are written, the last without its weight.
std::string written_out(std::vector<syntax::SizeStep> const& sizes) {
  std::string out;
  for (auto const& size : sizes) {
    if (!out.empty()) out += ", ";
    out += size.name.text;
    if (&size != &sizes.back())
      out += fmt::format(" to {} {}", syntax::print_number(size.up_to->value), size.up_to->unit);
  }
  return out;
}

// The sizes by their weights; nothing where a unit is wrong.
std::optional<std::string> smallest_first(std::vector<syntax::SizeStep> sizes) {
  if (std::any_of(sizes.begin(), sizes.end(), [](auto const& size) { return most_of(size) < 0; }))
    return std::nullopt;
  std::stable_sort(sizes.begin(), sizes.end(),
                   [](auto const& a, auto const& b) { return most_of(a) < most_of(b); });
  return written_out(sizes);
}

// The sizes in their order, and the weights in theirs.
std::string with_weights_sorted(std::vector<syntax::SizeStep> const& sizes) {
  auto sorted = sizes;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](auto const& a, auto const& b) { return most_of(a) < most_of(b); });
  auto out = sizes;
  for (std::size_t i = 0; i < out.size(); ++i) out[i].up_to = sorted[i].up_to;
  return written_out(out);
}

}  // namespace

void Resolver::species(syntax::PackHead const& head) {
  if (head.species) pack_.species = head.species->key.text;
  if (is_taken(pack_.species))
    report_.error(Code::species_word, head.species->key.at,
                  fmt::format("`{}` means something else in a case or an example", pack_.species));
  auto const word = [&](syntax::Text const& text) {
    if (!is_plain_word(text.text))
      report_.error(Code::species_word, text.at,
                    fmt::format("a word for the species has letters, blanks, `-` and `'`, and at "
                                "most {} of them",
                                longest_word));
    return text.text;
  };
  if (head.species && head.species->one) {
    pack_.words.one = word(*head.species->one);
    pack_.words.many = word(*head.species->many);
  }
  for (auto const& called : head.called) {
    auto& words = called.part.text == "male"              ? pack_.words.male
                  : called.part.text == "female"          ? pack_.words.female
                  : called.part.text == "neutered male"   ? pack_.words.neutered_male
                  : called.part.text == "neutered female" ? pack_.words.neutered_female
                                                          : pack_.words.young;
    if (!words.empty())
      report_.error(Code::clause_twice, called.part.at,
                    fmt::format("`{}` is called twice: join its words by `or`", called.part.text));
    auto const count = std::min(called.words.size(), most_words);
    for (std::size_t i = 0; i < count; ++i) words.push_back(word(called.words[i]));
    if (called.words.size() > most_words)
      report_.error(
          Code::value_count, called.words[most_words].at,
          fmt::format("`{}` is called by at most {} words", called.part.text, most_words));
  }
  neutering(head);
  if (head.seen_at) pack_.seen_at = *head.seen_at;
  body_surface(head);
  pack_.resting_energy = figure(head.resting_energy);
  finest_mark(head.drawn_up, pack_.syringe_marks.swallowed_mL);
  finest_mark(head.injected, pack_.syringe_marks.injected_mL);
  believable(head);
  weight_doubts(head);
  sizes(head);
}

// What is said of the neutered must be able to be, and tell them apart.
void Resolver::neutering(syntax::PackHead const& head) {
  auto const& never = head.never_neutered;
  pack_.is_never_neutered = never && !never->sex;
  if (never && never->sex) {
    auto const& sexes = pack_[patient_sign::sex].values;
    auto const named = std::find_if(sexes.begin(), sexes.end(),
                                    [&](Value const& sex) { return sex.name == never->sex->text; });
    pack_.sex_never_neutered = static_cast<std::uint32_t>(named - sexes.begin());
    // As `applies if sex is ...` on a sign: false is a no, and not asked.
    Condition other;
    other.test.kind = Test::Kind::is_value;
    other.test.sign = patient_sign::sex;
    for (std::uint32_t i = 0; i < sexes.size(); ++i)
      if (i != *pack_.sex_never_neutered) other.test.values.push_back(i);
    other.at = never->sex->at;
    pack_.signs[index(patient_sign::neutered)].applies_if = std::move(other);
  }
  for (auto const& called : head.called) {
    if (!called.part.text.starts_with(neutered_part)) continue;
    auto const sex = called.part.text.substr(neutered_part.size());
    if (never && (!never->sex || never->sex->text == sex)) {
      auto& error = report_.error(
          Code::species_word, called.part.at,
          fmt::format("this pack says that a {} is never neutered: it needs no word for one", sex));
      error.notes.push_back(
          {never->sex ? fmt::format("take the word away, or the clause `never neutered {}`", sex)
                      : fmt::format("where only the other sex never is, write `never neutered {}`",
                                    sex == "male" ? "female" : "male"),
           {}});
    }
  }
  words_apart(head);
}

// A word for the neutered is none for the others.
void Resolver::words_apart(syntax::PackHead const& head) {
  struct Given {
    std::string_view part;
    Place at;
  };
  std::map<std::string, std::vector<Given>> given;  // each word once for each part
  for (auto const& called : head.called)
    for (auto const& word : called.words) {
      auto& earlier = given[in_small_letters(word.text)];
      bool is_new = true;
      for (auto const& [part, at] : earlier) {
        if (part == called.part.text) is_new = false;
        bool const is_of_neutered =
            part.starts_with(neutered_part) || called.part.text.starts_with(neutered_part);
        if (part == called.part.text || !is_of_neutered) continue;
        report_
            .error(Code::species_word, word.at,
                   fmt::format("`{}` is the word for {} already, and cannot tell the two apart",
                               word.text, part))
            .notes.push_back({"first given here", at});
      }
      if (is_new) earlier.push_back({called.part.text, word.at});
    }
}

std::optional<double> Resolver::figure(std::optional<syntax::SourcedNumber> const& written) {
  if (!written) return std::nullopt;
  if (written->source)
    if (auto const source = source_names_.find(*written->source, report_))
      pack_.figure_sources.push_back(SourceId{*source});
  if (written->number.value > 0) return written->number.value;
  report_.error(Code::empty_range, written->number.at, "the figure lies above zero");
  return std::nullopt;
}

// Measured in mammals and birds it lies about 0.1: beyond five times that either way it is a slip
// in the figure or in its unit. Common practice, no source.
void Resolver::body_surface(syntax::PackHead const& head) {
  constexpr double usual = 0.1;
  constexpr double far_off = 5;
  pack_.body_surface = figure(head.body_surface);
  if (!pack_.body_surface) return;
  auto const told = *pack_.body_surface;
  if (told >= usual / far_off && told <= usual * far_off) return;
  auto& error = report_.error(
      Code::empty_range, head.body_surface->number.at,
      fmt::format("the figure of the body surface lies from {:g} to {:g}: it tells m2 from kg",
                  usual / far_off, usual * far_off));
  constexpr double of_cm2_and_g = 100;  // cm2 per g^(2/3) in one of m2 per kg^(2/3)
  auto const meant = told / of_cm2_and_g;
  if (meant >= usual / far_off && meant <= usual * far_off)
    error.notes.push_back(
        {fmt::format("books that tell cm2 from g have a hundredfold figure: `body surface {:.4g}`",
                     meant),
         {}});
  pack_.body_surface.reset();
}

// Above it the marks of larger syringes follow.
void Resolver::finest_mark(std::optional<syntax::Quantity> const& written, double& mL) {
  constexpr double coarsest_mL = 0.1;
  if (!written) return;
  auto const unit = find_unit(written->unit);
  if (!unit || unit->dimension != Dimension::volume) {
    report_.error(Code::unit_misfit, written->at,
                  fmt::format("a mark of a syringe is a volume; these fit: {}",
                              units_that_fit(Dimension::volume)));
    return;
  }
  mL = convert(written->value, *unit, *find_unit("mL"));
  if (mL > 0 && mL <= coarsest_mL) return;
  report_.error(Code::empty_range, written->at,
                fmt::format("the finest mark of a syringe lies above 0 and up to {:g} mL, which "
                            "larger syringes have",
                            coarsest_mL));
}

void Resolver::believable(syntax::PackHead const& head) {
  if (head.oldest)
    if (auto const oldest_s = quantity(*head.oldest, Dimension::time)) {
      auto& age = pack_.signs[index(patient_sign::age)];
      age.high = convert(*oldest_s, *find_unit("seconds"), age.unit);
      if (age.high <= 0)
        report_.error(Code::empty_range, head.oldest->at, "the oldest age lies above zero");
    }
  auto const range =
      [&](std::optional<syntax::Range> const& written) -> std::optional<WeightRange> {
    if (!written) return std::nullopt;
    auto low = written->low;
    if (low.unit.empty()) low.unit = written->high.unit;
    auto const low_kg = kilograms(low);
    auto const high_kg = kilograms(written->high);
    if (!low_kg || !high_kg) return std::nullopt;
    if (*low_kg > 0 && *low_kg < *high_kg) return WeightRange{*low_kg, *high_kg};
    report_.error(Code::empty_range, cover(written->low.at, written->high.at),
                  "weights run from the lower, above zero, to the higher");
    return std::nullopt;
  };
  auto& weight = pack_.signs[index(patient_sign::weight)];
  if (auto const believed = range(head.weight))
    std::tie(weight.low, weight.high) = std::pair(believed->low_kg, believed->high_kg);
  auto& confirmed = pack_.signs[index(patient_sign::weight_confirmed)];
  std::tie(confirmed.low, confirmed.high) = std::pair(weight.low, weight.high);
  pack_.doses = {weight.low, weight.high};
  auto const dosed = range(head.doses);
  if (!dosed) return;
  pack_.doses = {dosed->low_kg, dosed->high_kg};
  if (dosed->low_kg < weight.low || dosed->high_kg > weight.high) {
    auto& error = report_.error(
        Code::empty_range, cover(head.doses->low.at, head.doses->high.at),
        "amounts are computed only for weights that are believed, and these lie outside `weight`");
    if (head.weight)
      error.notes.push_back({"one of the two has a wrong figure or unit",
                             cover(head.weight->low.at, head.weight->high.at)});
    // Which of them is wrong is not known: what is believed by either is no further mistake.
    weight.low = std::min(weight.low, dosed->low_kg);
    weight.high = std::max(weight.high, dosed->high_kg);
  }
}

std::optional<double> Resolver::kilograms(syntax::Quantity const& written) {
  auto const unit = find_unit(written.unit);
  if (unit && unit->dimension == Dimension::mass)
    return convert(written.value, *unit, *find_unit("kg"));
  (void)quantity(written, Dimension::mass);  // says which units fit
  return std::nullopt;
}

// Shares of the usual weight, on the side where a doubt lies.
void Resolver::weight_doubts(syntax::PackHead const& head) {
  auto& doubts = pack_.weight_doubts;
  auto const share = [&](std::optional<syntax::Quantity> const& written, bool is_above,
                         double& out) {
    if (!written) return;
    if (written->unit != "%") {
      auto& error = report_.error(Code::unit_misfit, written->at,
                                  "it is a share of the usual weight, in `%`");
      error.notes.push_back({is_above ? "as in `170%`" : "as in `50%`", {}});
      return;
    }
    out = written->value / 100;
    if (is_above ? out > 1 && out <= most_above : out >= least_below && out < 1) return;
    report_.error(
        Code::empty_range, written->at,
        is_above ? fmt::format("what is too heavy lies above the usual weight: more than 100%, and "
                               "at most {:g}%, or no slip would be noticed",
                               100 * most_above)
                 : fmt::format("what is too light lies below the usual weight: less than 100%, and "
                               "at least {:g}%, or no slip would be noticed",
                               100 * least_below));
  };
  share(head.doubted_above, true, doubts.above_of_high);
  share(head.doubted_below, false, doubts.below_of_low);
  doubts.pounds_above = std::min(doubts.pounds_above, doubts.above_of_high);
  share(head.pounds_doubted_above, true, doubts.pounds_above);
  bool const is_pounds_sound = head.pounds_doubted_above && doubts.pounds_above <= most_above;
  if (is_pounds_sound && doubts.pounds_above > doubts.above_of_high)
    report_.error(Code::empty_range, head.pounds_doubted_above->at,
                  fmt::format("any weight is doubted above {:g}%: of what may be pounds it is less",
                              100 * doubts.above_of_high));
  if (!head.leeway) return;
  doubts.leeway_kg = kilograms(*head.leeway);
  if (!doubts.leeway_kg) return;
  if (*doubts.leeway_kg < 0)
    report_.error(Code::empty_range, head.leeway->at, "the leeway is no less than 0");
  auto most_kg = std::numeric_limits<double>::max();
  std::string_view bound;
  if (head.weight) {
    most_kg = pack_.signs[index(patient_sign::weight)].high / weight_of_leeways;
    bound = "a quarter of the heaviest weight that is believed";
  }
  if (head.doses && leeways_of_dosed * pack_.doses.lightest_kg < most_kg) {
    most_kg = leeways_of_dosed * pack_.doses.lightest_kg;
    bound = "four times the lightest weight of `doses`";
  }
  if (*doubts.leeway_kg <= most_kg) return;
  report_.error(Code::empty_range, head.leeway->at,
                fmt::format("the leeway is at most {}, {}: with more no slip would be "
                            "noticed in a small one",
                            bound, weight_text(pack_, most_kg)));
}

void Resolver::sizes(syntax::PackHead const& head) {
  if (head.grown)
    if (auto const grown_s = quantity(*head.grown, Dimension::time))
      pack_.grown_years = convert(*grown_s, *find_unit("seconds"), *find_unit("years"));
  if (head.sizes.empty()) {
    if (head.grown)
      report_.error(Code::missing_clause, head.grown->at,
                    "`grown at` says from when weight tells the size, and goes with `sizes`");
    return;
  }
  if (!head.grown && !written_packs_.front().damaged()) missing("pack", head.name, "grown at");
  std::vector<syntax::Value> names;
  for (auto const& size : head.sizes) names.push_back({size.name, {}});
  pack_.signs[index(patient_sign::size)].values = values(names, "size");
  if (head.sizes.size() > most_values) return;
  std::vector<WeightRange> ranges;
  double low_kg = 0;
  for (auto const& size : head.sizes) {
    bool const is_last = &size == &head.sizes.back();
    if (size.up_to && is_last) {
      auto& error =
          report_.error(Code::size_order, size.up_to->at,
                        "sizes stand the smallest first, and the last has no upper weight");
      if (auto const sorted = smallest_first(head.sizes))
        error.notes.push_back({fmt::format("written as in `sizes {}`", *sorted), {}});
    }
    if (!size.up_to && !is_last)
      report_.error(Code::size_order, size.name.at,
                    fmt::format("`{0}` needs the weight up to which it goes, as in `{0} to 5 kg`",
                                size.name.text));
    auto const high_kg =
        size.up_to ? kilograms(*size.up_to) : std::optional(std::numeric_limits<double>::max());
    if (size.up_to && !is_last && high_kg && *high_kg <= low_kg) {
      auto& error = report_.error(Code::size_order, size.up_to->at,
                                  "sizes stand the smallest first, each up to a larger weight");
      if (auto const sorted = smallest_first(head.sizes))
        error.notes.push_back(
            {fmt::format("either the weights have changed places, `sizes {}`, or the sizes, `{}`",
                         with_weights_sorted(head.sizes), *sorted),
             {}});
    }
    ranges.push_back({low_kg, std::max(low_kg, high_kg.value_or(low_kg))});
    low_kg = ranges.back().high_kg;
  }
  pack_.size_by_weight = std::move(ranges);
}

}  // namespace flinch
