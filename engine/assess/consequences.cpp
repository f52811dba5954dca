#include "assess/consequences.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

bool is_of_one_sign(Tables const& tables, Tables::Root const& root, SignId sign) {
  auto const steps = tables.steps(root);
  return std::all_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
    return step.kind != Tables::Step::Kind::leaf || tables.leaves()[step.detail].sign == sign;
  });
}

bool begins_with(Tables const& tables, Tables::Root const& root, SignId sign) {
  return tables.leaves()[tables.steps(root).front().detail].sign == sign;
}

}  // namespace

Consequences::Consequences(Tables const& tables) {
  auto const& cells = tables.cells();
  rows_.push_back(0);
  for (std::uint32_t s = 0; s < tables.pack().signs.size(); ++s) {
    SignId const sign{s};
    first_rows_.push_back(static_cast<std::uint32_t>(rows_.size()) - 1);
    auto const count = std::max(1U, cells.count(sign));
    for (std::uint32_t cell = 0; cell < count; ++cell) {
      add(tables, sign, cells.is_divided(sign) ? cell : Cells::undivided);
      rows_.push_back(static_cast<std::uint32_t>(all_.size()));
    }
  }
}

void Consequences::add(Tables const& tables, SignId sign, std::uint32_t cell) {
  auto const& cells = tables.cells();
  if (cell == Cells::unknown) return;
  auto const& kind = traits(tables.pack()[sign]);
  bool const may_be_no = kind.has_places || (kind.is_plain && cell == cells.cell_of(sign, false));
  if (may_be_no)
    for (auto const part : tables.parts_of(sign))
      all_.push_back({Consequence::Kind::no_part, SignId{part}});
  std::vector<Truth> stack(tables.deepest_stack() + 1);
  for (auto const subject : tables.applies_of(sign)) {
    auto const& root = tables.root(tables.applies_root(SignId{subject}));
    auto const truth = cell == Cells::undivided
                           ? Truth::unknown
                           : evaluate(tables, root, stack, [&](Tables::Leaf const& leaf) {
                               return leaf.sign == sign ? cells.truth(leaf, cell) : Truth::unknown;
                             });
    if (truth == Truth::no && begins_with(tables, root, sign))
      all_.push_back({Consequence::Kind::cannot_apply, SignId{subject}});
    else if (cell == Cells::undivided || !is_of_one_sign(tables, root, sign))
      all_.push_back({Consequence::Kind::may_not_apply, SignId{subject}});
  }
}

}  // namespace flinch
