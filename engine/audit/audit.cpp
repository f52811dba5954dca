#include "flinch/audit/audit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

struct Counts {
  std::size_t cases = 0;
  std::size_t first = 0;
  std::size_t top_three = 0;
  std::size_t graded = 0;
  std::size_t under = 0;
  std::size_t over = 0;
  [[nodiscard]] Hits hits() const {
    return {wilson_interval(first, cases), wilson_interval(top_three, cases)};
  }
};

class Auditor {
 public:
  explicit Auditor(Tables const& tables)
      : pack_(tables.pack()), assessor_(tables), by_cause_(pack_.causes.size() + 1) {
    auto const tiers = pack_.tiers.size();
    out_.triage.cells.assign(tiers, std::vector<std::size_t>(tiers));
  }

  Audit run(std::span<NamedCase const> cases, EachCase const& each) {
    std::size_t done = 0;
    for (auto const& one : cases) {
      if (each) each(done++);
      if (!one.patient.outcome) {
        ++out_.left_open;
        continue;
      }
      ++out_.cases;
      count(one, *one.patient.outcome, assessor_.assess(one.patient));
    }
    sum_up();
    return std::move(out_);
  }

 private:
  void count(NamedCase const& one, CaseOutcome const& truth, Assessment const& result) {
    Miss miss{
        one.name, truth.needed, result.judgement.tier, 0, truth.is_cause_known, truth.cause, 0, {}};
    Counts here;
    if (truth.needed) take_tier(*truth.needed, result, here, miss);
    if (truth.is_cause_known) take_cause(truth.cause, result, here, miss);
    add(all_, here);
    if (truth.is_cause_known)
      add(by_cause_[truth.cause ? index(*truth.cause) : pack_.causes.size()], here);
    if (miss.tiers_too_low == 0 && miss.place <= 1) return;
    miss.why = why(miss, result);
    out_.misses.push_back(std::move(miss));
  }

  void take_tier(TierId needed, Assessment const& result, Counts& here, Miss& miss) {
    auto const last = pack_.tiers.size() - 1;
    auto const given = result.judgement.tier ? index(*result.judgement.tier) : last;
    if (!result.judgement.tier) ++out_.triage.without_tier;
    ++out_.triage.cells[index(needed)][given];
    here.graded = 1;
    here.under = given > index(needed) ? 1 : 0;
    here.over = given < index(needed) ? 1 : 0;
    miss.tiers_too_low = here.under == 1 ? given - index(needed) : 0;
    bool const needs_now = index(needed) == 0;
    auto const chance = std::min(1.0, result.judgement.tiers.front().probability);
    out_.needs_now.forecasts.push_back({chance, needs_now});
    constexpr double above_all_others = 2;
    bool const is_alarmed = result.judgement.alarm_tier && index(*result.judgement.alarm_tier) == 0;
    with_alarms_.push_back({is_alarmed ? above_all_others : chance, needs_now});
  }

  void take_cause(std::optional<CauseId> cause, Assessment const& result, Counts& here,
                  Miss& miss) {
    miss.place = result.place(cause) + 1;
    here.cases = 1;
    here.first = miss.place == 1 && !result.judgement.nothing_told ? 1 : 0;
    here.top_three = miss.place <= 3 && !result.judgement.nothing_told ? 1 : 0;
    auto const& first = result.ranking.front();
    out_.first_cause.forecasts.push_back({std::min(1.0, first.posterior), miss.place == 1});
    for_truth_.push_back({std::min(1.0, result.ranking[miss.place - 1].posterior), true});
  }

  static void add(Counts& sum, Counts const& one) {
    sum.cases += one.cases;
    sum.first += one.first;
    sum.top_three += one.top_three;
    sum.graded += one.graded;
    sum.under += one.under;
    sum.over += one.over;
  }

  // One line; what stands first is the cause that the reasons speak for.
  [[nodiscard]] std::string why(Miss const& miss, Assessment const& result) const {
    auto const& first = result.ranking.front();
    auto out = fmt::format("{} was preferred ({:.0f}%)", title_of(pack_, first.cause),
                           100 * first.posterior);
    if (first.cause) out += reasons_for(result, *first.cause);
    if (miss.place > 1)
      out += fmt::format("; {} came {}{} ({:.2g}%)", title_of(pack_, miss.cause), miss.place,
                         ordinal_end(miss.place), 100 * result.ranking[miss.place - 1].posterior);
    if (miss.place > 1 && miss.cause) out += strongest_against(result, *miss.cause);
    if (miss.tiers_too_low > 0) out += "; " + why_too_low(*miss.needed, result);
    return out;
  }

  [[nodiscard]] std::string reasons_for(Assessment const& result, CauseId cause) const {
    constexpr std::size_t shown = 2;
    std::string out;
    std::size_t count = 0;
    for (auto const& reason : reasons(result, cause)) {
      if (reason.weight <= 0) continue;
      if (count++ == shown) break;
      out += fmt::format("{}{} ({})", out.empty() ? ", by " : ", ", reason_text(pack_, reason),
                         weight_in_words(reason.weight));
    }
    return out.empty() ? ", by its base rate alone" : out;
  }

  [[nodiscard]] std::string strongest_against(Assessment const& result, CauseId cause) const {
    for (auto const& reason : reasons(result, cause))
      if (reason.weight < 0)
        return fmt::format(", held back by {} ({})", reason_text(pack_, reason),
                           weight_in_words(reason.weight));
    return ", nothing spoke against it";
  }

  [[nodiscard]] std::string why_too_low(TierId needed, Assessment const& result) const {
    if (result.judgement.nothing_told)
      return fmt::format("no alarm asked for \"{}\", and no sign was told", pack_[needed].title);
    auto const& chance = result.judgement.tiers[index(needed)];
    return fmt::format(
        "no alarm asked for \"{}\", and its chance was {:.3g}% where {:.3g}% is enough",
        pack_[needed].title, 100 * chance.probability, 100 * chance.threshold.value_or(0));
  }

  static std::string_view ordinal_end(std::size_t n) {
    if (n % 100 >= 11 && n % 100 <= 13) return "th";
    return n % 10 == 1 ? "st" : n % 10 == 2 ? "nd" : n % 10 == 3 ? "rd" : "th";
  }

  static void calibrate(Calibration& what) {
    what.brier = brier_score(what.forecasts);
    what.log_loss = log_loss(what.forecasts);
    what.bands = reliability(what.forecasts);
  }

  void sum_up() {
    auto& triage = out_.triage;
    triage.exact = wilson_interval(all_.graded - all_.under - all_.over, all_.graded);
    triage.under = wilson_interval(all_.under, all_.graded);
    triage.over = wilson_interval(all_.over, all_.graded);
    triage.linear_kappa = weighted_kappa(triage.cells, KappaWeights::linear);
    triage.quadratic_kappa = weighted_kappa(triage.cells, KappaWeights::quadratic);
    out_.hits = all_.hits();
    calibrate(out_.needs_now);
    calibrate(out_.first_cause);
    out_.now_curve = roc_curve(out_.needs_now.forecasts);
    out_.now_area = roc_area(out_.needs_now.forecasts);
    out_.now_curve_with_alarms = roc_curve(with_alarms_);
    out_.now_area_with_alarms = roc_area(with_alarms_);
    out_.cause_log_loss = log_loss(for_truth_);
    for (std::uint32_t i = 0; i < by_cause_.size(); ++i) {
      auto const& counts = by_cause_[i];
      if (counts.cases == 0) continue;
      out_.by_cause.push_back({i < pack_.causes.size() ? std::optional(CauseId{i}) : std::nullopt,
                               counts.hits(), wilson_interval(counts.under, counts.graded),
                               wilson_interval(counts.over, counts.graded)});
    }
    std::stable_sort(out_.misses.begin(), out_.misses.end(), [](Miss const& a, Miss const& b) {
      return std::tuple(a.tiers_too_low, a.place) > std::tuple(b.tiers_too_low, b.place);
    });
  }

  Pack const& pack_;
  Assessor assessor_;
  std::vector<Counts> by_cause_;
  Counts all_;
  std::vector<Forecast> with_alarms_;
  std::vector<Forecast> for_truth_;
  Audit out_;
};

}  // namespace

Audit audit(Tables const& tables, std::span<NamedCase const> cases, EachCase const& each) {
  return Auditor(tables).run(cases, each);
}

}  // namespace flinch
