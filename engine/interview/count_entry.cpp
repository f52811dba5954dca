// Choices whose labels count ("two to four times", "2 to 5 cm"), and counts that were typed.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>

#include "flinch/model/units.hpp"
#include "interview/entry_words.hpp"

namespace flinch {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

struct Count {
  double low = 0, high = 0;
  bool is_low_out = false, is_high_out = false;  ///< "over 5" leaves 5 out
  bool is_whole = false;                         ///< the words say no more than this

  [[nodiscard]] bool holds(double value) const {
    return (is_low_out ? value > low : value >= low) &&
           (is_high_out ? value < high : value <= high);
  }
};

class CountReader {
 public:
  explicit CountReader(std::vector<std::string> words) : words_(std::move(words)) {}

  std::optional<Count> read() {
    auto out = amount();
    if (!out) return std::nullopt;
    bool const is_counted = is("times") || is("time") || is("x");
    if (is_counted) ++at_;
    bool const is_measured = !is_counted && at_ < words_.size() && is_unit(words_[at_]);
    if (is_measured) ++at_;
    if (is("or") && is("more", 1)) {
      out->high = no_limit;
      at_ += 2;
    }
    out->is_whole = at_ == words_.size();
    // "One against clotting" counts nothing.
    if (!out->is_whole && !is(",") && !is_counted && !is_measured && out->high != no_limit)
      return std::nullopt;
    return out;
  }

 private:
  std::optional<Count> amount() {
    bool const is_under = is("under");
    bool const is_over = is("over");
    bool const is_at_least = is("at") && is("least", 1);
    at_ += is_at_least ? 2 : is_under || is_over ? 1 : 0;
    auto const first = number();
    if (!first) return std::nullopt;
    Count out{*first, *first};
    if (is_under) return Count{0, *first, false, true};
    if (is_over) return Count{*first, no_limit, true, false};
    if (is_at_least) return Count{*first, no_limit};
    if (!is("to") && !is("or")) return out;
    ++at_;
    if (auto const last = number())
      out.high = *last;
    else
      --at_;
    return out.high < out.low ? std::nullopt : std::optional(out);
  }

  std::optional<double> number() {
    if (at_ >= words_.size()) return std::nullopt;
    constexpr std::array<std::string_view, 3> often = {"once", "twice", "thrice"};
    if (auto const* said = std::find(often.begin(), often.end(), words_[at_]);
        said != often.end()) {
      ++at_;
      return static_cast<double>(said - often.begin() + 1);
    }
    auto const read = typed_amounts({words_[at_]}, UpperLimit::tells_nothing);
    if (!read || read->size() != 1 || !read->front().unit.empty()) return std::nullopt;
    ++at_;
    return read->front().value;
  }

  static bool is_unit(std::string const& word) {
    return word == "cm" || word == "mm" || find_unit(word).has_value();
  }
  [[nodiscard]] bool is(std::string_view word, std::size_t ahead = 0) const {
    return at_ + ahead < words_.size() && words_[at_ + ahead] == word;
  }

  std::vector<std::string> words_;
  std::size_t at_ = 0;
};

std::optional<Count> count_of(std::string_view text) {
  return CountReader(entry_words(text)).read();
}

// Without what stands around a count: "about", "a day", "so far today".
std::vector<std::string> without_surroundings(std::vector<std::string> words) {
  constexpr std::array<std::string_view, 5> before = {"about", "around", "maybe", "just", "only"};
  while (!words.empty() && is_one_of(words.front(), before)) words.erase(words.begin());
  constexpr std::array<std::string_view, 9> behind = {"today",   "so far",   "so far today",
                                                      "a day",   "in a day", "in the last day",
                                                      "all day", "now",      "already"};
  for (auto from = words.begin(); from != words.end(); ++from)
    if (is_one_of(joined({from, words.end()}), behind)) {
      words.erase(from, words.end());
      break;
    }
  return words;
}

// A whole number of digits alone.
std::optional<std::size_t> bare_digits(std::string const& wanted) {
  std::size_t out = 0;
  auto const* const last = wanted.data() + wanted.size();
  auto const read = std::from_chars(wanted.data(), last, out);
  return read.ec == std::errc{} && read.ptr == last ? std::optional(out) : std::nullopt;
}

}  // namespace

std::optional<std::uint32_t> counted_value(Sign const& sign,
                                           std::vector<std::string> const& words) {
  auto const said = CountReader(without_surroundings(words)).read();
  if (!said || !said->is_whole || bare_digits(joined(words))) return std::nullopt;
  std::optional<std::uint32_t> out;
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) {
    auto const count = count_of(sign.values[i].label);
    if (!count || !count->is_whole || !count->holds(said->low) || !count->holds(said->high))
      continue;
    if (out) return std::nullopt;
    out = i;
  }
  return out;
}

std::optional<std::uint32_t> value_by_line(Sign const& sign,
                                           std::vector<std::string> const& words) {
  auto const number = words.size() == 2 && (words[0] == "line" || words[0] == "number")
                          ? bare_digits(words[1])
                          : std::nullopt;
  if (!number || *number < 1 || *number > sign.values.size()) return std::nullopt;
  return static_cast<std::uint32_t>(*number - 1);
}

std::optional<std::uint32_t> counted_otherwise(Sign const& sign, std::size_t line) {
  auto const value = static_cast<double>(line);
  auto const holds = [&](std::size_t i) {
    auto const count = count_of(sign.values[i].label);
    return count && count->holds(value);
  };
  if (line >= 1 && line <= sign.values.size() && holds(line - 1)) return std::nullopt;
  for (std::uint32_t i = 0; i < sign.values.size(); ++i)
    if (holds(i)) return i;
  return std::nullopt;
}

bool are_values_counted(Sign const& sign) {
  for (std::size_t line = 1; line <= sign.values.size(); ++line)
    if (counted_otherwise(sign, line)) return true;
  return false;
}

}  // namespace flinch
