#include "serve/full_check.hpp"

#include <fmt/format.h>

#include "check/check_findings.hpp"
#include "serve/mistakes.hpp"

namespace flinch::cli::serve {

std::optional<CheckResult> full_check(CheckJob const& job,
                                      std::function<bool()> const& is_outdated) {
  auto const& view = *job.view;
  if (view.pack == nullptr) return std::nullopt;
  CheckResult out{job, {}};
  auto const add = [&](Diagnostic const& d, std::string_view code) {
    auto& list = out.remarks[view.sources[d.at.file].name()];
    if (list.is_null()) list = Json::array();
    if (list.size() < most_mistakes) list.push_back(mistake(d, code, view));
  };
  Tables const tables(view.pack);
  auto const proof = proofread(tables, is_outdated);
  for (auto const& warning : proof.warnings) add(warning, code_text(warning.code));
  for (auto const& [example, promises] : broken_examples(tables, is_outdated))
    for (auto const& promise : promises)
      add({Code::expected,
           Severity::warning,
           example->at,
           fmt::format("example `{}` expects {}: {}", example->name, promise.promise,
                       promise.instead),
           {}},
          "broken-promise");
  if (is_outdated()) return std::nullopt;
  return out;
}

}  // namespace flinch::cli::serve
