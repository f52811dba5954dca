// `flinch share CASE`
#include "exchange/share_command.hpp"

#include <memory>
#include <ostream>

#include "exchange/identity.hpp"
#include "exchange/resources.hpp"
#include "files/case_source.hpp"
#include "files/clock.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ShareOptions {
  std::string pack;
  std::string file;  ///< a case in YAML; `-` is standard input
  std::string key;   ///< the file with the key of the identifiers; empty: the user's own
  bool with_names = false;
};

Status share(ShareOptions const& options, Session const& session) {
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  auto const identity = open_identity(options.key, session.err);
  if (!identity) return Status::bad;
  auto const& pack = *opened->pack;
  auto const& patient = opened->one.patient;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(patient);
  auto const told = tell(tables, result, Reader::keeper);
  auto const piece = [&](char const* kind) { return identity->piece(kind, patient, pack); };
  PieceIds const ids{identity->patient(patient, pack),
                     piece("QuestionnaireResponse"),
                     piece("RiskAssessment"),
                     piece("ServiceRequest"),
                     piece("CarePlan"),
                     identity->program(),
                     piece("Provenance"),
                     piece("Bundle")};
  session.out << fhir_text(bundle({tables, patient, result, told, ids, now_or_fixed(),
                                   options.with_names ? Names::sent : Names::withheld}));
  return Status::fine;
}

CommandUse use_share() {
  auto const options = std::make_shared<ShareOptions>();
  return {
      {{"case", &options->file, case_help, {.shown = "CASE", .is_path = true, .is_required = true}},
       {"--with-names", &options->with_names,
        "Send its name, who rang, the number and the note too: without it nothing says who it is"},
       {"--key",
        &options->key,
        "The file with the secret that identifiers are made with; written when it is not there "
        "(the user's own otherwise)",
        {.shown = "FILE", .is_path = true, .refusal = unnamed_file}},
       pack_option(options->pack)},
      [options](Session const& session) { return share(*options, session); },
      {{"flinch share bramble.yaml", "The case and what comes out of it, without names"},
       {"flinch share bramble.yaml --with-names", "With the patient's name and the note"}},
      "A Bundle of HL7 FHIR R4, on standard output: docs/exchange.md says what is in it."};
}

}  // namespace

Command const share_command{"share", "A case for other programs, in the open standard HL7 FHIR",
                            use_share};

}  // namespace flinch::cli
