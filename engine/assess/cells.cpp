#include "assess/cells.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "assess/evaluate.hpp"
#include "model/typical_answers.hpp"

namespace flinch {
namespace {

// Cells times tests of one sign. Beyond it (thousands of limits on one number) its tests are run
// for every case; but yes and no are always cells.
constexpr std::size_t most_truths = std::size_t{1} << 20U;

}  // namespace

Cells::Cells(Tables const& tables, std::span<Tables::Leaf> leaves) : pack_(tables.pack()) {
  auto const signs = pack_.signs.size();
  std::vector<std::vector<std::uint32_t>> leaves_of(signs);
  for (std::uint32_t i = 0; i < leaves.size(); ++i) leaves_of[index(leaves[i].sign)].push_back(i);
  truths_.push_back(Truth::unknown);
  limit_rows_.push_back(0);
  for (std::uint32_t s = 0; s < signs; ++s) {
    for (auto const leaf : leaves_of[s])
      for (auto const limit : {leaves[leaf].low, leaves[leaf].high})
        if (traits(pack_.signs[s]).is_number && std::isfinite(limit)) limits_.push_back(limit);
    auto const first = limits_.begin() + limit_rows_.back();
    std::sort(first, limits_.end());
    limits_.erase(std::unique(first, limits_.end()), limits_.end());
    limit_rows_.push_back(static_cast<std::uint32_t>(limits_.size()));
    auto const answers = samples(SignId{s});
    bool const is_divided =
        traits(pack_.signs[s]).is_plain ||
        (!answers.empty() && answers.size() * leaves_of[s].size() <= most_truths);
    counts_.push_back(is_divided ? static_cast<std::uint32_t>(answers.size()) + 1 : 0);
    if (!is_divided) continue;
    for (auto const leaf : leaves_of[s]) {
      leaves[leaf].first_truth = static_cast<std::uint32_t>(truths_.size());
      truths_.push_back(Truth::unknown);
      for (auto const& answer : answers)
        truths_.push_back(leaf_truth(tables, leaves[leaf], answer));
    }
  }
}

// An answer out of each cell, in the order of the cells.
std::vector<Answer> Cells::samples(SignId sign) const {
  if (!traits(pack_[sign]).is_number) return typical_answers(pack_, sign, {});
  // Below the first limit, at it, between it and the next, and so on; the ends lie in no cell of
  // their own. The numbers in question are finite, and so are these: a test without a limit need
  // not hold of infinity.
  auto const limits = std::span(limits_).subspan(limit_rows_[index(sign)]);
  using Range = std::numeric_limits<double>;
  auto const numbers =
      typical_numbers({limits.begin(), limits.end()}, Range::lowest(), Range::max());
  return {numbers.begin() + 1, numbers.end() - 1};
}

std::uint32_t Cells::cell_of(SignId sign, Answer const& answer) const {
  if (!is_divided(sign)) return undivided;
  if (auto const* yes = std::get_if<bool>(&answer)) return *yes ? 1 : 2;
  if (auto const* choice = std::get_if<Choice>(&answer)) return 1 + choice->index;
  auto const value = std::get<double>(answer);
  auto const first = limits_.begin() + limit_rows_[index(sign)];
  auto const last = limits_.begin() + limit_rows_[index(sign) + 1];
  auto const at = std::lower_bound(first, last, value);
  auto const before = static_cast<std::uint32_t>(at - first);
  return 1 + 2 * before + (at != last && *at == value ? 1 : 0);
}

}  // namespace flinch
