#pragma once
// Danger signs: the answers that alarms use as true.
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/model/pack.hpp"
#include "model/walk.hpp"

namespace flinch {

/// For signs with values, which values. What an `unless` asks for is no danger sign by that.
class DangerSigns {
 public:
  /// Those of the alarms that ask for `least_urgent` or a more urgent tier; of all without it.
  explicit DangerSigns(Pack const& pack, std::optional<TierId> least_urgent = {});

  [[nodiscard]] bool has(SignId sign) const { return signs_[index(sign)]; }
  [[nodiscard]] bool has(SignId sign, std::uint32_t value) const;
  /// The sign itself or a part of it, if one of these is a danger sign: a yes to it is a yes to
  /// this one.
  [[nodiscard]] std::optional<SignId> inside(SignId sign) const;
  /// The sign itself, a whole or a part of it, or what decides whether it applies, if one of these
  /// is a danger sign: a further yes to it makes this one a yes, or takes away its no.
  [[nodiscard]] std::optional<SignId> related(SignId sign) const;

 private:
  void add(Test const& test, Polarity polarity);

  Pack const& pack_;
  std::vector<bool> signs_;
  std::vector<std::vector<std::uint32_t>> values_;
  std::vector<std::optional<SignId>> inside_;  ///< of each sign
};

}  // namespace flinch
