// What the pack says of its species: words, believable ages and weights, sizes.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <tuple>

#include "flinch/syntax/print.hpp"

#include "model/resolver.hpp"

namespace flinch {
namespace {

constexpr std::size_t longest_word = 40;  // of one for the species, in bytes

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

// The sizes in their order, the last without its weight; nothing where a unit is wrong.
std::optional<std::string> smallest_first(std::vector<syntax::SizeStep> sizes) {
  auto const kg = [](syntax::SizeStep const& size) {
    auto const unit = size.up_to ? find_unit(size.up_to->unit) : std::nullopt;
    if (!size.up_to) return std::numeric_limits<double>::max();
    return unit && unit->dimension == Dimension::mass ? size.up_to->value * unit->factor : -1;
  };
  if (std::any_of(sizes.begin(), sizes.end(), [&](auto const& size) { return kg(size) < 0; }))
    return std::nullopt;
  std::stable_sort(sizes.begin(), sizes.end(),
                   [&](auto const& a, auto const& b) { return kg(a) < kg(b); });
  std::string out;
  for (auto const& size : sizes) {
    if (!out.empty()) out += ", ";
    out += size.name.text;
    if (&size != &sizes.back())
      out += fmt::format(" to {} {}", syntax::print_number(size.up_to->value), size.up_to->unit);
  }
  return out;
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
    auto& words = called.part.text == "male"     ? pack_.words.male
                  : called.part.text == "female" ? pack_.words.female
                                                 : pack_.words.young;
    if (!words.empty())
      report_.error(Code::clause_twice, called.part.at,
                    fmt::format("`{}` is called twice: join its words by `or`", called.part.text));
    for (auto const& text : called.words) words.push_back(word(text));
  }
  pack_.is_never_neutered = head.never_neutered;
  pack_.body_surface = figure(head.body_surface);
  pack_.resting_energy = figure(head.resting_energy);
  finest_mark(head.drawn_up, pack_.syringe_marks.swallowed_mL);
  finest_mark(head.injected, pack_.syringe_marks.injected_mL);
  believable(head);
  sizes(head);
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
  if (!head.grown && !written_packs_.front().damaged) missing("pack", head.name, "grown at");
  std::vector<syntax::Value> names;
  for (auto const& size : head.sizes) names.push_back({size.name, {}});
  pack_.signs[index(patient_sign::size)].values = values(names, "size");
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
        error.notes.push_back({fmt::format("written as in `sizes {}`", *sorted), {}});
    }
    ranges.push_back({low_kg, std::max(low_kg, high_kg.value_or(low_kg))});
    low_kg = ranges.back().high_kg;
  }
  pack_.size_by_weight = std::move(ranges);
}

}  // namespace flinch
