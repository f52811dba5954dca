// `flinch take BUNDLE`
#include "exchange/take_command.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <iostream>
#include <memory>
#include <ostream>

#include "exchange/read_response.hpp"
#include "exchange/without_texts.hpp"
#include "files/pack_source.hpp"
#include "files/read_bytes.hpp"
#include "files/replace_file.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/casefile/write_case.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct TakeOptions {
  std::string pack;
  std::string file;  ///< JSON; `-` is standard input
  std::string save;  ///< the case file to write; empty: standard output
};

// Both answers are kept, and the one who takes them over is told.
void tell_clashes(std::shared_ptr<Pack const> const& pack, Case const& patient, std::ostream& err) {
  Tables const tables(pack);
  Assessor assessor(tables);
  for (auto const& clash : assessor.judge(patient).contradictions)
    err << fmt::format("flinch: warning: {} The more dangerous answer counts.\n",
                       inert(contradiction_text(*pack, clash)));
}

bool save(std::string const& path, std::string const& text, std::ostream& err) {
  auto why = why_no_file(path);
  std::error_code trouble;
  if (!why && std::filesystem::exists(path, trouble))
    why = "there is a file of this name already; choose another, or remove it";
  if (!why) why = replace_file(path, text);
  if (why) err << fmt::format("{}: error: {}\n", inert(path), *why);
  return !why;
}

Status take(TakeOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = opened->pack;
  bool const is_input = options.file == "-";
  auto bytes = is_input ? std::optional(read_all(std::cin)) : read_file(options.file);
  if (!bytes) {
    session.err << fmt::format("{}: error: cannot read this file: {}\n", inert(options.file),
                               why_unreadable(options.file).value_or("it may not be read"));
    return Status::bad;
  }
  SourceSet sources;
  auto const file = sources.add(is_input ? "standard input" : options.file, std::move(*bytes));
  auto const read = read_response(sources, file, *pack);
  SourceSet shown;
  shown.add(std::string(sources[file].name()),
            without_texts(std::string(sources[file].text()), read.diagnostics));
  session.err << render(read.diagnostics, shown);
  if (!read) return Status::bad;
  tell_clashes(pack, *read.value, session.err);
  auto const text = write_case(*read.value, *pack);
  if (options.save.empty()) {
    session.out << text;
    return Status::fine;
  }
  return save(options.save, text, session.err) ? Status::fine : Status::bad;
}

CommandUse use_take() {
  auto const options = std::make_shared<TakeOptions>();
  return {{{"bundle",
            &options->file,
            "A QuestionnaireResponse, alone or in a Bundle; - is standard input",
            {.shown = "BUNDLE", .is_path = true, .is_required = true}},
           {"--save",
            &options->save,
            "The case file to write: one that is not there yet (standard output otherwise)",
            {.shown = "FILE", .is_path = true, .refusal = unnamed_file}},
           pack_option(options->pack)},
          [options](Session const& session) { return take(*options, session); },
          {{"flinch take response.json", "The case that another program's form tells of"}},
          "It answers the form that `flinch signs --questionnaire` writes (docs/exchange.md)."};
}

}  // namespace

Command const take_command{"take", "A case file out of what another program sends in HL7 FHIR",
                           use_take};

}  // namespace flinch::cli
