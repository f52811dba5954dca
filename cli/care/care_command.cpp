// `flinch care CASE`
#include <ostream>

#include "care/care_json.hpp"
#include "care/care_text.hpp"
#include "commands.hpp"
#include "files/case_source.hpp"
#include "files/practice_source.hpp"
#include "look/json_text.hpp"
#include "look/named_command.hpp"
#include "look/reader_name.hpp"

namespace flinch::cli {

Status care(CareOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.dog);
  auto const told = tell(tables, result, reader_named(options.reader), *setting);
  if (options.json) {
    auto json = care_json(tables, opened->one.dog, result, told);
    json["file"] = opened->one.file;
    session.out << json_text(json);
  } else {
    auto const& path = opened->one.path;
    auto const assess_command =
        path.empty() ? "" : named_command("assess", {path}, {options.pack, options.practice});
    session.out << care_text(tables, opened->one.dog, assess_command, result, told, session.look);
  }
  return Status::fine;
}

}  // namespace flinch::cli
