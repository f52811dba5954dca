#include "model/typical_answers.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

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
  std::vector<Answer> out;
  auto const choices = [&](std::size_t count) {
    for (std::uint32_t i = 0; i < count; ++i) out.emplace_back(Choice{i});
  };
  switch (its.kind) {
    case AnswerKind::yes_or_no:
      return {true, false};
    case AnswerKind::steps:
    case AnswerKind::one_of:
      choices(its.values.size());
      break;
    case AnswerKind::breed:
      choices(pack.breeds.breeds.size());
      break;
    case AnswerKind::number:
      for (auto const number : typical_numbers(std::move(limits), its.low, its.high))
        out.emplace_back(number);
      break;
    case AnswerKind::sites:
      break;
  }
  return out;
}

}  // namespace flinch
