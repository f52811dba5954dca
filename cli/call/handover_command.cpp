// `flinch handover`
#include "call/handover_command.hpp"

#include <memory>
#include <ostream>

#include "call/handover.hpp"
#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct HandoverOptions {
  std::string pack;
  std::string practice;  ///< its file; empty: the user's own, if there is one
  std::string file;      ///< case file
  bool markdown = false;
};

Status handover(HandoverOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  auto const note = handover_note(tables, opened->one.patient,
                                  Assessor(tables).assess(opened->one.patient), *setting);
  session.out << (options.markdown ? note_markdown(note) : note_text(note, session.look));
  return Status::fine;
}

CommandUse use_handover() {
  auto const options = std::make_shared<HandoverOptions>();
  return {
      {{"case",
        &options->file,
        "Case file in YAML",
        {.shown = "CASE", .is_path = true, .is_required = true}},
       {"--markdown", &options->markdown, "As Markdown"},
       practice_option(options->practice),
       pack_option(options->pack)},
      [options](Session const& session) { return handover(*options, session); },
      {{"flinch handover bramble.yaml --markdown", "The note for a record that takes Markdown"}}};
}

}  // namespace

Command const handover_command{"handover", "The hand-over note of a case, for the vet",
                               use_handover};

}  // namespace flinch::cli
