#pragma once
// Answers divided into cells: over each cell every test on the sign has one truth, taken once for
// all. Yes and no are cells, each step, choice and breed is one, and so is each stretch of a number
// between two limits that rules name. Answers by site are not divided.
#include <cstdint>
#include <span>
#include <vector>

#include "flinch/assess/tables.hpp"

namespace flinch {

class Cells {
 public:
  static constexpr std::uint32_t unknown = 0;  ///< the cell of a sign that is not known
  static constexpr std::uint32_t undivided =
      ~0U;  ///< of a known sign whose answers are not divided
  /// Tells each leaf where its truths begin.
  Cells(Tables const& tables, std::span<Tables::Leaf> leaves);

  [[nodiscard]] bool is_divided(SignId sign) const { return counts_[index(sign)] > 0; }
  /// How many cells a sign has, that of the unknown included; 0 when its answers are not divided.
  [[nodiscard]] std::uint32_t count(SignId sign) const { return counts_[index(sign)]; }
  [[nodiscard]] std::uint32_t cell_of(SignId sign, Answer const& answer) const;
  /// The truth of a test of a sign whose answer lies in this cell, which must not be `undivided`.
  [[nodiscard]] Truth truth(Tables::Leaf const& leaf, std::uint32_t cell) const {
    return truths_[leaf.first_truth + cell];
  }

 private:
  [[nodiscard]] std::vector<Answer> samples(SignId sign) const;

  Pack const& pack_;                   ///< the tables keep it
  std::vector<std::uint32_t> counts_;  ///< of each sign
  std::vector<double> limits_;         ///< of the numbers, each sign's from low to high
  std::vector<std::uint32_t> limit_rows_;
  std::vector<Truth> truths_;
};

}  // namespace flinch
