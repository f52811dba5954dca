#include "assess/inputs.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

namespace flinch {
namespace {

constexpr std::size_t most_states_of_root = std::size_t{1} << 18U;
constexpr std::size_t most_root_states = std::size_t{1} << 20U;

// A test of a condition, with what a yes and a no to it add to the condition's state.
struct Counted {
  Tables::Leaf const* leaf = nullptr;
  std::size_t node = 0;
  std::size_t yes = 0, no = 0;
};

// What joins tests counts how many of them are true, and how many false: nothing else of them
// matters. Each count is a digit of the state. Of bands each is a digit.
std::vector<Counted> counted_leaves(Tables const& tables, Tables::Root const& root,
                                    std::size_t& states) {
  std::vector<Counted> out;
  std::vector<std::optional<std::size_t>> stack;  // a test not yet joined, or what joined some
  std::size_t nodes = 0;
  for (auto const& step : tables.steps(root)) {
    if (step.kind == Tables::Step::Kind::leaf) {
      stack.emplace_back(out.size());
      out.push_back({&tables.leaves()[step.detail], nodes++});
      continue;
    }
    for (std::uint32_t part = 0; part < step.parts; ++part, stack.pop_back())
      if (stack.back()) out[*stack.back()].node = nodes;
    ++nodes;
    stack.emplace_back(std::nullopt);
  }
  std::vector<std::size_t> sizes(nodes), places(nodes);
  for (auto const& one : out) ++sizes[one.node];
  states = 1;
  for (std::size_t node = 0; node < nodes && states <= most_states_of_root; ++node) {
    places[node] = states;
    auto const digits = sizes[node] + 1;
    states *= root.is_banded ? digits : digits == 2 ? 3 : digits * digits;
  }
  for (auto& one : out) {
    one.yes = places[one.node];
    one.no = root.is_banded ? 0 : places[one.node] * (sizes[one.node] + 1);
  }
  return out;
}

}  // namespace

Inputs::Inputs(Tables const& tables, Cells const& cells) {
  rows_.push_back(0);
  for (std::uint32_t i = 0; i < tables.root_count(); ++i) {
    add(tables, cells, i);
    rows_.push_back(static_cast<std::uint32_t>(inputs_.size()));
  }
  index_signs(tables, cells);
}

void Inputs::add(Tables const& tables, Cells const& cells, std::uint32_t place) {
  first_states_.push_back(states_);
  std::size_t states = 0;
  std::map<SignId, std::vector<Counted>> by_sign;
  for (auto const& one : counted_leaves(tables, tables.root(place), states))
    by_sign[one.leaf->sign].push_back(one);
  if (states > most_states_of_root || states_ + states > most_root_states) return;
  for (auto const& [sign, counted] : by_sign) {
    Input input{sign, place, static_cast<std::uint32_t>(parts_.size()),
                static_cast<std::uint32_t>(tests_.size()), 0};
    for (std::uint32_t cell = 0; cell < cells.count(sign); ++cell) {
      std::size_t part = 0;
      for (auto const& one : counted) {
        auto const truth = cells.truth(*one.leaf, cell);
        part += truth == Truth::yes ? one.yes : truth == Truth::no ? one.no : 0;
      }
      parts_.push_back(static_cast<std::uint32_t>(part));
    }
    if (!cells.is_divided(sign))
      for (auto const& one : counted)
        tests_.push_back(
            {*one.leaf, static_cast<std::uint32_t>(one.yes), static_cast<std::uint32_t>(one.no)});
    input.test_count = static_cast<std::uint32_t>(tests_.size()) - input.first_test;
    inputs_.push_back(input);
  }
  states_ += static_cast<std::uint32_t>(states);
}

void Inputs::index_signs(Tables const& tables, Cells const& cells) {
  std::vector<std::vector<Input>> on(tables.pack().signs.size());
  for (std::uint32_t i = 0; i < tables.root_count(); ++i) {
    auto const kind = tables.root(i).kind;
    std::set<SignId> signs;
    for (auto const& step : tables.steps(tables.root(i)))
      if (step.kind == Tables::Step::Kind::leaf) signs.insert(tables.leaves()[step.detail].sign);
    bool const is_of_one_cell = signs.size() == 1 && cells.is_divided(*signs.begin());
    if (kind != RootKind::alarm && (kind != RootKind::rule || is_of_one_cell)) continue;
    for (auto const& input : of(i)) on[index(input.sign)].push_back(input);
    if (!is_run(i)) continue;
    for (auto const sign : signs) {
      Input input;
      input.sign = sign;
      input.root = i;
      input.first_part = static_cast<std::uint32_t>(parts_.size());
      parts_.resize(parts_.size() + cells.count(sign));  // it has no states to add to
      on[index(sign)].push_back(input);
    }
  }
  undivided_rows_.push_back(0);
  for (std::uint32_t s = 0; s < on.size(); ++s) {
    auto const count = cells.count(SignId{s});
    PartRow row{root_parts_.size(), 0};
    if (count > 0) row.width = static_cast<std::uint32_t>(on[s].size());
    for (std::uint32_t cell = 0; cell < count; ++cell)
      for (auto const& input : on[s]) root_parts_.push_back({input.root, part(input, cell)});
    part_rows_.push_back(row);
    if (count == 0) undivided_.insert(undivided_.end(), on[s].begin(), on[s].end());
    undivided_rows_.push_back(static_cast<std::uint32_t>(undivided_.size()));
  }
}

}  // namespace flinch
