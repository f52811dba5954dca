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

// "400 mg" or "1 g 500 mg", or a bare number.
std::optional<Amount> amount(Sign const& sign, std::vector<std::string> const& words) {
  auto const parts = typed_amounts(words);
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
  // "A whole bar of 200 g"; half of one is not reckoned with.
  constexpr std::array<std::string_view, 7> packs = {"bar", "box", "packet", "pack",
                                                     "bag", "tin", "tub"};
  auto const of = std::find(words.begin(), words.end(), std::string("of"));
  auto const before = static_cast<std::size_t>(of - words.begin());
  bool const is_a_pack = of != words.end() &&
                         (before == 2 || (before == 3 && words[1] == "whole")) &&
                         (words[0] == "a" || words[0] == "one" || words[0] == "the") &&
                         std::find(packs.begin(), packs.end(), words[before - 1]) != packs.end();
  if (is_a_pack) return amount(sign, {of + 1, words.end()});
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
  auto const read =
      typed.find('-') != std::string_view::npos ? std::nullopt : counted(sign, entry_words(typed));
  if (!read)
    return remark(
        fmt::format("Not understood: \"{}\". Write one such as {}; or ?.", quoted(typed), example));
  // Fewer are more likely tablets; no tablet of a human painkiller is as weak (a judgement).
  constexpr double fewest_bare = 20;
  if (!read->has_unit && read->value > 0 && read->value < fewest_bare)
    return remark(fmt::format("{0} what? Write {0} {1}, or for {0} tablets {0} x 200 {1}.",
                              quoted(typed), unit));
  if (read->value < sign.low || read->value > sign.high)
    return remark(fmt::format("{} cannot be believed for {}; write one such as {}.", quoted(typed),
                              sign.label, example));
  return {Answer(read->value), false, {}};
}

}  // namespace flinch
