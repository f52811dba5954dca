#include "proofread/rule_outcomes.hpp"

#include <algorithm>

#include "model/walk.hpp"

namespace flinch {

RuleOutcomes::RuleOutcomes(Pack const& pack, Rule const& rule) {
  if (rule.condition) {
    condition_ = &*rule.condition;
    walk_tests(pack, *condition_,
               [&](Condition const& leaf, Polarity) { signs_.push_back(leaf.test.sign); });
  } else {
    signs_.push_back(rule.over);
    for (auto const& band : rule.bands) {
      bands_.emplace_back();
      bands_.back().test = band.test;
    }
  }
  std::sort(signs_.begin(), signs_.end());
  signs_.erase(std::unique(signs_.begin(), signs_.end()), signs_.end());
}

std::vector<Condition const*> RuleOutcomes::conditions() const {
  if (condition_ != nullptr) return {condition_};
  std::vector<Condition const*> out;
  for (auto const& band : bands_) out.push_back(&band);
  return out;
}

std::optional<std::uint32_t> RuleOutcomes::in(Worlds const& worlds) const {
  if (condition_ != nullptr) return worlds.holds(*condition_) ? 0 : 1;
  // Where bands meet, the later one counts, as in an assessment.
  for (auto band = count(); band > 0; --band)
    if (worlds.holds(bands_[band - 1])) return band - 1;
  return std::nullopt;
}

std::uint32_t RuleOutcomes::count() const {
  return condition_ != nullptr ? 2 : static_cast<std::uint32_t>(bands_.size());
}

}  // namespace flinch
