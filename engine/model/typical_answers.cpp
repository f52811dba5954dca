#include "model/typical_answers.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "flinch/model/choice.hpp"

namespace flinch {

std::vector<double> typical_numbers(std::vector<double> limits, double low, double high) {
  std::erase_if(limits, [&](double limit) { return !(limit > low && limit < high); });
  limits.insert(limits.end(), {low, high});
  std::sort(limits.begin(), limits.end());
  limits.erase(std::unique(limits.begin(), limits.end()), limits.end());
  std::vector<double> out{low};
  for (std::size_t i = 1; i < limits.size(); ++i) {
    out.push_back(std::midpoint(limits[i - 1], limits[i]));
    out.push_back(limits[i]);
  }
  return out;
}

std::vector<Answer> typical_answers(Pack const& pack, SignId sign, std::vector<double> limits) {
  auto const& its = pack[sign];
  if (traits(its).is_plain) return {true, false};
  std::vector<Answer> out;
  for (std::uint32_t i = 0; i < choice_count(pack, its); ++i) out.emplace_back(Choice{i});
  if (traits(its).is_number)
    for (auto const number : typical_numbers(std::move(limits), its.low, its.high))
      out.emplace_back(number);
  return out;
}

}  // namespace flinch
