#include "exchange/terms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/string_generator.hpp>
#include <boost/uuid/uuid_io.hpp>

#include "flinch/explain/reasons.hpp"
#include "flinch/model/choice.hpp"

namespace flinch::cli {
namespace {

// Drawn at random once; what is made of names below it stays the same for ever.
constexpr char const* house = "388f7bed-0129-42a2-b5b7-59118b820668";

constexpr std::array vocabulary_words = {"form",   "signs",  "values", "sites",
                                         "breeds", "causes", "tiers",  "care"};

struct UcumUnit {
  std::string_view name;
  std::string_view code;
};
constexpr std::array<UcumUnit, 30> ucum_table = {{
    {"kg", "kg"},
    {"g", "g"},
    {"mg", "mg"},
    {"ug", "ug"},
    {"lb", "[lb_av]"},
    {"oz", "[oz_av]"},
    {"C", "Cel"},
    {"F", "[degF]"},
    {"seconds", "s"},
    {"minutes", "min"},
    {"hours", "h"},
    {"days", "d"},
    {"weeks", "wk"},
    {"months", "mo"},
    {"years", "a"},
    {"mL", "mL"},
    {"L", "L"},
    {"mm", "mm"},
    {"per minute", "/min"},
    {"cm", "cm"},
    {"%", "%"},
    {"per hour", "/h"},
    {"per day", "/d"},
    {"mmol per L", "mmol/L"},
    {"umol per L", "umol/L"},
    {"g per L", "g/L"},
    {"g per dL", "g/dL"},
    {"mg per dL", "mg/dL"},
    {"ug per dL", "ug/dL"},
    {"", "1"},
}};

// https://hl7.org/fhir/R4/codesystem-animal-species.html has these three.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> species_codes = {
    {{"dog", "canislf"}, {"sheep", "ovisa"}, {"canary", "serinuscd"}}};

// The standard: no code point below 32 but tab, line feed and carriage return.
void make_sendable(Json& json) {
  if (json.is_string()) {
    auto& text = json.get_ref<std::string&>();
    std::string out;
    for (char const c : text)
      if (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r')
        out += "\xEF\xBF\xBD";
      else
        out += c;
    text = std::move(out);
    return;
  }
  if (json.is_structured())
    for (auto& part : json) make_sendable(part);
}

}  // namespace

std::vector<WordsItem> const& words_items() {
  static std::vector<WordsItem> const items = {
      {"case.name", "name", "Its name", &Case::name},
      {"case.caller", "caller", "Who rang", &Case::caller},
      {"case.call_back", "call back", "The number to ring them at", &Case::call_back},
      {"case.ring_back_at", "ring back at", "When that was promised", &Case::ring_back_at},
      {"case.note", "note", "Note", &Case::note},
  };
  return items;
}

std::string address(Pack const& pack, Vocabulary vocabulary) {
  boost::uuids::name_generator_sha1 const below(boost::uuids::string_generator()(house));
  auto const name =
      fmt::format("{} {}", pack.name, vocabulary_words.at(static_cast<std::size_t>(vocabulary)));
  return "urn:uuid:" + boost::uuids::to_string(below(name));
}

Json coding(std::string_view system, std::string_view code, std::string_view display) {
  Json out = {{"system", system}, {"code", code}};
  if (!display.empty()) out["display"] = display;
  return out;
}

Json yes_coding() { return coding(fhir::yes_no, "Y", "Yes"); }
Json no_coding() { return coding(fhir::yes_no, "N", "No"); }
Json cannot_tell_coding() { return coding(fhir::absent, fhir::asked_unknown, "Don't know"); }

Json choice_coding(Pack const& pack, Sign const& sign, Choice choice) {
  bool const is_breed = traits(sign).is_breed;
  auto const& name = choice_name(pack, sign, choice);
  auto const& label = choice_label(pack, sign, choice);
  return coding(address(pack, is_breed ? Vocabulary::breeds : Vocabulary::values),
                is_breed ? name : fmt::format("{}/{}", sign.name, name),
                label.empty() ? name : label);
}

Json sign_coding(Pack const& pack, SignId sign) {
  return coding(address(pack, Vocabulary::signs), pack[sign].name, pack[sign].label);
}

Json cause_coding(Pack const& pack, std::optional<CauseId> cause) {
  return coding(address(pack, Vocabulary::causes), cause ? pack[*cause].name : "none",
                title_of(pack, cause));
}

Json tier_coding(Pack const& pack, TierId tier) {
  return coding(address(pack, Vocabulary::tiers), pack[tier].name, pack[tier].title);
}

Json site_coding(Pack const& pack, SiteMark const& mark) {
  auto const side = mark.side == Side::left ? "left " : mark.side == Side::right ? "right " : "";
  return coding(address(pack, Vocabulary::sites), side + pack[mark.site].name,
                site_text(pack, mark));
}

std::vector<SiteMark> sites_of(Pack const& pack, Sign const& sign) {
  std::vector<SiteMark> out;
  for (std::uint32_t i = 0; i < pack.sites.size(); ++i) {
    SiteId const site{i};
    bool const in_choice = sign.within.empty() ||
                           std::any_of(sign.within.begin(), sign.within.end(), [&](SiteId within) {
                             return pack.covers(within, site) || pack.covers(site, within);
                           });
    if (!in_choice) continue;
    out.push_back({site, Side::any});
    if (!pack[site].paired) continue;
    out.push_back({site, Side::left});
    out.push_back({site, Side::right});
  }
  return out;
}

std::string_view ucum_code(Unit const& unit) {
  for (auto const& one : ucum_table)
    if (one.name == unit.name ||
        (one.name.ends_with('s') && unit.name.size() + 1 == one.name.size() &&
         one.name.starts_with(unit.name) && !unit.name.empty()))
      return one.code;
  return "1";
}

std::optional<Unit> unit_of_ucum(std::string_view code) {
  for (auto const& one : ucum_table)
    if (one.code == code) return find_unit(one.name);
  return std::nullopt;
}

std::vector<Unit> ucum_units(Dimension dimension) {
  std::vector<Unit> out;
  for (auto const& one : ucum_table)
    if (auto const unit = find_unit(one.name); unit && unit->dimension == dimension)
      out.push_back(*unit);
  return out;
}

Json quantity(double value, Unit const& unit) {
  return {{"value", value}, {"unit", unit.name}, {"system", fhir::ucum}, {"code", ucum_code(unit)}};
}

std::optional<std::string_view> species_code(std::string_view species) {
  for (auto const& [name, code] : species_codes)
    if (name == species) return code;
  return std::nullopt;
}

std::string_view priority(Tier const& tier) {
  constexpr double hour = 3600;
  if (tier.within_s <= 2 * hour) return "stat";
  if (tier.within_s <= 24 * hour) return "asap";
  return tier.within_s <= 7 * 24 * hour ? "urgent" : "routine";
}

std::string fhir_text(Json json) {
  make_sendable(json);
  return json.dump(2, ' ', true, Json::error_handler_t::replace) + '\n';
}

}  // namespace flinch::cli
