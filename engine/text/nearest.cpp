#include "flinch/text/nearest.hpp"

#include <algorithm>

namespace flinch {

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

}  // namespace flinch
