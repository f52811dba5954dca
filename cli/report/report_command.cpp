// `flinch report CASE -o page.html`
#include <fmt/format.h>

#include <ostream>

#include "commands.hpp"
#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "look/reader_name.hpp"
#include "report/report_page.hpp"

namespace flinch::cli {

Status report(ReportOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.dog);
  Reviewed const reviewed{tables, assessor, opened->one.dog, result};
  auto const page = report_page(reviewed, reader_named(options.reader),
                                options.paper == "letter" ? Paper::letter : Paper::a4, *setting,
                                options.all ? Extent::all : Extent::in_short);
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
