#include <fmt/format.h>

#include <algorithm>

#include "audit_plots.hpp"
#include "audit_view.hpp"
#include "html.hpp"

namespace flinch::cli {
namespace {

constexpr char const* style =
    "body{font:16px/1.5 sans-serif;max-width:60rem;margin:1rem auto;padding:0 1rem;color:#1b1b1b;"
    "background:#fff}table{border-collapse:collapse;margin:.5rem 0}th,td{border:1px solid #b5b5b5;"
    "padding:.15rem .6rem;text-align:right}th:first-child,td:first-child{text-align:left}"
    ".under{font-weight:bold;border:2px solid #1b1b1b}.caution{border:2px solid #1b1b1b;"
    "padding:.5rem 1rem}svg{max-width:100%;height:auto}";
// SHA-256 of `style`, so that the page's policy lets this one style pass and nothing else.
constexpr char const* style_hash = "ArhNefoKL1GtORHlUYl9Qi3ZEHMx9P3OxC1wcIOIdwU=";

std::string row(std::vector<std::string> const& cells, std::string_view kind = "td") {
  std::string out = "<tr>";
  for (auto const& cell : cells) out += fmt::format("<{0}>{1}</{0}>", kind, cell);
  return out + "</tr>\n";
}

std::string table(std::vector<std::string> const& head,
                  std::vector<std::vector<std::string>> const& rows) {
  std::string out = "<table>\n" + (head.empty() ? "" : row(head, "th"));
  for (auto const& cells : rows) out += row(cells);
  return out + "</table>\n";
}

// Free text, kept from turning its surroundings round where it is written from right to left.
std::string from_outside(std::string_view text) { return "<bdi>" + escaped(text) + "</bdi>"; }

class AuditHtml {
 public:
  AuditHtml(PackAudit const& one, std::size_t number, std::size_t worst)
      : pack_(*one.pack),
        label_(from_outside(pack_label(*one.pack, one.location))),
        audit_(one.audit),
        id_(fmt::format("p{}", number)),
        worst_(worst) {}

  [[nodiscard]] std::string write() const {
    auto out = fmt::format("<section>\n<h2>{}: {} closed cases</h2>\n", label_, audit_.cases);
    if (audit_.left_open > 0)
      out += fmt::format("<p>{} without an outcome left out.</p>\n", audit_.left_open);
    if (audit_.triage.exact.of > 0) out += tiers() + needs_now();
    if (audit_.hits.first.of > 0) out += causes() + by_cause();
    return out + misses() + "</section>\n";
  }

 private:
  [[nodiscard]] std::string tiers() const {
    auto const& triage = audit_.triage;
    std::vector<std::string> names;
    for (auto const& tier : pack_.tiers) names.push_back(tier.name);
    auto out = "<h3>How soon</h3>\n" + tier_plot(id_ + "-tiers", names, triage.cells);
    out += "<table>\n<tr><th>needed \\ given</th>";
    for (auto const& name : names) out += "<th>" + escaped(name) + "</th>";
    out += "</tr>\n";
    for (std::size_t needed = 0; needed < names.size(); ++needed) {
      out += "<tr><th>" + escaped(names[needed]) + "</th>";
      for (std::size_t given = 0; given < names.size(); ++given)
        out += fmt::format("<td{}>{}</td>", given > needed ? " class=\"under\"" : "",
                           triage.cells[needed][given]);
      out += "</tr>\n";
    }
    out += "</table>\n";
    out += table({}, {{"<strong>Less urgent than needed</strong>",
                       "<strong>" + in_words(triage.under) + "</strong>"},
                      {"More urgent than needed", in_words(triage.over)},
                      {"As needed", in_words(triage.exact)},
                      {"Weighted kappa, linear", in_words(triage.linear_kappa)},
                      {"Weighted kappa, quadratic", in_words(triage.quadratic_kappa)}});
    return out +
           fmt::format(
               "<p>In parentheses the range in which the true share lies with 95% confidence. "
               "Kappa: 1 is full agreement, 0 is chance. {} had too few answers for any tier; "
               "the last one counts as given.</p>\n",
               triage.without_tier);
  }

  [[nodiscard]] static std::string reliability_table(Calibration const& what,
                                                     std::string const& came_true) {
    std::vector<std::vector<std::string>> rows;
    for (auto const& band : what.bands)
      if (band.came_true.of > 0)
        rows.push_back({fmt::format("{:.0f}% to {:.0f}%", 100 * band.from, 100 * band.to),
                        fmt::format("{:.1f}%", 100 * band.mean_forecast),
                        in_words(band.came_true)});
    return table({"chance given", "mean", came_true}, rows);
  }

  [[nodiscard]] std::string needs_now() const {
    auto const title = fmt::format("The chance of \"{}\"", pack_.tiers.front().title);
    auto out = fmt::format("<h3>{}</h3>\n", escaped(title));
    out += reliability_plot(id_ + "-now", title + ": reliability", audit_.needs_now.bands);
    if (!audit_.now_curve.empty())
      out += roc_plot(
          id_ + "-roc", title + ": ROC curves",
          {{"with alarms", audit_.now_curve_with_alarms}, {"chance alone", audit_.now_curve}});
    out += table({}, {{"ROC area, the chance alone", in_words(audit_.now_area)},
                      {"ROC area, with alarms", in_words(audit_.now_area_with_alarms)},
                      {"Brier score (0 is perfect)", in_words(audit_.needs_now.brier)},
                      {"Log loss", in_words(audit_.needs_now.log_loss)}});
    out += reliability_table(audit_.needs_now, "needed it");
    return out + roc_points("with alarms", audit_.now_curve_with_alarms) +
           roc_points("chance alone", audit_.now_curve);
  }

  [[nodiscard]] static std::string roc_points(std::string const& name,
                                              std::vector<RocPoint> const& points) {
    if (points.empty()) return {};
    std::vector<std::vector<std::string>> rows;
    for (auto const& point : points)
      rows.push_back({fmt::format("{:.1f}%", 100 * point.false_alarm_share),
                      fmt::format("{:.1f}%", 100 * point.hit_share)});
    return "<details><summary>Points of the ROC curve, " + name + "</summary>\n" +
           table({"of the others", "of those that needed it"}, rows) + "</details>\n";
  }

  [[nodiscard]] std::string causes() const {
    auto out = "<h3>Which cause</h3>\n" +
               table({}, {{"True cause first", in_words(audit_.hits.first)},
                          {"Among the first three", in_words(audit_.hits.top_three)},
                          {"Log loss of the true cause", in_words(audit_.cause_log_loss)},
                          {"Brier score of the first", in_words(audit_.first_cause.brier)},
                          {"Log loss of the first", in_words(audit_.first_cause.log_loss)}});
    out += reliability_plot(id_ + "-first", "How often what stands first was right: reliability",
                            audit_.first_cause.bands);
    return out + reliability_table(audit_.first_cause, "was right");
  }

  [[nodiscard]] std::string by_cause() const {
    std::vector<std::vector<std::string>> rows;
    for (auto const& one : audit_.by_cause)
      rows.push_back({escaped(cause_title(pack_, one.cause)), std::to_string(one.hits.first.of),
                      std::to_string(one.hits.first.count),
                      std::to_string(one.hits.top_three.count), std::to_string(one.under.count),
                      std::to_string(one.over.count)});
    return "<h3>By true cause</h3>\n" +
           table({"cause", "cases", "first", "top three", "tier too low", "tier too high"}, rows);
  }

  [[nodiscard]] std::string misses() const {
    if (worst_ == 0) return {};
    std::string out = "<h3>Worst misses</h3>\n";
    if (audit_.misses.empty())
      return out +
             "<p>None: every tier was as urgent as needed, every true cause stood first.</p>\n";
    out += "<ol>\n";
    auto const shown = std::min(worst_, audit_.misses.size());
    for (std::size_t i = 0; i < shown; ++i)
      out += fmt::format("<li>{}: {}<br/>{}.</li>\n", from_outside(audit_.misses[i].name),
                         escaped(miss_summary(pack_, audit_.misses[i])),
                         escaped(audit_.misses[i].why));
    out += "</ol>\n";
    if (shown < audit_.misses.size())
      out += fmt::format("<p>... and {} more</p>\n", audit_.misses.size() - shown);
    return out;
  }

  Pack const& pack_;
  std::string label_;
  Audit const& audit_;
  std::string id_;
  std::size_t worst_;
};

std::string by_version(std::vector<PackAudit> const& audits) {
  std::vector<std::vector<std::string>> rows;
  for (auto const& one : audits)
    rows.push_back({from_outside(pack_label(*one.pack, one.location)),
                    in_words(one.audit.triage.under), in_words(one.audit.triage.over),
                    in_words(one.audit.hits.first), in_words(one.audit.now_area_with_alarms),
                    in_words(one.audit.triage.quadratic_kappa)});
  return "<h2>By pack version</h2>\n" + table({"pack", "less urgent than needed", "more urgent",
                                               "true cause first", "ROC area", "kappa, quadratic"},
                                              rows);
}

}  // namespace

std::string audit_html(std::vector<PackAudit> const& audits, std::size_t worst) {
  auto out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'sha256-{}'; base-uri 'none'; form-action 'none'\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width\"/>\n"
      "<title>Audit of closed cases</title>\n<style>{}</style>\n</head>\n<body>\n"
      "<h1>Audit of closed cases</h1>\n<p class=\"caution\">{}</p>\n",
      style_hash, style, escaped(audit_caution));
  if (audits.size() > 1) out += by_version(audits);
  for (std::size_t i = 0; i < audits.size(); ++i) out += AuditHtml(audits[i], i + 1, worst).write();
  return out + "</body>\n</html>\n";
}

}  // namespace flinch::cli
