// `flinch audit CASES`
#include "audit/audit_command.hpp"

#include <fmt/format.h>

#include <map>
#include <memory>
#include <ostream>

#include "audit/audit_view.hpp"
#include "book/book_cases.hpp"
#include "files/pack_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "look/headway.hpp"
#include "look/json_text.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

Status nothing_closed(Session const& session) {
  session.err << "flinch: error: none of these cases is closed, so there is nothing to audit\n"
                 "  note: a closed case says `outcome: {cause: NAME, needed: TIER}`\n";
  return Status::bad;
}

struct AuditOptions {
  std::vector<std::string> packs;  ///< each audited by itself; none: the shipped pack
  CasesChosen cases;
  bool json = false;
  std::string html;        ///< a page is written there as well
  std::size_t worst = 10;  ///< how many misses are shown
  bool by_month = false;   ///< a line a month instead
};

// Calls of the book, each with the month in which it began.
Status audit_months(AuditOptions const& options, Session const& session) {
  if (!options.cases.are_of_the_book() || options.json || !options.html.empty()) {
    session.err << "flinch: error: --by-month is a table of the book's closed calls: name no case "
                   "files, no --json and no --html beside it (one month: --since and --until)\n";
    return Status::bad;
  }
  std::string out;
  for (auto const& location :
       options.packs.empty() ? std::vector<std::string>{""} : options.packs) {
    auto const opened = open_sound_pack(location, session.err);
    if (!opened) return Status::bad;
    auto const& pack = opened->pack;
    std::vector<std::string> months;
    auto cases = read_chosen(options.cases, Calls::Which::closed, {{pack.get()}}, session, &months);
    if (!cases) return Status::bad;
    std::map<std::string, std::vector<NamedCase>> by_month;
    for (std::size_t i = 0; i < months.size(); ++i)
      by_month[months[i]].push_back(std::move((*cases)[0][i]));
    if (by_month.empty()) return nothing_closed(session);
    Tables const tables(pack);
    std::vector<MonthAudit> audits;
    for (auto const& [month, its_cases] : by_month)
      audits.push_back({month, audit(tables, its_cases)});
    out += audit_months_text(*pack, audits, session.look);
  }
  session.out << out;
  return Status::fine;
}

Status audit_cases(AuditOptions const& options, Session const& session) {
  if (options.by_month) return audit_months(options, session);
  auto const locations = options.packs.empty() ? std::vector<std::string>{""} : options.packs;
  std::vector<std::shared_ptr<Pack const>> packs;
  std::vector<CasesFor> wanted;
  for (auto const& location : locations) {
    auto const opened = open_sound_pack(location, session.err);
    if (!opened) return Status::bad;
    packs.push_back(opened->pack);
    wanted.push_back({packs.back().get()});
  }
  auto const cases = read_chosen(options.cases, Calls::Which::closed, wanted, session);
  if (!cases) return Status::bad;
  std::vector<PackAudit> audits;
  for (std::size_t i = 0; i < packs.size(); ++i) {
    auto const& its_cases = (*cases)[i];
    Headway headway(session.err, session.look, "assessing cases", its_cases.size());
    audits.push_back({locations[i], packs[i],
                      audit(Tables(packs[i]), its_cases, [&](auto done) { headway.reach(done); })});
    headway.hide();
    if (audits.back().audit.cases == 0) return nothing_closed(session);
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

CommandUse use_audit() {
  auto const options = std::make_shared<AuditOptions>();
  CommandUse out{{{"--pack",
                   &options->packs,
                   "A pack: its folder, or its entry file (the shipped pack otherwise); again for "
                   "each further version",
                   {.shown = "PACK", .is_path = true, .one_at_a_time = true}},
                  {"--json", &options->json, "For programs: docs/audit.schema.json"},
                  {"--html",
                   &options->html,
                   "Write a page with plots as well",
                   {.shown = "FILE", .is_path = true, .refusal = unnamed_file}},
                  {"--worst",
                   &options->worst,
                   "How many misses to show",
                   {.shown = "N", .range = std::pair{0, 100000}}},
                  {"--by-month", &options->by_month,
                   "Of the book's calls, a line a month: whether it gets better"}},
                 [options](Session const& session) { return audit_cases(*options, session); },
                 {{"flinch audit closed", "How often the shipped pack was right"},
                  {"flinch audit closed --pack present --pack changed --html audit.html",
                   "Two versions side by side, as a page"}}};
  return with_case_options(std::move(out), options->cases);
}

}  // namespace

Command const audit_command{
    "audit", "How often a pack was right, by closed cases: urgency, causes, probabilities",
    use_audit};

}  // namespace flinch::cli
