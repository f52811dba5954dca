#include "explain/fitting_answer.hpp"

#include <algorithm>
#include <cmath>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

bool lies_in(Tables const& tables, SiteMark const& inner, SiteMark const& outer) {
  return tables.covers(outer.site, inner.site) &&
         (outer.side == Side::any || outer.side == inner.side);
}

// Found where it must be and not where it must not; other findings stay. What is then found nowhere
// that is known may be nowhere at all, or elsewhere: the sign must be there for another that
// applies by it, or for a part of it.
std::vector<Findings> findings_for(Tables const& tables, Answer const* present,
                                   std::span<Wanted const> tests) {
  Findings out;
  if (present != nullptr) out = std::get<Findings>(*present);
  out.clear_everywhere = false;
  bool is_found = false;
  for (auto const& wanted : tests) {
    auto const& mark = wanted.test.mark;
    if (wanted.truth == Truth::yes) is_found = true;
    if (wanted.test.kind != Test::Kind::at_site || wanted.truth != Truth::no) continue;
    std::erase_if(out.found, [&](SiteMark const& found) { return lies_in(tables, found, mark); });
    out.clear.push_back(mark);
  }
  for (auto const& wanted : tests) {
    auto const& mark = wanted.test.mark;
    if (wanted.test.kind != Test::Kind::at_site || wanted.truth != Truth::yes) continue;
    std::erase_if(out.clear, [&](SiteMark const& clear) { return lies_in(tables, mark, clear); });
    bool const is_there =
        std::any_of(out.found.begin(), out.found.end(),
                    [&](SiteMark const& found) { return lies_in(tables, found, mark); });
    if (!is_there) out.found.push_back(mark);
  }
  // What must be found nowhere, or was found only where it must not be.
  bool const may_be_nowhere = !is_found && out.found.empty();
  out.found_somewhere = true;
  if (may_be_nowhere) return {{false, true, {}, {}}, std::move(out)};
  return {std::move(out), {false, true, {}, {}}};
}

// The limits that the tests name, numbers between each two, and the ends of what is believable: in
// this order, so that nothing far out is proposed without need.
std::vector<double> numbers_for(Sign const& sign, std::span<Wanted const> tests) {
  std::vector<double> out;
  for (auto const& [test, truth] : tests)
    for (auto const limit : {test.low, test.high})
      if (std::isfinite(limit) && limit > sign.low && limit < sign.high) out.push_back(limit);
  auto limits = out;
  limits.insert(limits.end(), {sign.low, sign.high});
  std::sort(limits.begin(), limits.end());
  for (std::size_t i = 0; i + 1 < limits.size(); ++i)
    out.push_back((limits[i] + limits[i + 1]) / 2);
  out.insert(out.end(), {sign.low, sign.high});
  return out;
}

std::vector<Answer> possible_answers(Tables const& tables, SignId id, Answer const* present,
                                     std::span<Wanted const> tests) {
  auto const& pack = tables.pack();
  auto const& sign = pack[id];
  std::vector<Answer> out;
  auto const choices = [&](std::size_t count) {
    for (std::uint32_t i = 0; i < count; ++i) out.emplace_back(Choice{i});
  };
  switch (sign.kind) {
    case AnswerKind::yes_or_no:
      out = {true, false};
      break;
    case AnswerKind::steps:
    case AnswerKind::one_of:
      choices(sign.values.size());
      break;
    case AnswerKind::breed:
      choices(pack.breeds.breeds.size());
      break;
    case AnswerKind::number:
      for (auto const number : numbers_for(sign, tests)) out.emplace_back(number);
      break;
    case AnswerKind::sites:
      for (auto& findings : findings_for(tables, present, tests))
        out.emplace_back(std::move(findings));
      break;
  }
  return out;
}

}  // namespace

std::vector<Answer> fitting_answers(Tables const& tables, SignId sign, Answer const* present,
                                    std::span<Wanted const> tests, std::size_t most) {
  std::vector<Answer> out;
  for (auto& answer : possible_answers(tables, sign, present, tests)) {
    if (out.size() == most) break;
    if (std::all_of(tests.begin(), tests.end(), [&](Wanted const& wanted) {
          return test_truth(tables, wanted.test, answer) == wanted.truth;
        }))
      out.push_back(std::move(answer));
  }
  return out;
}

}  // namespace flinch
