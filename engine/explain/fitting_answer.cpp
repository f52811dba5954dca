#include "explain/fitting_answer.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"
#include "model/typical_answers.hpp"

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

// Of numbers first the limits that the tests name, then what lies between, then the ends of what is
// believable: so that nothing far out is proposed without need.
void put_limits_first(std::vector<double> const& limits, std::vector<Answer>& numbers) {
  auto const rank = [&, low = numbers.front(), high = numbers.back()](Answer const& answer) {
    if (answer == low || answer == high) return limits.size() + 1;
    auto const at = std::find(limits.begin(), limits.end(), std::get<double>(answer));
    return static_cast<std::size_t>(at - limits.begin());
  };
  std::stable_sort(numbers.begin(), numbers.end(),
                   [&](Answer const& a, Answer const& b) { return rank(a) < rank(b); });
}

std::vector<Answer> possible_answers(Tables const& tables, SignId sign, Answer const* present,
                                     std::span<Wanted const> tests) {
  auto const& kind = traits(tables.pack()[sign]);
  if (kind.has_places) {
    auto const findings = findings_for(tables, present, tests);
    return {findings.begin(), findings.end()};
  }
  std::vector<double> limits;
  for (auto const& [test, truth] : tests) limits.insert(limits.end(), {test.low, test.high});
  auto out = typical_answers(tables.pack(), sign, limits);
  if (kind.is_number) put_limits_first(limits, out);
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
