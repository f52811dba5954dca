#include "desk/beside_a_yes.hpp"

#include <fmt/format.h>

#include "flinch/explain/reasons.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {

std::string beside_a_yes(Tables const& tables, Assessment const& result, SignId sign,
                         Answer const& answer) {
  auto const& pack = tables.pack();
  auto const* value = std::get_if<Choice>(&answer);
  if (value == nullptr || value->index != 0) return "";
  auto const found = found_for_degree(tables, result, sign);
  if (!found) return "";
  return fmt::format("Told before: {}: yes. Can both be so? If not, take one back",
                     pack[*found].label);
}

std::string beside_a_none(Tables const& tables, Assessment const& result, SignId sign,
                          Answer const& answer) {
  auto const& pack = tables.pack();
  if (!says_yes(answer)) return "";
  for (auto const i : tables.roots_of(sign)) {
    auto const& root = tables.root(i);
    if (root.kind != RootKind::applies) continue;
    auto const degree = SignId{root.subject};
    auto const* known = result.find(degree);
    if (known == nullptr || known->origin != Origin::given || known->answer != Answer(Choice{0}))
      continue;
    return fmt::format("Told before: {}: {}. Can both be so? If not, take one back",
                       pack[degree].label, answer_text(pack, degree, known->answer));
  }
  return "";
}

}  // namespace flinch::cli
