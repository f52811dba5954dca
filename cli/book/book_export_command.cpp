// `flinch book export`: calls as lines of cases, or as a table.
#include <fmt/format.h>

#include <ostream>
#include <sstream>

#include "book/book_parts.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ExportOptions {
  std::string book;
  std::string pack;
  std::string output;
  std::string since;
  std::string until;
  bool csv = false;
  bool closed = false;
  bool with_names = false;
};

std::string table_head(WithNames with_names) {
  return std::string("call,patient,begun,saved,closed,tier,complaint,pain,weight,outcome") +
         (with_names == WithNames::yes ? ",name,caller,call back,note" : "") + "\r\n";
}

// RFC 4180: lines end in CR LF.
std::string table_line(CallLine const& call, WithNames with_names, Pack const& pack,
                       CallReader& reader) {
  auto const words = words_of_call(call, pack, reader);
  auto out = fmt::format("{},{},{},{},{},{},{},{},{},{}", number(call.call), number(call.patient),
                         clock_text(call.begun), clock_text(call.saved),
                         call.closed ? clock_text(*call.closed) : "", table_cell(words.tier),
                         table_cell(words.complaint), table_cell(words.pain),
                         table_cell(words.weight), table_cell(words.outcome));
  if (with_names == WithNames::yes) {
    Case patient;
    add_words(call, patient);
    for (auto const* text : {&patient.name, &patient.caller, &patient.call_back, &patient.note})
      out += ',' + table_cell(*text);
  }
  return out + "\r\n";
}

void write_calls(Book& book, ExportOptions const& options, Pack const& pack, std::ostream& out) {
  auto const with_names = options.with_names ? WithNames::yes : WithNames::no;
  CallReader reader(pack);
  if (options.csv) out << table_head(with_names);
  book.each_call({options.closed ? Calls::Which::closed : Calls::Which::all, day_of(options.since),
                  day_of(options.until)},
                 [&](CallLine const& call) {
                   out << (options.csv ? table_line(call, with_names, pack, reader)
                                       : case_line(call, with_names) + '\n');
                 });
}

Status export_calls(ExportOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = *opened->pack;
  return with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    if (options.output.empty()) {
      write_calls(book, options, pack, session.out);
      return Status::fine;
    }
    std::ostringstream whole;
    write_calls(book, options, pack, whole);
    auto const trouble = replace_file(options.output, whole.str());
    if (!trouble) return Status::fine;
    session.err << fmt::format("{}: error: cannot write this file: {}\n", inert(options.output),
                               *trouble);
    return Status::bad;
  });
}

CommandUse use_export() {
  auto const options = std::make_shared<ExportOptions>();
  return {
      {{"--csv", &options->csv, "A table for a spreadsheet; otherwise lines for flinch batch"},
       {"--closed", &options->closed, "Only calls with an outcome"},
       {"--since",
        &options->since,
        "Begun on this day or later",
        {.shown = "DAY", .refusal = no_day}},
       {"--until", &options->until, "Begun before this day", {.shown = "DAY", .refusal = no_day}},
       {"--with-names", &options->with_names, with_names_help},
       {"-o,--output",
        &options->output,
        "Write to this file (standard output otherwise)",
        {.shown = "FILE", .is_path = true, .refusal = unnamed_file}},
       book_option(options->book),
       pack_option(options->pack)},
      [options](Session const& session) { return export_calls(*options, session); },
      {},
      "Without --with-names patients and calls are called by their numbers in the book."};
}

}  // namespace

Command const export_part{"export", "Calls as JSON lines, or as a table", use_export};

}  // namespace flinch::cli
