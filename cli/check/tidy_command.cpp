// `flinch tidy`: rule files in their one layout.
#include "check/tidy_command.hpp"

#include "flinch/syntax/tidy.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>
#include <ostream>

#include "files/read_bytes.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct TidyOptions {
  std::vector<std::string> files;  ///< rule files; `-` or none: standard input to standard output
  bool only_check = false;         ///< name what is not tidy, write nothing
};

struct TidyText {
  std::string before;
  std::string after;
};

void refuse(std::string const& name, std::string const& why, std::ostream& err) {
  err << fmt::format("{}: error: {}\n", inert(name), why);
}

// Nothing when the text has errors, which go to `err`.
std::optional<TidyText> tidied(std::string const& name, std::string bytes, std::ostream& err) {
  SourceSet sources;
  Report report;
  auto const file = sources.add(name, std::move(bytes));
  auto after = syntax::tidy(sources, file, {}, report);
  err << render(report.take(), sources);
  if (!after) return std::nullopt;
  std::string before(sources[file].text());
  if (!syntax::says_the_same(before, *after)) {
    refuse(name,
           "its tidy text would not mean the same: this is a fault of flinch, please report it",
           err);
    return std::nullopt;
  }
  return TidyText{std::move(before), std::move(*after)};
}

Status tidy_stdin(bool only_check, Session const& session) {
  auto const text = tidied("standard input", read_all(std::cin), session.err);
  if (!text) return Status::bad;
  if (!only_check) {
    session.out << text->after << std::flush;
    return session.out ? Status::fine : Status::bad;
  }
  if (text->before == text->after) return Status::fine;
  session.out << "standard input\n";
  return Status::no;
}

// Where a chain of symbolic links ends: the links stay links.
std::string end_of_links(std::string const& path) {
  std::error_code trouble;
  auto const end = std::filesystem::canonical(path, trouble);
  return trouble ? path : end.string();
}

Status tidy_file(std::string const& path, bool only_check, Session const& session) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) {
    refuse(path, "this is a folder: name the files in it", session.err);
    return Status::bad;
  }
  auto bytes = read_file(path);
  if (!bytes) {
    refuse(path, why_unreadable(path).value_or("it may not be read"), session.err);
    return Status::bad;
  }
  auto const text = tidied(path, std::move(*bytes), session.err);
  if (!text) return Status::bad;
  if (text->before == text->after) return Status::fine;
  if (only_check) {
    session.out << inert(path) << '\n';
    return Status::no;
  }
  auto const place = end_of_links(path);
  // Renaming asks the folder alone; whoever took away the right to write meant it.
  if (::access(place.c_str(), W_OK) != 0) {
    refuse(path, "this file may not be written: it stays as it was", session.err);
    return Status::bad;
  }
  if (auto const why = replace_file(place, text->after, ForceFolder::now, Access::as_before)) {
    refuse(path, fmt::format("cannot write this file, it stays as it was: {}", *why), session.err);
    return Status::bad;
  }
  session.out << "tidied " << inert(path) << '\n';
  return Status::fine;
}

Status tidy(TidyOptions const& options, Session const& session) {
  bool const from_stdin =
      std::find(options.files.begin(), options.files.end(), "-") != options.files.end();
  if (options.files.empty() || (from_stdin && options.files.size() == 1))
    return tidy_stdin(options.only_check, session);
  if (from_stdin) {
    session.err << "flinch: - stands for standard input and goes alone, not beside files\n";
    return Status::bad;
  }
  auto worst = Status::fine;
  for (auto const& path : options.files)
    worst = std::max(worst, tidy_file(path, options.only_check, session));
  return worst;
}

CommandUse use_tidy() {
  auto const options = std::make_shared<TidyOptions>();
  return {{{"files",
            &options->files,
            "Rule files (.flinch), each replaced by its tidy text; - or none: from standard "
            "input to standard output",
            {.shown = "FILE", .is_path = true}},
           {"--check", &options->only_check, "Name the files that are not tidy, write nothing"}},
          [options](Session const& session) { return tidy(*options, session); },
          {{"flinch tidy --check changed/pack.flinch", "Say whether it is tidy"},
           {"flinch tidy changed/pack.flinch", "Make it so"}}};
}

}  // namespace

Command const tidy_command{
    "tidy", "Bring rule files into the one layout; what they mean stays the same", use_tidy};

}  // namespace flinch::cli
