#include <fmt/format.h>

#include <algorithm>

#include "audit/audit_figures.hpp"
#include "audit/audit_plots.hpp"
#include "audit/audit_view.hpp"
#include "flinch/explain/reasons.hpp"
#include "look/html.hpp"

namespace flinch::cli {
namespace {

using Rows = std::vector<std::vector<std::string>>;

class AuditHtml {
 public:
  AuditHtml(PackAudit const& one, std::size_t number, std::size_t worst)
      : pack_(*one.pack),
        name_(pack_label(*one.pack, one.location)),
        label_(from_outside(name_)),
        audit_(one.audit),
        id_(fmt::format("pack-{}", number)),
        worst_(worst) {}

  [[nodiscard]] std::string write() const {
    auto out = fmt::format(
        "<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}: {2} closed "
        "cases</h2>\n",
        id_, label_, audit_.cases);
    if (audit_.left_open > 0)
      out += paragraph(fmt::format("{} without an outcome left out.", audit_.left_open));
    if (audit_.triage.exact.of > 0) out += tiers() + needs_now();
    if (audit_.hits.first.of > 0) out += causes() + by_cause();
    return out + misses() + "</section>\n";
  }

 private:
  [[nodiscard]] std::string tiers() const {
    auto const& triage = audit_.triage;
    std::vector<std::string> names;
    for (auto const& tier : pack_.tiers) names.push_back(tier.name);
    auto out = "<h3>How soon</h3>\n" + figure(tier_plot(id_ + "-tiers", names, triage.cells));
    out += tier_table(names);
    out += figure_table("How often the tier was right", AuditPart::urgency);
    return out +
           paragraph(fmt::format(
               "In parentheses the range in which the true share lies with 95% confidence. "
               "Kappa: 1 is full agreement, 0 is chance. {} had no sign told, and so no tier; "
               "the last one counts as given.",
               triage.without_tier));
  }

  [[nodiscard]] std::string tier_table(std::vector<std::string> const& names) const {
    auto const& cells = audit_.triage.cells;
    std::vector<Column> columns{{"needed, and given:"}};
    for (auto const& name : names) columns.push_back({name, true});
    Rows rows;
    for (std::size_t needed = 0; needed < names.size(); ++needed) {
      rows.push_back({escaped(names[needed])});
      for (std::size_t given = 0; given < names.size(); ++given)
        rows.back().push_back(given > needed && cells[needed][given] > 0
                                  ? fmt::format("<strong>{}</strong>", cells[needed][given])
                                  : std::to_string(cells[needed][given]));
    }
    return table(about("Tier needed, and tier given (bold: less urgent than needed)"), columns,
                 rows);
  }

  [[nodiscard]] std::string figure_table(std::string_view caption, AuditPart part) const {
    Rows rows;
    for (auto const& one : audit_figures(audit_)) {
      if (one.part != part) continue;
      auto const bold = [&](std::string_view text) {
        return one.matters_most ? fmt::format("<strong>{}</strong>", text) : std::string(text);
      };
      rows.push_back({bold(one.label), bold(in_words(one))});
    }
    return table(about(caption), {{"what"}, {"value", true}}, rows);
  }

  // Captions name the pack, so that each is told from its like.
  [[nodiscard]] std::string about(std::string_view what) const {
    return fmt::format("{}, {}", what, name_);
  }

  [[nodiscard]] std::string reliability_table(std::string_view caption, Calibration const& what,
                                              std::string const& came_true) const {
    Rows rows;
    for (auto const& band : what.bands)
      if (band.came_true.of > 0)
        rows.push_back({fmt::format("{:.0f}% to {:.0f}%", 100 * band.from, 100 * band.to),
                        fmt::format("{:.1f}%", 100 * band.mean_forecast),
                        in_words(band.came_true)});
    return table(about(caption), {{"chance given"}, {"mean", true}, {came_true, true}}, rows);
  }

  [[nodiscard]] std::string needs_now() const {
    auto const title = fmt::format("The chance of \"{}\"", pack_.tiers.front().title);
    auto out = fmt::format("<h3>{}</h3>\n", escaped(title));
    auto plots = reliability_plot(id_ + "-now", title + ": reliability", audit_.needs_now.bands);
    if (!audit_.now_curve.empty())
      plots += roc_plot(
          id_ + "-roc", title + ": ROC curves",
          {{"with alarms", audit_.now_curve_with_alarms}, {"chance alone", audit_.now_curve}});
    out += figure(plots);
    out += figure_table(title + ", in figures", AuditPart::needs_now);
    out += reliability_table(title + ", by tenth", audit_.needs_now, "needed it");
    return out + roc_points("with alarms", audit_.now_curve_with_alarms) +
           roc_points("chance alone", audit_.now_curve);
  }

  [[nodiscard]] std::string roc_points(std::string const& name,
                                       std::vector<RocPoint> const& points) const {
    if (points.empty()) return {};
    Rows rows;
    for (auto const& point : points)
      rows.push_back({fmt::format("{:.1f}%", 100 * point.false_alarm_share),
                      fmt::format("{:.1f}%", 100 * point.hit_share)});
    return "<details><summary>Points of the ROC curve, " + escaped(name) + "</summary>\n" +
           table(about("Points of the ROC curve, " + name),
                 {{"of the others", true}, {"of those that needed it", true}}, rows) +
           "</details>\n";
  }

  [[nodiscard]] std::string causes() const {
    auto out =
        "<h3>Which cause</h3>\n" + figure_table("How often the cause was right", AuditPart::causes);
    out += figure(reliability_plot(id_ + "-first",
                                   "How often what stands first was right: reliability",
                                   audit_.first_cause.bands));
    return out + reliability_table("How often what stands first was right, by tenth",
                                   audit_.first_cause, "was right");
  }

  [[nodiscard]] std::string by_cause() const {
    Rows rows;
    for (auto const& one : audit_.by_cause)
      rows.push_back({escaped(title_of(pack_, one.cause)), std::to_string(one.hits.first.of),
                      std::to_string(one.hits.first.count),
                      std::to_string(one.hits.top_three.count), std::to_string(one.under.count),
                      std::to_string(one.over.count)});
    return "<h3>By true cause</h3>\n" + table(about("By true cause, in cases"),
                                              {{"cause"},
                                               {"cases", true},
                                               {"first", true},
                                               {"top three", true},
                                               {"tier too low", true},
                                               {"tier too high", true}},
                                              rows);
  }

  [[nodiscard]] std::string misses() const {
    if (worst_ == 0) return {};
    std::string out = "<h3>Worst misses</h3>\n";
    if (audit_.misses.empty())
      return out +
             paragraph("None: every tier was as urgent as needed, every true cause stood first.");
    std::string items;
    auto const shown = std::min(worst_, audit_.misses.size());
    for (std::size_t i = 0; i < shown; ++i)
      items += fmt::format("<li>{}: {}<br>{}.</li>\n", from_outside(audit_.misses[i].name),
                           escaped(miss_summary(pack_, audit_.misses[i])),
                           escaped(audit_.misses[i].why));
    out += numbered_list(items);
    if (shown < audit_.misses.size())
      out += paragraph(fmt::format("... and {} more", audit_.misses.size() - shown));
    return out;
  }

  Pack const& pack_;
  std::string name_;
  std::string label_;
  Audit const& audit_;
  std::string id_;
  std::size_t worst_;
};

std::string by_version(std::vector<PackAudit> const& audits) {
  Rows rows;
  for (auto const& one : audits)
    rows.push_back({from_outside(pack_label(*one.pack, one.location)),
                    in_words(one.audit.triage.under), in_words(one.audit.triage.over),
                    in_words(one.audit.hits.first), in_words(one.audit.now_area_with_alarms),
                    in_words(one.audit.triage.quadratic_kappa)});
  return section("versions", "By pack version",
                 table("Each pack over the same cases",
                       {{"pack"},
                        {"less urgent than needed", true},
                        {"more urgent", true},
                        {"true cause first", true},
                        {"ROC area", true},
                        {"kappa, quadratic", true}},
                       rows, Narrow::stacks));
}

}  // namespace

std::string audit_html(std::vector<PackAudit> const& audits, std::size_t worst) {
  std::string body = "<header>\n<h1>Audit of closed cases</h1>\n</header>\n<main>\n";
  if (audits.size() > 1) body += by_version(audits);
  for (std::size_t i = 0; i < audits.size(); ++i)
    body += AuditHtml(audits[i], i + 1, worst).write();
  return html_page({"Audit of closed cases"},
                   body + "</main>\n<footer>\n" + paragraph(audit_caution) + "</footer>\n");
}

}  // namespace flinch::cli
