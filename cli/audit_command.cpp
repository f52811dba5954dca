// `flinch audit CASES`
#include <fmt/format.h>

#include <ostream>

#include "audit_view.hpp"
#include "case_files.hpp"
#include "commands.hpp"
#include "flinch/text/display.hpp"
#include "json_text.hpp"
#include "replace_file.hpp"

namespace flinch::cli {

Status audit_cases(AuditOptions const& options, Session const& session) {
  auto const files = case_files(options.cases, session.err);
  if (!files) return Status::bad;
  auto const locations = options.packs.empty() ? std::vector<std::string>{""} : options.packs;
  std::vector<PackAudit> audits;
  for (auto const& location : locations) {
    auto const opened = open_sound_pack(location, session.err);
    if (!opened) return Status::bad;
    auto const& pack = *opened->outcome.value;
    auto const cases = read_cases(*files, *pack, session.err);
    if (!cases) return Status::bad;
    audits.push_back({location, pack, audit(Tables(pack), *cases)});
    if (audits.back().audit.cases == 0) {
      session.err << "flinch: error: none of these cases is closed, so there is nothing to audit\n"
                     "  note: a closed case says `outcome: {cause: NAME, needed: TIER}`\n";
      return Status::bad;
    }
  }
  if (!options.html.empty())
    if (auto const trouble = replace_file(options.html, audit_html(audits, options.worst),
                                          ForceFolder::now, Access::as_usual)) {
      session.err << fmt::format("{}: error: cannot write this page: {}\n", inert(options.html),
                                 *trouble);
      return Status::bad;
    }
  session.out << (options.json ? json_text(audit_json(audits, options.worst))
                               : audit_text(audits, options.worst, session.look));
  return Status::fine;
}

}  // namespace flinch::cli
