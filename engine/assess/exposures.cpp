#include <algorithm>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/exposure.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/body_weight.hpp"
#include "flinch/model/units.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

using Tier = std::optional<TierId>;

bool is_above(Tier a, Tier b) { return a && (!b || *a < *b); }

class Scales {
 public:
  Scales(Tables const& tables, Knowledge const& knowledge)
      : tables_(tables),
        pack_(tables.pack()),
        knowledge_(knowledge),
        evaluator_(tables, knowledge),
        weight_kg_(weight_for_amounts(tables.pack(), knowledge)) {
    for (std::size_t i = 0; i < tables.substances().size(); ++i) {
      auto const& care = care_of(i);
      // Without a `fit if` the amount alone tells that something was taken.
      auto const is_this = care.fit_if ? evaluator_.truth(*care.fit_if) : Truth::unknown;
      auto const mg = amount(care);
      may_be_.push_back({is_this, mg, tier_of(i, mg)});
    }
  }

  [[nodiscard]] Swallowed weigh() const {
    Swallowed out;
    for (std::size_t i = 0; i < may_be_.size(); ++i) {
      if (may_be_[i].is_this == Truth::no) continue;
      if (counts(i))
        out.exposures.push_back(put(i));
      else if (is_above(may_be_[i].see, out.could_reach))
        out.could_reach = may_be_[i].see;
    }
    add_worst_that_it_may_be(out);
    std::sort(out.exposures.begin(), out.exposures.end(),
              [](Exposure const& a, Exposure const& b) { return a.care < b.care; });
    return out;
  }

  [[nodiscard]] std::vector<OpenExposure> open(Tier tier) const {
    std::vector<OpenExposure> out;
    for (std::size_t i = 0; i < may_be_.size(); ++i) {
      auto const see = may_be_[i].see;
      if (may_be_[i].is_this != Truth::unknown || !is_above(see, tier) || counts(i)) continue;
      auto const& substance = tables_.substances()[i];
      auto const& care = pack_.care[substance.care];
      bool const is_amount_open = knowledge_.find(*care.taken) == nullptr;
      if (is_amount_open && (!substance.root || is_something_swallowed(substance)))
        out.push_back({*care.taken, substance.care, *see, true});
      if (substance.root) add_signs(substance, *see, out);
    }
    return out;
  }

 private:
  // Something was swallowed, nobody knows which it was nor how much: of those that it may be and
  // that share an amount, the one that harms by least counts, if one of its levels sets a tier.
  void add_worst_that_it_may_be(Swallowed& out) const {
    std::vector<std::size_t> worst;
    auto const harms_by_less = [&](std::size_t a, std::size_t b) {
      auto const least = [&](std::size_t i) { return care_of(i).levels.front().mg_per_kg; };
      auto const of_a = may_be_[a].see;
      auto const of_b = may_be_[b].see;
      return of_a != of_b ? is_above(of_a, of_b) : least(a) < least(b);
    };
    for (std::size_t i = 0; i < may_be_.size(); ++i) {
      auto const& substance = tables_.substances()[i];
      if (may_be_[i].is_this != Truth::unknown || may_be_[i].mg || !may_be_[i].see ||
          !substance.root || is_another(i) || !is_something_swallowed(substance))
        continue;
      auto const its = std::find_if(worst.begin(), worst.end(), [&](std::size_t other) {
        return care_of(other).taken == care_of(i).taken;
      });
      if (its == worst.end())
        worst.push_back(i);
      else if (harms_by_less(i, *its))
        *its = i;
    }
    for (auto const i : worst) out.exposures.push_back(put(i));
  }

  [[nodiscard]] Care const& care_of(std::size_t i) const {
    return pack_.care[tables_.substances()[i].care];
  }

  [[nodiscard]] Exposure put(std::size_t i) const {
    auto const& care = care_of(i);
    auto const& [is_this, mg, see] = may_be_[i];
    Exposure out{tables_.substances()[i].care, is_this, mg, {}, {}, {}, see};
    if (care.since)
      if (auto const since = knowledge_.number(*care.since))
        out.hours = convert(*since, pack_[*care.since].unit, *find_unit("hours"));
    if (out.mg && weight_kg_) {
      out.mg_per_kg = *out.mg / *weight_kg_;
      for (std::size_t level = 0; level < care.levels.size(); ++level)
        if (reaches(*out.mg_per_kg, care.levels[level])) out.reached.push_back(level);
    }
    return out;
  }

  [[nodiscard]] std::optional<double> amount(Care const& care) const {
    auto const taken = knowledge_.number(*care.taken);
    if (!taken || *taken <= 0) return std::nullopt;
    static auto const mg = *find_unit("mg");
    return convert(*taken, pack_[*care.taken].unit, mg);
  }

  // The tier that so much of the substance asks for; without an amount, its highest.
  [[nodiscard]] Tier tier_of(std::size_t i, std::optional<double> mg) const {
    if (!mg) return tables_.substances()[i].see;
    auto const kg = weight_to_reckon_with(pack_.doses, weight_kg_);
    Tier out;
    for (auto const& level : care_of(i).levels)
      if (reaches(*mg / kg, level) && is_above(level.see, out)) out = level.see;
    return out;
  }

  // One that may have been taken counts by its amount, unless of those that share the amount
  // another is known to be it: the others are not guessed at.
  [[nodiscard]] bool counts(std::size_t i) const {
    if (may_be_[i].is_this == Truth::yes) return true;
    return may_be_[i].mg && !is_another(i);
  }

  [[nodiscard]] bool is_another(std::size_t i) const {
    if (is_untold(i)) return false;
    for (std::size_t other = 0; other < may_be_.size(); ++other)
      if (may_be_[other].is_this == Truth::yes && care_of(other).taken == care_of(i).taken)
        return true;
    return false;
  }

  // Asked for, and nobody can tell: it may be this one as well.
  [[nodiscard]] bool is_untold(std::size_t i) const {
    auto const& substance = tables_.substances()[i];
    if (!substance.root) return false;
    auto const steps = tables_.steps(tables_.root(*substance.root));
    return std::any_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
      return step.kind == Tables::Step::Kind::leaf &&
             knowledge_.could_not_be_told(tables_.leaves()[step.detail].sign);
    });
  }

  // A whole of what tells the substances apart is known to be there.
  [[nodiscard]] bool is_something_swallowed(Tables::Substance const& substance) const {
    for (auto const& step : tables_.steps(tables_.root(*substance.root))) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      for (auto whole = pack_[tables_.leaves()[step.detail].sign].part_of; whole;
           whole = pack_[*whole].part_of) {
        auto const* known = knowledge_.find(*whole);
        if (known != nullptr && says_yes(known->answer)) return true;
      }
    }
    return false;
  }

  void add_signs(Tables::Substance const& substance, TierId see,
                 std::vector<OpenExposure>& out) const {
    auto const& condition = *pack_.care[substance.care].fit_if;
    for (auto const& step : tables_.steps(tables_.root(*substance.root))) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const sign = tables_.leaves()[step.detail].sign;
      if (knowledge_.find(sign) != nullptr) continue;
      bool is_decisive = false;
      for (auto const supposed : {Truth::yes, Truth::no})
        is_decisive = is_decisive || evaluator_.truth_if(condition, sign, supposed) == Truth::yes;
      out.push_back({sign, substance.care, see, is_decisive});
    }
  }

  Tables const& tables_;
  Pack const& pack_;
  Knowledge const& knowledge_;
  Evaluator evaluator_;
  std::optional<double> weight_kg_;
  struct MayBe {
    Truth is_this;
    std::optional<double> mg;
    Tier see;  ///< that it would ask for if it was this one
  };
  std::vector<MayBe> may_be_;  ///< of each substance
};

}  // namespace

bool reaches(double mg_per_kg, ToxicLevel const& level) {
  constexpr double rounding = 1e-9;
  return mg_per_kg >= level.mg_per_kg * (1 - rounding);
}

Swallowed weigh_exposures(Tables const& tables, Knowledge const& knowledge) {
  return Scales(tables, knowledge).weigh();
}

std::vector<OpenExposure> open_exposures(Tables const& tables, Knowledge const& knowledge,
                                         std::optional<TierId> tier) {
  return Scales(tables, knowledge).open(tier);
}

}  // namespace flinch
