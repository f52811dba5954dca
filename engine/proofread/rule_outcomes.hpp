#pragma once
// A rule as a function from the answers to its outcome, bands and conditions alike.
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/model/pack.hpp"
#include "model/worlds.hpp"

namespace flinch {

class RuleOutcomes {
 public:
  /// The rule must outlive this.
  RuleOutcomes(Pack const& pack, Rule const& rule);

  /// What has to be known to know the outcome.
  [[nodiscard]] std::vector<Condition const*> conditions() const;
  /// As in `RuleOutcome::band`: for `if` 0 when true and 1 when false, otherwise the band; nothing
  /// where no band holds.
  [[nodiscard]] std::optional<std::uint32_t> in(Worlds const& worlds) const;
  /// How many outcomes there are.
  [[nodiscard]] std::uint32_t count() const;
  /// The signs on which it hangs, sorted, each once.
  [[nodiscard]] std::vector<SignId> const& signs() const { return signs_; }

 private:
  Condition const* condition_ = nullptr;
  std::vector<Condition> bands_;
  std::vector<SignId> signs_;
};

}  // namespace flinch
