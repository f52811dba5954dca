// `flinch care CASE`
#include <ostream>

#include "care_json.hpp"
#include "care_text.hpp"
#include "case_source.hpp"
#include "commands.hpp"
#include "json_text.hpp"
#include "pack_source.hpp"

namespace flinch::cli {

Status care(CareOptions const& options, Session const& session) {
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  auto const& pack = *opened.outcome.value;
  auto const one = open_case(options.file, opened.sources, *pack, session);
  if (!one) return Status::bad;
  auto const audience = options.audience == "clinician" ? Audience::clinician
                        : options.audience == "nurse"   ? Audience::nurse
                                                        : Audience::keeper;
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(one->dog);
  auto const plan = plan_care(tables, result, audience);
  if (options.json) {
    auto json = care_json(tables, one->dog, result, plan);
    json["file"] = one->file;
    session.out << json_text(json);
  } else {
    session.out << care_text(tables, one->dog, result, plan, session.look);
  }
  return Status::fine;
}

}  // namespace flinch::cli
