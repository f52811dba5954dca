// `flinch assess CASE...`
#include <ostream>

#include "assess/assess_json.hpp"
#include "assess/assess_text.hpp"
#include "commands.hpp"
#include "files/case_source.hpp"
#include "files/pack_source.hpp"
#include "files/practice_source.hpp"
#include "look/json_text.hpp"
#include "look/named_command.hpp"

namespace flinch::cli {

Status assess(AssessOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  // All cases are read before the first is answered: a bad one spoils no half-written output.
  auto const& pack = *opened.outcome.value;
  std::vector<CaseOfFile> cases;
  bool all_read = true;
  for (auto const& path : options.cases) {
    auto dog = open_case(path, opened.sources, *pack, session.err);
    if (dog)
      cases.push_back(std::move(*dog));
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
    auto const result = assessor.assess(one.dog);
    if (options.json) {
      all.push_back(assessment_json(tables, one.dog, result));
      all.back()["file"] = one.file;
      continue;
    }
    if (!is_first) session.out << '\n';
    is_first = false;
    text.care_command =
        one.path.empty() ? "" : named_command("care", {one.path}, {options.pack, options.practice});
    text.setting = *setting;
    session.out << assessment_text(tables, one.dog, result, text, session.look);
  }
  if (options.json) session.out << json_text(all);
  return Status::fine;
}

}  // namespace flinch::cli
