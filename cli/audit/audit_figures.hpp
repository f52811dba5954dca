#pragma once
// The single figures of an audit: what each is called, and where it stands in the JSON. Text, page
// and JSON walk these rows, so a further statistic is one row more.
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "flinch/audit/audit.hpp"

namespace flinch::cli {

/// Under which heading a figure is shown.
enum class AuditPart : std::uint8_t { urgency, needs_now, causes };

struct AuditFigure {
  AuditPart part{};
  std::string_view label;
  std::string_view pointer;  ///< in one audit of the JSON (RFC 6901)
  std::variant<Proportion, std::optional<double>> value;
  bool matters_most = false;
};

/// In the order in which they are shown.
[[nodiscard]] std::vector<AuditFigure> audit_figures(Audit const& audit);

/// "12 of 84, 14.3% (8.4% to 23.3%)", "none counted"; or "0.713", "not defined".
[[nodiscard]] std::string in_words(AuditFigure const& figure);

}  // namespace flinch::cli
