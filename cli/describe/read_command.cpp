// `flinch read`: sheets on which a vet reads a pack, and the record of what was read.
#include "describe/read_command.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <ostream>

#include "describe/reading_sheets.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/replace_file.hpp"
#include "flinch/syntax/reading.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ReadOptions {
  std::vector<std::string> names;   ///< of statements: `bloat`, or `alarm bloat`
  std::string sheet;                ///< all of a sheet
  std::string mark;                 ///< of the sheet, as it was printed
  std::vector<std::string> except;  ///< of the sheet, these were not signed
  std::string by;
  std::string on;      ///< today when empty
  std::string sheets;  ///< the folder for the sheets, which is the other job
  std::string pack;
};

std::string called(PackStatement const& statement) {
  return fmt::format("{} {}", keyword(statement.kind), statement.name);
}

class Recorder {
 public:
  Recorder(ReadOptions const& options, SoundPack const& opened, Session const& session)
      : options_(options),
        session_(session),
        sources_(opened.sources),
        tables_(opened.pack),
        written_(opened.sources) {}

  Status write_all_sheets() {
    auto const sheets = reading_sheets(tables_, written_);
    auto const done = write_sheets(tables_, sheets, options_.sheets, options_.pack);
    if (!done.failure.empty()) {
      session_.err << fmt::format("{}: error: {}\n", inert(done.place), done.failure);
      return Status::bad;
    }
    session_.out << fmt::format("written: {} sheets; start at {}\n", done.sheets,
                                inert(options_.sheets + "/index.html"));
    return Status::fine;
  }

  Status record() {
    if (auto const wrong = what_is_wrong(); !wrong.empty()) return refuse(wrong);
    std::vector<PackStatement> chosen;
    auto const all = statements_by_weight(tables_);
    if (!options_.sheet.empty() && !choose_sheet(chosen)) return Status::bad;
    for (auto const& name : options_.names)
      if (!choose(name, all, chosen)) return Status::bad;
    if (chosen.empty()) return refuse("nothing is left of it to record");
    return write(chosen);
  }

 private:
  Status refuse(std::string const& why) {
    session_.err << fmt::format("flinch: error: {}\n", why);
    return Status::bad;
  }

  [[nodiscard]] std::string what_is_wrong() const {
    if (options_.pack.empty())
      return "the pack inside the program cannot be marked: name yours with --pack FOLDER";
    if (options_.names.empty() && options_.sheet.empty())
      return "name what was read: statements, or a sheet with --sheet NAME";
    if (options_.by.empty() || !syntax::is_reader(options_.by))
      return "say who read it with --by \"NAME, LICENCE\": behind the comma stands the licence";
    if (find_invalid_utf8(options_.by) != std::string::npos || inert(options_.by) != options_.by)
      return "a reader's name is one line of plain text in UTF-8";
    if (!options_.on.empty() && !syntax::is_date(options_.on))
      return fmt::format("`{}` is no day of the calendar: --on takes a date such as 2026-12-01",
                         inert(options_.on));
    if (options_.on > today())
      return fmt::format("{} has not come yet: today is {}", options_.on, today());
    if (options_.sheet.empty() && (!options_.mark.empty() || !options_.except.empty()))
      return "--mark and --except go with --sheet NAME";
    if (!options_.sheet.empty() && options_.mark.empty())
      return "give the mark that is printed at the head of the sheet: --mark MARK";
    return "";
  }

  static std::string today() { return clock_text(now_or_fixed()).substr(0, 10); }

  bool choose_sheet(std::vector<PackStatement>& out) {
    auto const sheets = reading_sheets(tables_, written_);
    auto const sheet = std::find_if(sheets.begin(), sheets.end(), [&](ReadingSheet const& one) {
      return one.name == options_.sheet;
    });
    if (sheet == sheets.end()) {
      std::vector<std::string_view> names;
      for (auto const& one : sheets) names.emplace_back(one.name);
      (void)refuse(fmt::format("no sheet is called `{}`", inert(options_.sheet)));
      if (auto const near = nearest(options_.sheet, names))
        session_.err << fmt::format("  note: did you mean `{}`?\n", *near);
      return false;
    }
    if (sheet->mark != options_.mark) {
      (void)refuse(fmt::format("sheet `{}` has changed since it was printed: its mark is {} now",
                               sheet->name, sheet->mark));
      session_.err
          << "  note: print it anew with --sheets FOLDER, or name the statements that were "
             "read and are as they were\n";
      return false;
    }
    std::vector<PackStatement> left_out;
    for (auto const& name : options_.except)
      if (!choose(name, sheet->items, left_out)) return false;
    for (auto const& item : sheet->items) {
      bool const is_out = std::any_of(left_out.begin(), left_out.end(), [&](auto const& one) {
        return one.kind == item.kind && one.index == item.index;
      });
      if (!is_out) out.push_back(item);
    }
    return true;
  }

  // `bloat` where only one statement is called so, `alarm bloat` always.
  bool choose(std::string const& name, std::vector<PackStatement> const& among,
              std::vector<PackStatement>& out) {
    std::vector<PackStatement> found;
    for (auto const& statement : among)
      if (statement.name == name || called(statement) == name) found.push_back(statement);
    if (found.size() == 1) {
      out.push_back(found.front());
      return true;
    }
    if (found.empty()) {
      (void)refuse(fmt::format("no statement here is called `{}`", inert(name)));
      std::vector<std::string> with_kinds;
      for (auto const& statement : among) with_kinds.push_back(called(statement));
      std::vector<std::string_view> names(with_kinds.begin(), with_kinds.end());
      for (auto const& statement : among) names.emplace_back(statement.name);
      if (auto const near = nearest(name, names))
        session_.err << fmt::format("  note: did you mean `{}`?\n", *near);
      else if (auto const others = other_names(name.substr(name.rfind(' ') + 1),
                                               {with_kinds.begin(), with_kinds.end()}))
        session_.err << fmt::format("  note: {}\n", *others);
      return false;
    }
    std::string which;
    for (auto const& statement : found)
      which += fmt::format("{}\"{}\"", which.empty() ? "" : ", ", called(statement));
    (void)refuse(fmt::format("more than one statement is called `{}`: {}", inert(name), which));
    return false;
  }

  Status write(std::vector<PackStatement> const& chosen) {
    auto const on = options_.on.empty() ? today() : options_.on;
    std::map<FileId, std::vector<std::size_t>> by_file;
    for (auto const& statement : chosen) {
      auto const at = written_.where(statement.at);
      auto& list = by_file[at.file];
      if (std::find(list.begin(), list.end(), at.statement) == list.end())
        list.push_back(at.statement);
    }
    std::size_t recorded = 0;
    for (auto const& [file, statements] : by_file) {
      std::string const path(sources_[file].name());
      auto const text = syntax::with_readings(sources_[file].text(), written_.file(file),
                                              statements, options_.by, on);
      std::error_code trouble;
      auto const end_of_links = std::filesystem::canonical(path, trouble);
      auto const place = trouble ? path : end_of_links.string();
      // Renaming asks the folder alone; whoever took away the right to write meant it.
      auto why = ::access(place.c_str(), W_OK) != 0
                     ? std::optional<std::string>("it may not be written")
                     : replace_file(place, text, ForceFolder::now, Access::as_before);
      if (why) {
        session_.err << fmt::format("{}: error: cannot mark this file, it stays as it was: {}\n",
                                    inert(path), *why);
        if (recorded > 0)
          session_.err << fmt::format("  note: recorded in other files already: {}\n", recorded);
        return Status::bad;
      }
      recorded += statements.size();
      session_.out << fmt::format("{}: {} marked as read\n", inert(path), statements.size());
    }
    return Status::fine;
  }

  ReadOptions const& options_;
  Session const& session_;
  SourceSet const& sources_;
  Tables tables_;
  WrittenStatements written_;
};

Status read(ReadOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  Recorder recorder(options, *opened, session);
  bool const records = !options.names.empty() || !options.sheet.empty() || !options.by.empty() ||
                       !options.mark.empty() || !options.except.empty() || !options.on.empty();
  if (!options.sheets.empty() && records) {
    session.err << "flinch: --sheets FOLDER writes sheets to read and goes without names, --sheet, "
                   "--mark, --except, --by and --on\n";
    return Status::bad;
  }
  return options.sheets.empty() ? recorder.record() : recorder.write_all_sheets();
}

CommandUse use_read() {
  auto const options = std::make_shared<ReadOptions>();
  return {
      {{"names",
        &options->names,
        "What was read: a statement's name, or its kind and name (\"alarm bloat\")",
        {.shown = "NAME",
         .names = {NamedKind::alarm, NamedKind::sign, NamedKind::rule, NamedKind::cause,
                   NamedKind::source, NamedKind::family, NamedKind::care}}},
       {"--sheet", &options->sheet, "All that stands on this sheet", {.shown = "SHEET"}},
       {"--mark",
        &options->mark,
        "The mark at the head of the sheet: what was printed is what is recorded",
        {.shown = "MARK"}},
       {"--except",
        &options->except,
        "Of the sheet, what was not signed",
        {.shown = "NAME", .one_at_a_time = true}},
       {"--by", &options->by, "Who read it: name, comma, licence", {.shown = "\"NAME, LICENCE\""}},
       {"--on", &options->on, "When, such as 2026-12-01 (today otherwise)", {.shown = "DATE"}},
       {"--sheets",
        &options->sheets,
        "Write sheets of what is still to be read, one evening each, to print",
        {.shown = "FOLDER", .is_path = true, .refusal = unnamed_file}},
       pack_option(options->pack)},
      [options](Session const& session) { return read(*options, session); },
      {{"flinch read --sheets sheets --pack present", "Print what no licensed vet has read"},
       {"flinch read \"alarm bloat\" --by \"A. Smith, MRCVS 123\" --on 2024-11-02 --pack present",
        "Record that an alarm was read as it stands now"}}};
}

}  // namespace

Command const read_command{
    "read", "Record which statements of a pack a licensed vet has read; sheets to read from",
    use_read};

}  // namespace flinch::cli
