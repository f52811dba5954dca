// Causes that another one precedes whatever the answers are.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "proofread/remarks.hpp"
#include "proofread/rule_outcomes.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_answers_tried = 20000;  // over all answers to one sign
constexpr double rounding = 1e-9;                  // of the sums of weights that are compared

// Rules that are bounded together, because they hang on one sign, with everything that they can do
// to the causes that they name. Doing nothing (the answers unknown) is always possible as well.
struct Bundle {
  std::vector<std::size_t> causes;           // sorted
  std::vector<std::vector<double>> effects;  // of each outcome, in the order of `causes`
  [[nodiscard]] std::optional<std::size_t> find(std::size_t cause) const {
    auto const found = std::lower_bound(causes.begin(), causes.end(), cause);
    if (found == causes.end() || *found != cause) return std::nullopt;
    return static_cast<std::size_t>(found - causes.begin());
  }
};

class Bounds {
 public:
  explicit Bounds(Tables const& tables)
      : tables_(tables),
        pack_(tables.pack()),
        bundles_of_(pack_.causes.size()),
        against_(pack_.causes.size(), 0) {
    bundle_rules();
    for (std::size_t b = 0; b < bundles_.size(); ++b)
      for (std::size_t column = 0; column < bundles_[b].causes.size(); ++column) {
        bundles_of_[bundles_[b].causes[column]].emplace_back(b, column);
        against_[bundles_[b].causes[column]] += against(bundles_[b], column);
      }
  }

  // The cause that always precedes this one, if there is one.
  [[nodiscard]] std::optional<std::size_t> always_before(std::size_t cause) const {
    for (std::size_t rival = 0; rival < pack_.causes.size(); ++rival)
      if (rival != cause && most_ahead(cause, rival) < -rounding) return rival;
    return std::nullopt;
  }

 private:
  // Rules in an overlap may be cut down, each by itself; others that hang on one sign go together.
  void bundle_rules() {
    std::map<SignId, std::vector<RuleId>> by_sign;
    for (std::uint32_t i = 0; i < pack_.rules.size(); ++i) {
      RuleId const id{i};
      RuleOutcomes const outcomes(pack_, pack_[id]);
      auto const sign = outcomes.signs().front();
      // Of a sign by site some tests may be known and others not, whatever is answered.
      bool const is_known_whole = outcomes.signs().size() == 1 && !traits(pack_[sign]).has_places;
      if (tables_.overlap_of(id) >= 0 || !is_known_whole)
        add_alone(id, outcomes.count());
      else
        by_sign[sign].push_back(id);
    }
    for (auto const& [sign, rules] : by_sign) add_together(rules);
  }

  void add_alone(RuleId id, std::uint32_t outcomes) {
    auto bundle = over_causes({id});
    for (std::uint32_t outcome = 0; outcome < outcomes; ++outcome) {
      bundle.effects.emplace_back(bundle.causes.size(), 0.0);
      add_effect(bundle, id, outcome);
    }
    if (tables_.overlap_of(id) >= 0) overlapping_.push_back(bundles_.size());
    bundles_.push_back(std::move(bundle));
  }

  void add_together(std::vector<RuleId> const& rules) {
    std::vector<RuleOutcomes> outcomes;
    outcomes.reserve(rules.size());
    std::vector<Condition const*> conditions;
    for (auto const id : rules) {
      outcomes.emplace_back(pack_, pack_[id]);
      for (auto const* condition : outcomes.back().conditions()) conditions.push_back(condition);
    }
    Worlds worlds(pack_, conditions);
    if (!worlds.start(most_answers_tried)) {
      for (std::size_t i = 0; i < rules.size(); ++i) add_alone(rules[i], outcomes[i].count());
      return;
    }
    auto bundle = over_causes(rules);
    do {
      bundle.effects.emplace_back(bundle.causes.size(), 0.0);
      for (std::size_t i = 0; i < rules.size(); ++i)
        if (auto const outcome = outcomes[i].in(worlds)) add_effect(bundle, rules[i], *outcome);
    } while (worlds.next());
    bundles_.push_back(std::move(bundle));
  }

  [[nodiscard]] Bundle over_causes(std::vector<RuleId> const& rules) const {
    Bundle out;
    for (auto const id : rules)
      for (auto const& entry : tables_.entries(id)) out.causes.push_back(index(entry.cause));
    std::sort(out.causes.begin(), out.causes.end());
    out.causes.erase(std::unique(out.causes.begin(), out.causes.end()), out.causes.end());
    return out;
  }

  void add_effect(Bundle& bundle, RuleId id, std::uint32_t outcome) const {
    for (auto const& entry : tables_.entries(id))
      bundle.effects.back()[*bundle.find(index(entry.cause))] += tables_.weight(entry, outcome);
  }

  [[nodiscard]] bool is_overlapping(std::size_t bundle) const {
    return std::binary_search(overlapping_.begin(), overlapping_.end(), bundle);
  }

  // The most that a bundle can take from a cause.
  [[nodiscard]] static double against(Bundle const& bundle, std::size_t column) {
    double out = 0;
    for (auto const& effect : bundle.effects) out = std::max(out, -effect[column]);
    return out;
  }

  // The most that a bundle can move a cause ahead of a rival that it names as well, or not.
  [[nodiscard]] double ahead(std::size_t b, std::size_t column,
                             std::optional<std::size_t> rival) const {
    double out = 0;
    for (auto const& effect : bundles_[b].effects) {
      auto const own = effect[column];
      auto const others = rival ? effect[*rival] : 0;
      // In an overlap what stands against the cause, or for the rival, may be cut to nothing.
      auto const difference =
          is_overlapping(b) ? std::max(own, 0.0) - std::min(others, 0.0) : own - others;
      out = std::max(out, difference);
    }
    return out;
  }

  // An upper bound of how far the cause can come ahead of the rival, in natural logarithms.
  [[nodiscard]] double most_ahead(std::size_t cause, std::size_t rival) const {
    auto out = tables_.log_prior(cause) - tables_.log_prior(rival) + against_[rival];
    for (auto const& [b, column] : bundles_of_[cause]) {
      auto const rival_column = bundles_[b].find(rival);
      out += ahead(b, column, rival_column);
      if (rival_column) out -= against(bundles_[b], *rival_column);
    }
    return out;
  }

  Tables const& tables_;
  Pack const& pack_;
  std::vector<Bundle> bundles_;
  std::vector<std::size_t> overlapping_;  // sorted places of bundles
  std::vector<std::vector<std::pair<std::size_t, std::size_t>>> bundles_of_;  // bundle, column
  std::vector<double> against_;
};

}  // namespace

void find_never_first(Tables const& tables, Remarks& remarks) {
  auto const& pack = tables.pack();
  Bounds const bounds(tables);
  for (std::size_t i = 0; i < pack.causes.size(); ++i) {
    auto const rival = bounds.always_before(i);
    if (!rival) continue;
    auto const& cause = pack.causes[i];
    remarks.add(Code::never_first, cause.at, {cause.at},
                fmt::format("`{}` can never come first: `{}` is more probable whatever the answers",
                            cause.name, pack.causes[*rival].name),
                "all its rules together do not make up for its base rate",
                "write the rule that tells it, or look at its base and the figures against it");
  }
}

}  // namespace flinch
