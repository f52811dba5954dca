// `flinch report CASE -o page.html`
#include "report/report_command.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/call_case.hpp"
#include "book/course.hpp"
#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/text/display.hpp"
#include "look/reader_name.hpp"
#include "options.hpp"
#include "report/report_page.hpp"

namespace flinch::cli {
namespace {

struct ReportOptions {
  std::string pack;
  std::string practice;              ///< its file; empty: the user's own, if there is one
  std::string file;                  ///< the case; `-` is standard input
  std::string output;                ///< the page
  std::string reader = "clinician";  ///< or "keeper"
  std::string paper = "a4";          ///< or "letter"
  std::string call;                  ///< of the book, in the place of a file
  std::string book;
  bool all = false;  ///< more than fits on one sheet, for the clinic on two
};

struct Reported {
  std::shared_ptr<Pack const> pack;
  Case patient;
  std::vector<Visit> visits;  ///< of the book: this one the last
};

// A call of the book, with the visits before it.
std::optional<Reported> reported_call(ReportOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return std::nullopt;
  Reported out{opened->pack, {}, {}};
  auto const status = with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    auto const call = call_numbered(book, options.call, session);
    if (!call) return Status::bad;
    auto visits = book.visits(call->patient);
    std::erase_if(visits, [&](CallLine const& one) {
      return one.begun > call->begun || (one.begun == call->begun && call->call < one.call);
    });
    out.visits = read_visits(visits, *out.pack);
    if (out.visits.empty() || out.visits.back().call != call->call) {
      session.err << unreadable_call(*call);
      return Status::bad;
    }
    out.patient = out.visits.back().patient;
    add_words(*call, out.patient);
    return Status::fine;
  });
  return status == Status::fine ? std::optional(std::move(out)) : std::nullopt;
}

std::optional<Reported> reported_file(ReportOptions const& options, Session const& session) {
  auto opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return std::nullopt;
  return Reported{std::move(opened->pack), std::move(opened->one.patient), {}};
}

Status report(ReportOptions const& options, Session const& session) {
  if (options.file.empty() == options.call.empty()) {
    session.err << "flinch: error: a case file or a call of the book is expected, one of them\n"
                   "  note: flinch report CASE -o page.html, or flinch report --call 17 -o "
                   "page.html\n";
    return Status::bad;
  }
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const reported =
      options.call.empty() ? reported_file(options, session) : reported_call(options, session);
  if (!reported) return Status::bad;
  Tables const tables(reported->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(reported->patient);
  Reviewed const reviewed{tables, assessor, reported->patient, result};
  OverTime over_time{reported->visits, ""};
  if (!over_time.visits.empty()) {
    auto const earlier = std::vector<Visit>(over_time.visits.begin(), over_time.visits.end() - 1);
    auto const open = open_questions(tables, result);
    auto const unasked = std::count_if(open.begin(), open.end(), [&](OpenQuestion const& one) {
      auto const& sign = (*reported->pack)[one.sign];
      return !one.could_not_tell && !sign.of_the_patient && can_see(Reader::nurse, sign.seen_by);
    });
    over_time.sentence = course_sentence(earlier, reported->patient, result.judgement.tier,
                                         static_cast<std::size_t>(unasked),
                                         over_time.visits.back().begun, *reported->pack);
  }
  auto const page = report_page(reviewed, reader_named(options.reader),
                                options.paper == "letter" ? Paper::letter : Paper::a4, *setting,
                                options.all ? Extent::all : Extent::in_short, over_time);
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
  return {{{"case", &options->file, case_help, {.shown = "CASE", .is_path = true}},
           {"--call",
            &options->call,
            "A call of the book by its number, with the visits before it",
            {.shown = "CALL"}},
           book_option(options->book),
           {"-o,--output",
            &options->output,
            "The HTML page to write; - is standard output",
            {.shown = "FILE", .is_path = true, .is_required = true, .refusal = unnamed_file}},
           {"--for",
            &options->reader,
            "keeper (plain words) or clinician (everything)",
            {.shown = "READER", .choices = {"keeper", "clinician"}}},
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
