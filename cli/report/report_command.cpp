// `flinch report CASE -o page.html`
#include "report/report_command.hpp"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "look/reader_name.hpp"
#include "options.hpp"
#include "report/report_page.hpp"

namespace flinch::cli {
namespace {

struct ReportOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string file;               ///< the case; `-` is standard input
  std::string output;             ///< the page
  std::string reader = "clinic";  ///< or "keeper"
  std::string paper = "a4";       ///< or "letter"
  bool all = false;               ///< more than fits on one sheet, for the clinic on two
};

Status report(ReportOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.patient);
  Reviewed const reviewed{tables, assessor, opened->one.patient, result};
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

CommandUse use_report() {
  auto const options = std::make_shared<ReportOptions>();
  return {
      {{"case", &options->file, case_help, {.shown = "CASE", .is_path = true, .is_required = true}},
       {"-o,--output",
        &options->output,
        "The HTML page to write; - is standard output",
        {.shown = "FILE", .is_path = true, .is_required = true, .refusal = unnamed_file}},
       {"--for",
        &options->reader,
        "keeper (plain words) or clinic (everything)",
        {.shown = "READER", .choices = {"keeper", "clinic"}}},
       {"--all", &options->all, "All there is, however many sheets it takes"},
       {"--paper",
        &options->paper,
        "a4 or letter",
        {.shown = "PAPER", .choices = {"a4", "letter"}}},
       practice_option(options->practice),
       pack_option(options->pack)},
      [options](Session const& session) { return report(*options, session); },
      {{"flinch report bramble.yaml -o page.html", "One sheet for the clinic"},
       {"flinch report bramble.yaml -o keeper.html --for keeper", "One sheet in plain words"}}};
}

}  // namespace

Command const report_command{"report", "A page to hand over: to the keeper, or to the clinic",
                             use_report};

}  // namespace flinch::cli
