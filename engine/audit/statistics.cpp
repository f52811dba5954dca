#include "flinch/audit/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flinch {
namespace {

double as_number(std::size_t count) { return static_cast<double>(count); }

}  // namespace

double Proportion::share() const { return of == 0 ? 0 : as_number(count) / as_number(of); }

Proportion wilson_interval(std::size_t count, std::size_t of) {
  if (of == 0) return {0, 0, 0, 1};
  constexpr double z = 1.959963984540054;  // the normal distribution's 97.5% point
  auto const n = as_number(of);
  auto const p = as_number(count) / n;
  auto const scale = 1 + z * z / n;
  auto const centre = (p + z * z / (2 * n)) / scale;
  auto const half = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n)) / scale;
  // At none and at all the interval ends there; rounding must not say otherwise.
  return {count, of, count == 0 ? 0 : std::max(0.0, centre - half),
          count == of ? 1 : std::min(1.0, centre + half)};
}

std::optional<double> weighted_kappa(GradeTable const& cells, KappaWeights weights) {
  auto const grades = cells.size();
  std::vector<double> rows(grades), columns(grades);
  double all = 0;
  for (std::size_t a = 0; a < grades; ++a)
    for (std::size_t b = 0; b < grades; ++b) {
      auto const n = as_number(cells[a][b]);
      rows[a] += n;
      columns[b] += n;
      all += n;
    }
  double observed = 0;
  double expected = 0;
  for (std::size_t a = 0; a < grades; ++a)
    for (std::size_t b = 0; b < grades; ++b) {
      auto const distance = std::abs(as_number(a) - as_number(b));
      auto const cost = weights == KappaWeights::linear ? distance : distance * distance;
      observed += cost * as_number(cells[a][b]);
      expected += cost * rows[a] * columns[b];
    }
  if (expected == 0) return std::nullopt;
  return 1 - observed * all / expected;
}

std::optional<double> brier_score(std::span<Forecast const> forecasts) {
  if (forecasts.empty()) return std::nullopt;
  double sum = 0;
  for (auto const& f : forecasts) {
    auto const miss = f.probability - (f.came_true ? 1 : 0);
    sum += miss * miss;
  }
  return sum / as_number(forecasts.size());
}

std::optional<double> log_loss(std::span<Forecast const> forecasts) {
  if (forecasts.empty()) return std::nullopt;
  constexpr double least = std::numeric_limits<double>::epsilon();
  double sum = 0;
  for (auto const& f : forecasts) {
    auto const held = std::clamp(f.probability, least, 1 - least);
    sum -= std::log(f.came_true ? held : 1 - held);
  }
  return sum / as_number(forecasts.size());
}

std::vector<RocPoint> roc_curve(std::span<Forecast const> forecasts) {
  std::vector<Forecast> sorted(forecasts.begin(), forecasts.end());
  std::sort(sorted.begin(), sorted.end(),
            [](Forecast const& a, Forecast const& b) { return a.probability > b.probability; });
  auto const positives = as_number(static_cast<std::size_t>(
      std::count_if(sorted.begin(), sorted.end(), [](Forecast const& f) { return f.came_true; })));
  auto const negatives = as_number(sorted.size()) - positives;
  if (positives == 0 || negatives == 0) return {};
  std::vector<RocPoint> out;
  double hits = 0;
  double false_alarms = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    ++(sorted[i].came_true ? hits : false_alarms);
    bool const is_last_of_ties =
        i + 1 == sorted.size() || sorted[i + 1].probability != sorted[i].probability;
    if (is_last_of_ties)
      out.push_back({sorted[i].probability, hits / positives, false_alarms / negatives});
  }
  return out;
}

// Trapezes between the points of the curve: a step of ties counts half.
std::optional<double> roc_area(std::span<Forecast const> forecasts) {
  auto const curve = roc_curve(forecasts);
  if (curve.empty()) return std::nullopt;
  double area = 0;
  RocPoint before;
  for (auto const& point : curve) {
    area += (point.false_alarm_share - before.false_alarm_share) *
            (point.hit_share + before.hit_share) / 2;
    before = point;
  }
  return area;
}

std::vector<ReliabilityBand> reliability(std::span<Forecast const> forecasts) {
  constexpr std::size_t bands = 10;
  struct Sum {
    double forecasts = 0;
    std::size_t count = 0;
    std::size_t came_true = 0;
  };
  std::vector<Sum> sums(bands);
  for (auto const& f : forecasts) {
    auto const band = static_cast<std::size_t>(std::clamp(f.probability, 0.0, 1.0) * bands);
    auto& sum = sums[std::min(band, bands - 1)];
    sum.forecasts += f.probability;
    ++sum.count;
    if (f.came_true) ++sum.came_true;
  }
  std::vector<ReliabilityBand> out;
  for (std::size_t i = 0; i < bands; ++i)
    out.push_back({as_number(i) / bands, as_number(i + 1) / bands,
                   sums[i].count == 0 ? 0 : sums[i].forecasts / as_number(sums[i].count),
                   wilson_interval(sums[i].came_true, sums[i].count)});
  return out;
}

}  // namespace flinch
