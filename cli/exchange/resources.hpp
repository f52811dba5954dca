#pragma once
// The resources of a shared case, one function and one file each.
#include <ctime>
#include <string>

#include "exchange/response.hpp"
#include "exchange/terms.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/telling/telling.hpp"

namespace flinch::cli {

/// The identifiers of the pieces, UUIDs.
struct PieceIds {
  std::string patient, response, causes, urgency, care, program, provenance, bundle;
};

/// What is sent of one case.
struct Shared {
  Tables const& tables;
  Case const& patient;
  Assessment const& result;
  Telling const& told;  ///< for the keeper
  PieceIds const& ids;
  std::time_t now = 0;
  Names names = Names::withheld;
  [[nodiscard]] Pack const& pack() const { return tables.pack(); }
};

/// "2026-11-25T15:40:00Z".
[[nodiscard]] std::string instant(std::time_t time);
/// A reference to a piece of the same Bundle.
[[nodiscard]] Json reference(std::string const& id);
/// A resource's first members.
[[nodiscard]] Json resource(char const* type, std::string const& id);
/// Adds a note, unless the text is empty.
void add_note(Json& notes, std::string const& text);

/// Species, breed, sex and whether it is neutered, of what was answered; with names, its name, who
/// rang and the number too.
[[nodiscard]] Json patient(Shared const& shared);
[[nodiscard]] Json questionnaire_response(Shared const& shared);
/// The causes of at least 1 % with their probabilities, and none of the listed ones.
[[nodiscard]] Json risk_assessment(Shared const& shared);
/// The tier, with the standard's priority. Only where there is a tier.
[[nodiscard]] Json service_request(Shared const& shared);
/// Only measures that are offered to the keeper; what not to do stands in notes.
[[nodiscard]] Json care_plan(Shared const& shared);
[[nodiscard]] Json device(Shared const& shared);
/// Which program and pack made the rest; `targets` are the ids of it.
[[nodiscard]] Json provenance(Shared const& shared, std::vector<std::string> const& targets);

/// All of it, a Bundle of type `collection`.
[[nodiscard]] Json bundle(Shared const& shared);

}  // namespace flinch::cli
