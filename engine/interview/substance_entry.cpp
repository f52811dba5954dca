// Typed amounts of a substance that was swallowed.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

#include "interview/entry_words.hpp"

namespace flinch {
namespace {

// "1,000" is a thousand to some and one to others: a thousandth of what was taken is no answer.
bool may_be_thousands(std::string_view typed) {
  auto const is_digit = [&](std::size_t at) {
    return at < typed.size() && std::isdigit(static_cast<unsigned char>(typed[at])) != 0;
  };
  for (std::size_t i = 1; i < typed.size(); ++i) {
    bool const is_mark = typed[i] == ',' || typed[i] == '.' || typed[i] == '\'';
    if (is_mark && is_digit(i - 1) && is_digit(i + 1) && is_digit(i + 2) && is_digit(i + 3) &&
        !is_digit(i + 4))
      return true;
  }
  return false;
}

struct Amount {
  double value = 1;  ///< in the unit of the sign, or a bare number
  bool has_unit = false;
};

// What stands behind "a whole bar of", "the box of"; half of one is not reckoned with.
template <std::size_t Size>
std::optional<std::vector<std::string>> content_of(
    std::vector<std::string> const& words, std::array<std::string_view, Size> const& packs) {
  auto const of = std::find(words.begin(), words.end(), std::string("of"));
  auto const before = static_cast<std::size_t>(of - words.begin());
  bool const is_one = of != words.end() && (before == 2 || (before == 3 && words[1] == "whole")) &&
                      (words[0] == "a" || words[0] == "one" || words[0] == "the") &&
                      std::find(packs.begin(), packs.end(), words[before - 1]) != packs.end();
  if (!is_one) return std::nullopt;
  return std::vector<std::string>(of + 1, words.end());
}

constexpr std::array<std::string_view, 4> food_packs = {"bar", "bag", "tin", "tub"};
// What is written on them is the strength of one tablet.
constexpr std::array<std::string_view, 9> tablet_packs = {
    "box", "packet", "pack", "strip", "sheet", "bottle", "bag", "tin", "tub"};

bool is_weighed_as_food(Sign const& sign) { return sign.unit.name == "g"; }

// "400 mg" or "1 g 500 mg", or a bare number.
std::optional<Amount> amount(Sign const& sign, std::vector<std::string> const& words) {
  auto const parts = typed_amounts(words, UpperLimit::stands);
  if (!parts || parts->empty()) return std::nullopt;
  if (parts->size() == 1 && parts->front().unit.empty()) return Amount{parts->front().value, false};
  Amount out{0, true};
  for (auto const& part : *parts) {
    auto const unit = find_unit(part.unit);
    if (!unit || unit->dimension != sign.unit.dimension) return std::nullopt;
    out.value += convert(part.value, *unit, sign.unit);
  }
  return out;
}

// "2 x 200 mg", "200 mg x 2": how many of what strength; or one amount.
std::optional<Amount> counted(Sign const& sign, std::vector<std::string> const& words) {
  auto const food = content_of(words, food_packs);
  if (food && is_weighed_as_food(sign)) {
    auto const parts = typed_amounts(*food, UpperLimit::stands);
    bool const is_in_g = parts && std::none_of(parts->begin(), parts->end(),
                                               [](auto const& part) { return part.unit == "mg"; });
    return is_in_g ? amount(sign, *food) : std::nullopt;
  }
  auto const times = std::find(words.begin(), words.end(), std::string("x"));
  if (times == words.end()) return amount(sign, words);
  auto const one = amount(sign, {words.begin(), times});
  auto const other = amount(sign, {times + 1, words.end()});
  if (!one || !other || (one->has_unit && other->has_unit)) return std::nullopt;
  if (one->value <= 0 || other->value <= 0) return std::nullopt;
  // Two bare numbers are a count and a strength.
  return Amount{one->value * other->value, true};
}

}  // namespace

Entry read_substance(Sign const& sign, std::string_view typed) {
  auto const& unit = sign.unit.name;
  auto const example = fmt::format("400 {0} or 2 x 200 {0}", unit);
  if (may_be_thousands(typed))
    return remark(fmt::format("{} can be read in two ways: write a thousand as 1000 {}.",
                              quoted(typed), unit));
  if (!is_weighed_as_food(sign) && content_of(entry_words(typed), tablet_packs))
    return remark(fmt::format("{}: how many, of what strength? Write it as 16 x 200 {}; or ?.",
                              quoted(typed), unit));
  auto const read =
      typed.find('-') != std::string_view::npos ? std::nullopt : counted(sign, entry_words(typed));
  if (!read)
    return remark(
        fmt::format("Not understood: \"{}\". Write one such as {}; or ?.", quoted(typed), example));
  // Fewer are more likely tablets, or pieces of what is no medicine; no tablet of a human
  // painkiller is as weak (a judgement).
  constexpr double fewest_bare = 20;
  if (!read->has_unit && read->value > 0 && read->value < fewest_bare)
    return remark(
        fmt::format("{0} what? Write {0} {1}; or, of {0} tablets or pieces, what each "
                    "holds: {0} x 200 {1}.",
                    quoted(typed), unit));
  if (read->value < sign.low || read->value > sign.high)
    return remark(fmt::format("{} cannot be believed for {}; write one such as {}.", quoted(typed),
                              sign.label, example));
  return {Answer(read->value), false, {}};
}

}  // namespace flinch
