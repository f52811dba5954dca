// `flinch care CASE`
#include <ostream>

#include "care/care_json.hpp"
#include "care/care_text.hpp"
#include "commands.hpp"
#include "files/case_source.hpp"
#include "look/json_text.hpp"

namespace flinch::cli {

Status care(CareOptions const& options, Session const& session) {
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  auto const audience = options.audience == "clinician" ? CareReader::clinician
                        : options.audience == "nurse"   ? CareReader::nurse
                                                        : CareReader::keeper;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.dog);
  auto const plan = plan_care(tables, result, audience);
  if (options.json) {
    auto json = care_json(tables, opened->one.dog, result, plan);
    json["file"] = opened->one.file;
    session.out << json_text(json);
  } else {
    session.out << care_text(tables, opened->one.dog, opened->one.file, result, plan, session.look);
  }
  return Status::fine;
}

}  // namespace flinch::cli
