#pragma once
// What a condition hangs on, sign by sign: which cells of an answer make a difference to it. Their
// number is small enough for most conditions to be looked up rather than run.
#include <cstdint>
#include <span>
#include <vector>

#include "assess/cells.hpp"

namespace flinch {

class Inputs {
 public:
  Inputs(Tables const& tables, Cells const& cells);

  /// One sign of a condition: what a known answer adds to the condition's state, by its cell; or,
  /// where its answers are not divided, the tests that tell.
  struct Input {
    SignId sign{};
    std::uint32_t root = 0;
    std::uint32_t first_part = 0;
    std::uint32_t first_test = 0;
    std::uint32_t test_count = 0;
  };
  /// A test, and what a yes and a no to it add.
  struct CountedTest {
    Tables::Leaf leaf;
    std::uint32_t yes = 0, no = 0;
  };
  /// Empty for a condition that has to be run: it has too many states.
  [[nodiscard]] std::span<Input const> of(std::size_t root) const {
    return std::span(inputs_).subspan(rows_[root], rows_[root + 1] - rows_[root]);
  }
  [[nodiscard]] bool is_run(std::size_t root) const { return rows_[root] == rows_[root + 1]; }
  /// What an answer adds to the state of a condition; nothing to that of one that is run.
  struct RootPart {
    std::uint32_t root = 0;
    std::uint32_t part = 0;
  };
  /// On the alarms that hang on the sign, and on its rules, but for those whose outcome follows
  /// from the cell of one answer: what an answer in this cell adds.
  [[nodiscard]] std::span<RootPart const> root_parts(SignId sign, std::uint32_t cell) const {
    auto const& [first, width] = part_rows_[index(sign)];
    return std::span(root_parts_).subspan(first + std::size_t{width} * cell, width);
  }
  /// The same conditions, of a sign whose answers are not divided.
  [[nodiscard]] std::span<Input const> undivided(SignId sign) const {
    return std::span(undivided_)
        .subspan(undivided_rows_[index(sign)],
                 undivided_rows_[index(sign) + 1] - undivided_rows_[index(sign)]);
  }
  [[nodiscard]] std::uint32_t part(Input const& input, std::uint32_t cell) const {
    return parts_[input.first_part + cell];
  }
  /// What an answer that is not divided adds, of whose tests `truth_of` gives the truths.
  template <class TruthOf>
  [[nodiscard]] std::uint32_t part(Input const& input, TruthOf const& truth_of) const {
    std::uint32_t sum = 0;
    for (auto const& test : std::span(tests_).subspan(input.first_test, input.test_count)) {
      auto const truth = truth_of(test.leaf);
      sum += truth == Truth::yes ? test.yes : truth == Truth::no ? test.no : 0;
    }
    return sum;
  }
  /// The first state of a root; the states of all roots are numbered.
  [[nodiscard]] std::uint32_t first_state(std::size_t root) const { return first_states_[root]; }
  [[nodiscard]] std::uint32_t states() const { return states_; }

 private:
  void add(Tables const& tables, Cells const& cells, std::uint32_t place);
  void index_signs(Tables const& tables, Cells const& cells);

  std::vector<Input> inputs_;
  std::vector<std::uint32_t> rows_;
  /// The parts of a sign: those of its first cell, then those of the next, all as many.
  struct PartRow {
    std::size_t first = 0;
    std::uint32_t width = 0;
  };
  std::vector<RootPart> root_parts_;
  std::vector<PartRow> part_rows_;
  std::vector<Input> undivided_;
  std::vector<std::uint32_t> undivided_rows_;
  std::vector<std::uint32_t> parts_;
  std::vector<CountedTest> tests_;
  std::vector<std::uint32_t> first_states_;
  std::uint32_t states_ = 0;
};

}  // namespace flinch
