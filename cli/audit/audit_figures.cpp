#include "audit/audit_figures.hpp"

#include "audit/audit_view.hpp"

namespace flinch::cli {

std::vector<AuditFigure> audit_figures(Audit const& audit) {
  using enum AuditPart;
  auto const& triage = audit.triage;
  auto const& now = audit.needs_now;
  auto const& first = audit.first_cause;
  return {
      {urgency, "Less urgent than needed", "/triage/under", triage.under, true},
      {urgency, "More urgent than needed", "/triage/over", triage.over},
      {urgency, "As needed", "/triage/exact", triage.exact},
      {urgency, "Weighted kappa, linear", "/triage/kappa_linear", triage.linear_kappa},
      {urgency, "Weighted kappa, quadratic", "/triage/kappa_quadratic", triage.quadratic_kappa},
      {needs_now, "ROC area, the chance alone", "/needs_now/roc/area", audit.now_area},
      {needs_now, "ROC area, with alarms", "/needs_now/roc_with_alarms/area",
       audit.now_area_with_alarms},
      {needs_now, "Brier score (0 is perfect)", "/needs_now/brier", now.brier},
      {needs_now, "Log loss", "/needs_now/log_loss", now.log_loss},
      {causes, "True cause first", "/hits/first", audit.hits.first},
      {causes, "Among the first three", "/hits/top_three", audit.hits.top_three},
      {causes, "Log loss of the true cause", "/cause_log_loss", audit.cause_log_loss},
      {causes, "Brier score of the first", "/first_cause/brier", first.brier},
      {causes, "Log loss of the first", "/first_cause/log_loss", first.log_loss},
  };
}

std::string in_words(AuditFigure const& figure) {
  return std::visit([](auto const& value) { return in_words(value); }, figure.value);
}

}  // namespace flinch::cli
