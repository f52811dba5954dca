// `flinch report CASE -o page.html`
#include <fmt/format.h>

#include <ostream>

#include "case_source.hpp"
#include "commands.hpp"
#include "flinch/text/display.hpp"
#include "replace_file.hpp"
#include "report_page.hpp"

namespace flinch::cli {

Status report(ReportOptions const& options, Session const& session) {
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.dog);
  Reviewed const reviewed{tables, assessor, opened->one.dog, result};
  auto const page =
      report_page(reviewed, options.reader == "keeper" ? Reader::keeper : Reader::clinic,
                  options.paper == "letter" ? Paper::letter : Paper::a4);
  if (options.output == "-") {
    session.out << page;
    return Status::fine;
  }
  if (auto const failure = replace_file(options.output, page, ForceFolder::now, Access::as_usual)) {
    session.err << fmt::format("{}: error: cannot write this page: {}\n", inert(options.output),
                               *failure);
    return Status::bad;
  }
  session.out << fmt::format("written: {}\n", inert(options.output));
  return Status::fine;
}

}  // namespace flinch::cli
