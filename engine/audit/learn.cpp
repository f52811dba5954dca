#include "flinch/audit/learn.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace flinch {
namespace {

// The patients of one figure so far.
struct Tally {
  std::vector<std::size_t> counts;
  std::size_t patients = 0;
  void add(RuleOutcome const& outcome) {
    ++patients;
    // Of an `if` rule only the true ones are counted: outcome 0.
    if (outcome.band < counts.size()) ++counts[outcome.band];
  }
};

class Learner {
 public:
  Learner(Tables const& tables, LearnLimits const& limits)
      : pack_(tables.pack()), limits_(limits), assessor_(tables) {
    for (auto const& rule : pack_.rules) {
      auto const width = rule.usual.size();
      usual_.push_back({std::vector<std::size_t>(width), 0});
      named_.push_back(
          std::vector<Tally>(rule.entries.size(), Tally{std::vector<std::size_t>(width), 0}));
    }
  }

  Learning run(std::span<NamedCase const> cases) {
    for (auto const& one : cases) {
      if (!one.patient.outcome || !one.patient.outcome->is_cause_known) {
        ++out_.left_out;
        continue;
      }
      ++out_.cases;
      for (auto const& outcome : assessor_.assess(one.patient).rules)
        if (outcome.truth != Truth::unknown)
          tally_of(outcome.rule, one.patient.outcome->cause).add(outcome);
    }
    for (std::uint32_t r = 0; r < pack_.rules.size(); ++r) propose(RuleId{r});
    return std::move(out_);
  }

 private:
  Tally& tally_of(RuleId rule, std::optional<CauseId> cause) {
    auto const& entries = pack_[rule].entries;
    for (std::size_t i = 0; i < entries.size(); ++i)
      if (entries[i].cause == cause) return named_[index(rule)][i];
    return usual_[index(rule)];
  }

  void propose(RuleId id) {
    auto const& rule = pack_[id];
    add(id, std::nullopt, usual_[index(id)], rule.usual, rule.usual_sample_size);
    for (std::size_t i = 0; i < rule.entries.size(); ++i)
      add(id, rule.entries[i].cause, named_[index(id)][i], rule.entries[i].frequencies,
          rule.entries[i].sample_size);
  }

  void add(RuleId rule, std::optional<CauseId> cause, Tally const& tally,
           std::vector<double> const& present, std::optional<double> sample) {
    if (tally.patients == 0 || tally.patients < limits_.patients_at_least) return;
    LearnedFigure figure{rule, cause, tally.counts, tally.patients, 0, 0, present, {}};
    figure.present_weight = sample.value_or(limits_.weight_without_sample);
    figure.sample = tally.patients + static_cast<std::size_t>(sample.value_or(0));
    // Published shares are rounded and need not sum to one.
    auto const whole =
        present.size() == 1 ? 1.0 : std::accumulate(present.begin(), present.end(), 0.0);
    for (std::size_t i = 0; i < present.size(); ++i)
      figure.proposed.push_back(
          (static_cast<double>(tally.counts[i]) + figure.present_weight * present[i] / whole) /
          (static_cast<double>(tally.patients) + figure.present_weight));
    out_.figures.push_back(std::move(figure));
  }

  Pack const& pack_;
  LearnLimits const& limits_;
  Assessor assessor_;
  std::vector<Tally> usual_;
  std::vector<std::vector<Tally>> named_;
  Learning out_;
};

// Four digits: more than any sample of patients can tell, and few enough to read.
double in_per_cent(double share) { return std::stod(fmt::format("{:.4g}", 100 * share)); }

}  // namespace

Learning learn(Tables const& tables, std::span<NamedCase const> cases, LearnLimits const& limits) {
  return Learner(tables, limits).run(cases);
}

Pack with_learned(Pack pack, Learning const& learning) {
  for (auto const& figure : learning.figures) {
    auto& rule = pack.rules[index(figure.rule)];
    if (!figure.cause) {
      rule.usual = figure.proposed;
      rule.usual_sample_size = static_cast<double>(figure.sample);
      continue;
    }
    for (auto& entry : rule.entries)
      if (entry.cause == *figure.cause) {
        entry.frequencies = figure.proposed;
        entry.sample_size = static_cast<double>(figure.sample);
        entry.family.reset();  // a figure of its own
      }
  }
  return pack;
}

syntax::Frequencies as_written(std::vector<double> const& shares, std::size_t sample,
                               std::string_view source) {
  syntax::Frequencies out;
  std::optional<syntax::Sample> counted;
  if (!source.empty())
    counted = syntax::Sample{syntax::Number{static_cast<double>(sample), {}},
                             syntax::Name{std::string(source), {}}};
  if (shares.size() == 1) {
    out.single = syntax::Frequency{in_per_cent(shares.front()), 100, counted, {}};
    return out;
  }
  for (auto const share : shares) out.shares.push_back({in_per_cent(share), {}});
  out.sample = counted;
  return out;
}

syntax::Rule with_learned(syntax::Rule rule, Pack const& pack, Learning const& learning,
                          std::string_view source) {
  for (auto const& figure : learning.figures) {
    if (pack[figure.rule].name != rule.name.text) continue;
    auto const written = as_written(figure.proposed, figure.sample, source);
    if (!figure.cause) rule.usual = written;
    if (!figure.cause) continue;
    auto const& name = pack[*figure.cause].name;
    auto const named = std::find_if(rule.in.begin(), rule.in.end(), [&](syntax::InCause const& in) {
      return in.cause.text == name;
    });
    if (named != rule.in.end())
      named->frequencies = written;
    else  // one of a family so far: now it has a figure of its own
      rule.in.push_back({syntax::Name{name, {}}, written});
  }
  return rule;
}

}  // namespace flinch
