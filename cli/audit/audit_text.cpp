#include <fmt/format.h>

#include <algorithm>

#include "audit/audit_figures.hpp"
#include "audit/audit_view.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t label_width = 26;

class AuditText {
 public:
  AuditText(PackAudit const& one, std::size_t worst, Page& page)
      : pack_(*one.pack),
        label_(pack_label(*one.pack, one.location)),
        audit_(one.audit),
        worst_(worst),
        page_(page) {}

  void write() {
    page_.heading(fmt::format("AUDIT OF {} CLOSED CASE{}: {}", audit_.cases,
                              audit_.cases == 1 ? "" : "S", label_));
    if (audit_.left_open > 0)
      page_.paragraph(fmt::format("{} without an outcome left out.", audit_.left_open));
    page_.blank();
    if (audit_.triage.exact.of > 0) {
      tiers();
      needs_now();
    }
    if (audit_.hits.first.of > 0) {
      causes();
      by_cause();
    }
    misses();
  }

 private:
  void figures(AuditPart part) {
    for (auto const& figure : audit_figures(audit_)) {
      if (figure.part != part) continue;
      auto const line = fitted(figure.label, label_width) + " " + in_words(figure);
      page_.line("  " + (figure.matters_most ? page_.bold(line) : line));
    }
  }

  void tiers() {
    auto const& triage = audit_.triage;
    page_.heading("HOW SOON: TIER NEEDED (LINES) AND GIVEN (COLUMNS)");
    std::string head = "  " + fitted("", 10);
    for (auto const& tier : pack_.tiers) head += fmt::format("{:>8}", tier.name.substr(0, 7));
    page_.line(head);
    for (std::size_t needed = 0; needed < triage.cells.size(); ++needed) {
      auto line = "  " + fitted(pack_.tiers[needed].name, 10);
      for (auto const count : triage.cells[needed])
        line += fmt::format("{:>8}", count == 0 ? "." : std::to_string(count));
      page_.line(line);
    }
    figures(AuditPart::urgency);
    if (triage.without_tier > 0)
      page_.paragraph(
          fmt::format("{} had no sign told, and so no tier; the last one counts as "
                      "given.",
                      triage.without_tier));
    page_.paragraph(
        "In parentheses, here and below, the range in which the true share lies with 95% "
        "confidence. Kappa: 1 is full agreement, 0 is chance.");
    page_.blank();
  }

  void needs_now() {
    page_.heading(fmt::format("THE CHANCE OF \"{}\"", inert(pack_.tiers.front().title)));
    figures(AuditPart::needs_now);
    bands(audit_.needs_now, "needed it");
  }

  void bands(Calibration const& what, std::string_view came_true) {
    page_.line(fmt::format("  {} {:>6} {:>7}  {}", fitted("chance given", 14), "cases", "mean",
                           came_true));
    for (auto const& band : what.bands) {
      if (band.came_true.of == 0) continue;
      page_.line(
          fmt::format("  {} {:>6} {:>6.1f}%  {}",
                      fitted(fmt::format("{:.0f}% to {:.0f}%", 100 * band.from, 100 * band.to), 14),
                      band.came_true.of, 100 * band.mean_forecast, in_words(band.came_true)));
    }
    page_.blank();
  }

  void causes() {
    page_.heading("WHICH CAUSE");
    figures(AuditPart::causes);
    page_.line("  How often what stands first was right:");
    bands(audit_.first_cause, "was right");
  }

  void by_cause() {
    page_.heading("BY TRUE CAUSE");
    page_.line(fmt::format("  {} {:>6} {:>6} {:>6} {:>8} {:>8}", fitted("", title_width()), "cases",
                           "first", "top 3", "too low", "too high"));
    for (auto const& one : audit_.by_cause)
      page_.line(fmt::format("  {} {:>6} {:>6} {:>6} {:>8} {:>8}",
                             fitted(title_of(pack_, one.cause), title_width()), one.hits.first.of,
                             one.hits.first.count, one.hits.top_three.count, one.under.count,
                             one.over.count));
    page_.blank();
  }

  [[nodiscard]] std::size_t title_width() const {
    constexpr std::size_t numbers = 41;
    constexpr std::size_t narrowest = 10;
    return page_.look().width > numbers + narrowest ? page_.look().width - numbers : narrowest;
  }

  void misses() {
    if (worst_ == 0) return;
    page_.heading("WORST MISSES");
    if (audit_.misses.empty())
      page_.paragraph("None: every tier was as urgent as needed, every true cause stood first.");
    auto const shown = std::min(worst_, audit_.misses.size());
    for (std::size_t i = 0; i < shown; ++i) {
      auto const& miss = audit_.misses[i];
      page_.paragraph(fmt::format("{}: {}", miss.name, miss_summary(pack_, miss)), 0,
                      fmt::format("{:>3}  ", i + 1));
      page_.paragraph(miss.why + ".", 5);
    }
    if (audit_.misses.size() > shown)
      page_.paragraph(fmt::format("... and {} more", audit_.misses.size() - shown));
    page_.blank();
  }

  Pack const& pack_;
  std::string label_;
  Audit const& audit_;
  std::size_t worst_;
  Page& page_;
};

void by_version(std::vector<PackAudit> const& audits, Page& page) {
  page.heading("BY PACK VERSION");
  page.line(fmt::format("  {} {:>8} {:>8} {:>6} {:>6} {:>6} {:>6}", fitted("", 24), "too low",
                        "too high", "first", "top 3", "ROC", "kappa"));
  for (auto const& one : audits) {
    auto const& audit = one.audit;
    auto const short_number = [](std::optional<double> const& value) {
      return value ? fmt::format("{:.3f}", *value) : std::string("-");
    };
    page.line(fmt::format("  {} {:>8} {:>8} {:>6} {:>6} {:>6} {:>6}",
                          fitted(pack_label(*one.pack, ""), 24), audit.triage.under.count,
                          audit.triage.over.count, audit.hits.first.count,
                          audit.hits.top_three.count, short_number(audit.now_area_with_alarms),
                          short_number(audit.triage.quadratic_kappa)));
    if (!one.location.empty()) page.paragraph(one.location, 4);
  }
  page.blank();
}

}  // namespace

std::string audit_months_text(Pack const& pack, std::vector<MonthAudit> const& months,
                              Look const& look) {
  Page page(look);
  page.heading(fmt::format("BY MONTH, {}", pack_label(pack, "")));
  auto const line = [&](std::string_view month, std::string_view closed, std::string_view low,
                        std::string_view high, std::string_view first) {
    page.line(fmt::format("  {:<7} {:>7}  {:<20} {:<20} {}", month, closed, low, high, first));
  };
  auto const share = [](Proportion const& one) {
    return one.of == 0 ? std::string("-")
                       : fmt::format("{:.1f}% ({:.0f} to {:.0f})", 100 * one.share(), 100 * one.low,
                                     100 * one.high);
  };
  line("month", "closed", "told too late", "told too early", "true cause first");
  for (auto const& [month, audit] : months)
    line(month, std::to_string(audit.cases), share(audit.triage.under), share(audit.triage.over),
         share(audit.hits.first));
  page.blank();
  page.paragraph(
      "In brackets the range that the share may have by chance (95%): where two months' ranges "
      "overlap, neither is shown to be better. One month whole: --since and --until.");
  page.paragraph(audit_caution);
  return page.take();
}

std::string in_words(Proportion const& proportion) {
  if (proportion.of == 0) return "none counted";
  return fmt::format("{} of {}, {:.1f}% ({:.1f}% to {:.1f}%)", proportion.count, proportion.of,
                     100 * proportion.share(), 100 * proportion.low, 100 * proportion.high);
}

std::string in_words(std::optional<double> const& value) {
  return value ? fmt::format("{:.3f}", *value) : "not defined";
}

std::string pack_label(Pack const& pack, std::string const& location) {
  auto const name = pack.version.empty() ? pack.name : pack.name + " " + pack.version;
  return inert(location.empty() ? name : name + " (" + location + ")");
}

std::string miss_summary(Pack const& pack, Miss const& miss) {
  std::string out;
  if (miss.tiers_too_low > 0)
    out = fmt::format("needed {}, given {}", pack[*miss.needed].name,
                      miss.given ? pack[*miss.given].name : "no tier");
  if (miss.is_cause_known && miss.place > 1)
    out += fmt::format("{}{} in place {}", out.empty() ? "" : "; ", title_of(pack, miss.cause),
                       miss.place);
  return out;
}

std::string audit_text(std::vector<PackAudit> const& audits, std::size_t worst, Look const& look) {
  Page page(look);
  if (audits.size() > 1) by_version(audits, page);
  for (auto const& one : audits) AuditText(one, worst, page).write();
  page.paragraph(audit_caution, 0);
  return page.take();
}

}  // namespace flinch::cli
