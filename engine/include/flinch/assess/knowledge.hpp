#pragma once
// What is known of one patient, and what was asked and cannot be told.
//
//   Knowledge const& knowledge = result.knowledge;
//   if (auto const* known = knowledge.find(sign)) known->answer ...
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/model/case.hpp"

namespace flinch {

/// Where an answer comes from.
enum class Origin : std::uint8_t {
  given,         ///< in the case
  from_whole,    ///< a no to the whole, `from`
  from_part,     ///< a yes to a part, `from`
  inapplicable,  ///< `applies if` is false, by `from`
  from_breed,    ///< the size, by the breed
  from_weight    ///< the size, by the weight of a grown patient
};

struct Known {
  SignId sign{};
  Answer answer;
  Origin origin = Origin::given;
  SignId from{};
};

/// All lists in the order of the signs. A sign neither known nor among what cannot be
/// told was not asked, which is as unknown.
struct Knowledge {
  std::vector<Known> known;
  std::vector<SignId> cannot_tell;  ///< asked, and still unknown
  /// Known, but the answer clashes with another, or hangs on one that does: below `unless` unknown.
  std::vector<SignId> disputed;

  /// Null: unknown.
  [[nodiscard]] Known const* find(SignId sign) const;
  /// A known number; none where the sign is unknown, or answered by something else.
  [[nodiscard]] std::optional<double> number(SignId sign) const;
  /// Whether it was asked, and nobody could tell.
  [[nodiscard]] bool could_not_be_told(SignId sign) const;
  [[nodiscard]] bool is_disputed(SignId sign) const;
};

}  // namespace flinch
