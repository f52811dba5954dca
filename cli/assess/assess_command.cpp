// `flinch assess CASE...`
#include "assess/assess_command.hpp"

#include <memory>
#include <ostream>

#include "assess/assess_json.hpp"
#include "assess/assess_text.hpp"
#include "files/case_source.hpp"
#include "files/pack_source.hpp"
#include "files/practice_source.hpp"
#include "look/json_text.hpp"
#include "look/named_command.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct AssessOptions {
  std::string pack;                ///< folder or file; empty: the shipped pack
  std::string practice;            ///< its file; empty: the user's own, if there is one
  std::vector<std::string> cases;  ///< YAML files; `-` is standard input
  bool json = false;
  bool numbers = false;
  std::size_t causes = 5;  ///< how many causes the text shows
};

Status assess(AssessOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  // All cases are read before the first is answered: a bad one spoils no half-written output.
  auto const& pack = opened->pack;
  std::vector<CaseOfFile> cases;
  bool all_read = true;
  for (auto const& path : options.cases) {
    auto patient = open_case(path, opened->sources, *pack, session.err);
    if (patient)
      cases.push_back(std::move(*patient));
    else
      all_read = false;
  }
  if (!all_read) return Status::bad;

  Tables const tables(pack);
  Assessor assessor(tables);
  TextOptions text{options.numbers ? Numbers::shown : Numbers::hidden, options.causes};
  auto all = nlohmann::ordered_json::array();
  bool is_first = true;
  for (auto const& one : cases) {
    auto const result = assessor.assess(one.patient);
    if (options.json) {
      all.push_back(assessment_json(tables, one.patient, result));
      all.back()["file"] = one.file;
      continue;
    }
    if (!is_first) session.out << '\n';
    is_first = false;
    text.care_command =
        one.path.empty() ? "" : named_command("care", {one.path}, {options.pack, options.practice});
    text.setting = *setting;
    session.out << assessment_text(tables, one.patient, result, text, session.look);
  }
  if (options.json) session.out << json_text(all);
  return Status::fine;
}

CommandUse use_assess() {
  auto const options = std::make_shared<AssessOptions>();
  return {{{"case",
            &options->cases,
            "Case files in YAML; - is standard input",
            {.shown = "CASE", .is_path = true, .is_required = true}},
           practice_option(options->practice),
           pack_option(options->pack),
           {"--json", &options->json, "For programs: docs/assessment.schema.json"},
           {"--numbers", &options->numbers, "Probabilities, thresholds and decibans as well"},
           {"--causes",
            &options->causes,
            "How many causes to show",
            {.shown = "N", .range = std::pair{1, 1000}}}},
          [options](Session const& session) { return assess(*options, session); },
          {{"flinch assess bramble.yaml", "How soon, where, and what it may be"},
           {"flinch assess bramble.yaml --numbers --causes 3",
            "With probabilities, thresholds and decibans"}}};
}

}  // namespace

Command const assess_command{"assess", "Assess cases: how soon, where, what it may be, what next",
                             use_assess};

}  // namespace flinch::cli
