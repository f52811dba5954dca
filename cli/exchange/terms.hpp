#pragma once
// The words of HL7 FHIR R4 (4.0.1) that the exchange uses, and the names that a pack adds to them.
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch::cli {

using Json = nlohmann::ordered_json;

/// Addresses of the standard, https://hl7.org/fhir/R4.
namespace fhir {
inline constexpr char const* ucum = "http://unitsofmeasure.org";
inline constexpr char const* yes_no = "http://terminology.hl7.org/CodeSystem/v2-0136";
inline constexpr char const* absent = "http://terminology.hl7.org/CodeSystem/data-absent-reason";
inline constexpr char const* absent_reason =
    "http://hl7.org/fhir/StructureDefinition/data-absent-reason";
/// "The source was asked but does not know the value."
inline constexpr char const* asked_unknown = "asked-unknown";
inline constexpr char const* animal = "http://hl7.org/fhir/StructureDefinition/patient-animal";
inline constexpr char const* species = "http://hl7.org/fhir/animal-species";
inline constexpr char const* gender_status = "http://hl7.org/fhir/animal-genderstatus";
inline constexpr char const* unit_option =
    "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption";
inline constexpr char const* item_control =
    "http://hl7.org/fhir/StructureDefinition/questionnaire-itemControl";
inline constexpr char const* item_controls = "http://hl7.org/fhir/questionnaire-item-control";
inline constexpr char const* uri = "urn:ietf:rfc:3986";
inline constexpr char const* data_operation =
    "http://terminology.hl7.org/CodeSystem/v3-DataOperation";
}  // namespace fhir

/// Items of the form that are no sign. A sign's name has no point in it.
namespace link {
inline constexpr char const* patient = "case.patient";
inline constexpr char const* came_for = "case.came_for";
inline constexpr char const* signs = "case.signs";
inline constexpr char const* outcome = "case.outcome";
inline constexpr char const* outcome_cause = "case.outcome.cause";
inline constexpr char const* outcome_needed = "case.outcome.needed";
inline constexpr char const* words = "case.words";
inline constexpr std::string_view clear = ".clear";  ///< behind a sign: sites that are clear
inline constexpr std::string_view help = ".help";    ///< behind a sign: how to find out
}  // namespace link

/// A free text of a case, by its item of the form.
struct WordsItem {
  char const* link;
  char const* key;  ///< in a case file
  char const* text;
  std::string Case::*member;
};
[[nodiscard]] std::vector<WordsItem> const& words_items();

/// What a pack names, each a code system.
enum class Vocabulary : std::uint8_t { form, signs, values, sites, breeds, causes, tiers, care };

/// Its address: a UUID made of the pack's name (RFC 4122, version 5), so that it is the same
/// everywhere and nobody's domain is borrowed.
[[nodiscard]] std::string address(Pack const& pack, Vocabulary vocabulary);

/// `{system, code, display}`.
[[nodiscard]] Json coding(std::string_view system, std::string_view code, std::string_view display);

/// The standard's answers Y, N and asked-unknown (its value set `yesnodontknow`).
[[nodiscard]] Json yes_coding();
[[nodiscard]] Json no_coding();
[[nodiscard]] Json cannot_tell_coding();

[[nodiscard]] Json choice_coding(Pack const& pack, Sign const& sign, Choice choice);
[[nodiscard]] Json sign_coding(Pack const& pack, SignId sign);
[[nodiscard]] Json cause_coding(Pack const& pack, std::optional<CauseId> cause);
[[nodiscard]] Json tier_coding(Pack const& pack, TierId tier);
/// The code is as in a case file: `left elbow`.
[[nodiscard]] Json site_coding(Pack const& pack, SiteMark const& mark);

/// Where the sign may be found, sides and all, in the order of the pack.
[[nodiscard]] std::vector<SiteMark> sites_of(Pack const& pack, Sign const& sign);

/// The UCUM code of a unit; a plain count has `1`. Source: The Unified Code for Units of Measure,
/// version 2.1; `a` is its year of 365.25 days and `mo` a twelfth of it, as ours are.
[[nodiscard]] std::string_view ucum_code(Unit const& unit);
/// Nothing when we have no such unit.
[[nodiscard]] std::optional<Unit> unit_of_ucum(std::string_view code);
/// One unit a code, those of a dimension.
[[nodiscard]] std::vector<Unit> ucum_units(Dimension dimension);

/// `{value, unit, system, code}`.
[[nodiscard]] Json quantity(double value, Unit const& unit);

/// The standard's code for the pack's species; nothing where it has none.
[[nodiscard]] std::optional<std::string_view> species_code(std::string_view species);

/// The standard's priority for a tier by its time: `stat` within 2 hours, `asap` within a day,
/// `urgent` within a week, else `routine`. The limits are a judgement.
[[nodiscard]] std::string_view priority(Tier const& tier);

/// JSON as it is sent: indented, everything beyond ASCII as escapes, so that no character of a text
/// acts upon a screen. Control characters that the standard forbids in texts become U+FFFD.
[[nodiscard]] std::string fhir_text(Json json);

}  // namespace flinch::cli
