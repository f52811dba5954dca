#include "assess/inputs.hpp"

#include <algorithm>
#include <map>

namespace flinch {
namespace {

constexpr std::size_t most_bands = 250;  // an outcome is kept in a byte
constexpr std::size_t most_states_of_root = std::size_t{1} << 18U;
constexpr std::size_t most_root_states = std::size_t{1} << 20U;

// The tests of a condition, by sign.
std::map<SignId, std::vector<Tables::Leaf const*>> leaves_of(Tables const& tables,
                                                             Tables::Root const& root) {
  std::map<SignId, std::vector<Tables::Leaf const*>> out;
  for (auto const& step : tables.steps(root)) {
    if (step.kind != Tables::Step::Kind::leaf) continue;
    auto const& leaf = tables.leaves()[step.detail];
    out[leaf.sign].push_back(&leaf);
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
  auto const& root = tables.root(place);
  first_states_.push_back(states_);
  auto const first_input = inputs_.size();
  auto const first_part = parts_.size();
  auto const first_test = tests_.size();
  std::size_t states = root.step_count > most_bands && root.is_banded ? most_root_states : 1;
  for (auto const& [sign, leaves] : leaves_of(tables, root)) {
    Input input;
    input.sign = sign;
    input.root = place;
    input.place = static_cast<std::uint32_t>(states);
    input.first_part = static_cast<std::uint32_t>(parts_.size());
    // Cells that give the same truths to all its tests are one; that of the unknown comes first.
    std::map<std::vector<Truth>, std::uint32_t> classes;
    for (std::uint32_t cell = 0; cell < cells.count(sign); ++cell) {
      std::vector<Truth> truths;
      for (auto const* leaf : leaves) truths.push_back(cells.truth(*leaf, cell));
      auto const one = classes.emplace(truths, static_cast<std::uint32_t>(classes.size())).first;
      parts_.push_back(one->second * input.place);
    }
    states *= std::max<std::size_t>(classes.size(), 1);
    if (!cells.is_cut(sign)) {
      input.first_test = static_cast<std::uint32_t>(tests_.size());
      input.test_count = static_cast<std::uint32_t>(leaves.size());
      for (auto const* leaf : leaves) {
        tests_.push_back(*leaf);
        states = std::min(3 * states, most_root_states);
      }
    }
    inputs_.push_back(input);
    if (states <= most_states_of_root && states_ + states <= most_root_states) continue;
    inputs_.resize(first_input);
    parts_.resize(first_part);
    tests_.resize(first_test);
    return;
  }
  states_ += static_cast<std::uint32_t>(states);
}

void Inputs::index_signs(Tables const& tables, Cells const& cells) {
  std::vector<std::vector<Input>> on(tables.pack().signs.size());
  for (std::uint32_t i = 0; i < tables.root_count(); ++i) {
    auto const kind = tables.root(i).kind;
    auto const by_sign = leaves_of(tables, tables.root(i));
    bool const is_of_one_cell = by_sign.size() == 1 && cells.is_cut(by_sign.begin()->first);
    if (kind != RootKind::alarm && (kind != RootKind::rule || is_of_one_cell)) continue;
    for (auto const& input : of(i)) on[index(input.sign)].push_back(input);
    if (!is_run(i)) continue;
    for (auto const& [sign, leaves] : by_sign) {
      Input input;
      input.sign = sign;
      input.root = i;
      input.first_part = static_cast<std::uint32_t>(parts_.size());
      parts_.resize(parts_.size() + cells.count(sign));  // it has no states to add to
      on[index(sign)].push_back(input);
    }
  }
  uncut_rows_.push_back(0);
  for (std::uint32_t s = 0; s < on.size(); ++s) {
    auto const count = cells.count(SignId{s});
    BearingRow row{bearings_.size(), 0};
    if (count > 0) row.width = static_cast<std::uint32_t>(on[s].size());
    for (std::uint32_t cell = 0; cell < count; ++cell)
      for (auto const& input : on[s]) bearings_.push_back({input.root, part(input, cell)});
    bearing_rows_.push_back(row);
    if (count == 0) uncut_.insert(uncut_.end(), on[s].begin(), on[s].end());
    uncut_rows_.push_back(static_cast<std::uint32_t>(uncut_.size()));
  }
}

}  // namespace flinch
