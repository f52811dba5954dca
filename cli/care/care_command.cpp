// `flinch care CASE`
#include "care/care_command.hpp"

#include <memory>
#include <ostream>

#include "care/care_json.hpp"
#include "care/care_text.hpp"
#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "look/json_text.hpp"
#include "look/named_command.hpp"
#include "look/reader_name.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct CareOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string file;               ///< a case in YAML; `-` is standard input
  std::string reader = "keeper";  ///< keeper, nurse or clinician
  bool json = false;
};

Status care(CareOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.patient);
  auto const told = tell(tables, result, reader_named(options.reader), *setting);
  if (options.json) {
    auto json = care_json(tables, opened->one.patient, result, told);
    json["file"] = opened->one.file;
    session.out << json_text(json);
  } else {
    auto const& path = opened->one.path;
    auto const assess_command =
        path.empty() ? "" : named_command("assess", {path}, {options.pack, options.practice});
    session.out << care_text(tables, opened->one.patient, assess_command, result, told,
                             session.look);
  }
  return Status::fine;
}

CommandUse use_care() {
  auto const options = std::make_shared<CareOptions>();
  return {
      {{"case", &options->file, case_help, {.shown = "CASE", .is_path = true, .is_required = true}},
       {"--for",
        &options->reader,
        "Who reads it: keeper, nurse, clinician",
        {.shown = "WHO", .choices = {"keeper", "nurse", "clinician"}}},
       practice_option(options->practice),
       pack_option(options->pack),
       {"--json", &options->json, "For programs: docs/care.schema.json"}},
      [options](Session const& session) { return care(*options, session); },
      {{"flinch care bramble.yaml", "In plain words, for the keeper"},
       {"flinch care bramble.yaml --for clinician", "With the doses that a clinician may weigh"}}};
}

}  // namespace

Command const care_command{
    "care", "Until the patient is seen: what to do, what not, doses, what to watch for", use_care};

}  // namespace flinch::cli
