#include "flinch/text/nearest.hpp"

#include <algorithm>

namespace flinch {
namespace {

// `Hit-Window` and `hit_window` differ in the way of writing alone.
bool is_same_word(std::string_view a, std::string_view b) {
  auto const plain = [](char c) {
    return c == '-' || c == ' ' ? '_' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return plain(x) == plain(y); });
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t limit) {
  auto const gap = a.size() > b.size() ? a.size() - b.size() : b.size() - a.size();
  if (gap > limit) return limit + 1;
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] =
          std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] != b[j - 1] ? 1 : 0)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    if (*std::min_element(row.begin(), row.end()) > limit) return limit + 1;
    std::swap(before, last);
    std::swap(last, row);
  }
  return std::min(last[b.size()], limit + 1);
}

std::optional<std::string> nearest(std::string_view word,
                                   std::vector<std::string_view> const& candidates) {
  constexpr std::size_t longest_word = 80;  // longer words are no misspellings
  if (word.empty() || word.size() > longest_word) return std::nullopt;
  for (auto const candidate : candidates)
    if (is_same_word(word, candidate)) return std::string(candidate);
  auto best = std::max<std::size_t>(1, word.size() / 3);
  std::optional<std::string_view> found;
  for (auto const candidate : candidates) {
    auto const distance = edit_distance(word, candidate, best);
    if (distance < best || (distance == best && (!found || candidate < *found))) {
      best = distance;
      found = candidate;
    }
  }
  if (!found) return std::nullopt;
  return std::string(*found);
}

std::optional<std::string> other_names(std::string_view word,
                                       std::vector<std::string_view> candidates) {
  constexpr std::size_t shortest = 3;  // fewer letters are in too many names
  constexpr std::size_t named_at_most = 6;
  constexpr std::size_t few = 12;
  std::sort(candidates.begin(), candidates.end());
  auto const listed = [](std::vector<std::string_view> const& names) {
    std::string out;
    for (auto const name : names) out += (out.empty() ? "`" : ", `") + std::string(name) + "`";
    return out;
  };
  std::vector<std::string_view> holding;
  for (auto const candidate : candidates)
    if (word.size() >= shortest && candidate.find(word) != std::string_view::npos &&
        holding.size() < named_at_most)
      holding.push_back(candidate);
  // Of many, those that begin with its own first word.
  if (auto const first = word.substr(0, word.find('_'));
      candidates.size() > few && holding.empty() && first.size() > shortest &&
      first.size() < word.size()) {
    for (auto const candidate : candidates)
      if (candidate.starts_with(first)) holding.push_back(candidate);
    if (!holding.empty() && holding.size() <= named_at_most)
      return "names that begin with `" + std::string(first) + "`: " + listed(holding);
    holding.clear();
  }
  if (!holding.empty()) return "names with `" + std::string(word) + "` in them: " + listed(holding);
  if (candidates.empty() || candidates.size() > few) return std::nullopt;
  return (candidates.size() == 1 ? "there is only " : "there are ") + listed(candidates);
}

}  // namespace flinch
