#pragma once
// What follows from one answer by meaning, by the cell that it lies in.
#include <cstdint>
#include <span>
#include <vector>

#include "assess/cells.hpp"

namespace flinch {

struct Consequence {
  enum class Kind : std::uint8_t {
    no_part,       ///< a no to the whole is one to this part; an answer by sites may be one
    cannot_apply,  ///< the answer alone makes this sign's `applies if` false, and stands first in
                   ///< it
    may_not_apply  ///< it may make it false, perhaps with others
  };
  Kind kind{};
  SignId sign{};
};

class Consequences {
 public:
  explicit Consequences(Tables const& tables);

  /// Of an answer in this cell, which may be `Cells::undivided`: parts first, then by sign.
  [[nodiscard]] std::span<Consequence const> of(SignId sign, std::uint32_t cell) const {
    auto const row = first_rows_[index(sign)] + (cell == Cells::undivided ? 0 : cell);
    return std::span(all_).subspan(rows_[row], rows_[row + 1] - rows_[row]);
  }

 private:
  void add(Tables const& tables, SignId sign, std::uint32_t cell);

  std::vector<Consequence> all_;
  std::vector<std::uint32_t> rows_;  ///< of each cell, those of one sign after the other
  std::vector<std::uint32_t>
      first_rows_;  ///< of each sign; of one that is not divided, its only one
};

}  // namespace flinch
