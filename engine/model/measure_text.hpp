#pragma once
// Amounts as people write them in case files and tables: `31 kg`, `39.8 C`, `25 to 36 kg`.
#include <optional>
#include <string>
#include <string_view>

#include "flinch/model/units.hpp"

namespace flinch {

/// A number and the unit behind it as written, not yet checked against anything.
struct WrittenAmount {
  double value = 0;
  std::string unit;
};

/// `31 kg`, `-2`, `18 per minute`; degrees may carry a degree sign. Nothing when it is no amount.
[[nodiscard]] std::optional<WrittenAmount> read_amount(std::string_view text);

struct AmountRange {
  double low = 0;
  double high = 0;
};

/// `25 to 36 kg` in the base unit of the dimension.
[[nodiscard]] std::optional<AmountRange> read_range(std::string_view text, Dimension dimension);

}  // namespace flinch
