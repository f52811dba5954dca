#include "book/call_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "book/urgency_of_all.hpp"
#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr char const* nobody_named = "no name told";

std::string answer_of(Case const& patient, Pack const& pack, SignId sign) {
  for (auto const& [answered, answer] : patient.answers)
    if (answered == sign) return answer_text(pack, sign, answer);
  return {};
}

std::string outcome_text(Pack const& pack, CaseOutcome const& outcome) {
  auto out = outcome.is_cause_known ? title_of(pack, outcome.cause) : std::string();
  if (outcome.needed)
    out += fmt::format("{}needed: {}", out.empty() ? "" : "; ", pack[*outcome.needed].title);
  return out;
}

std::string with_commas(std::initializer_list<std::string_view> parts) {
  std::string out;
  for (auto const part : parts)
    if (!part.empty()) out += fmt::format("{}{}", out.empty() ? "" : ", ", inert(part));
  return out;
}

}  // namespace

std::string labels_text(Pack const& pack, std::vector<SignId> const& signs) {
  std::string out;
  for (auto const sign : signs) out += (out.empty() ? "" : ", ") + pack[sign].label;
  return out;
}

CallWords words_of_call(CallLine const& call, Pack const& pack, CallReader& reader) {
  CallWords out;
  if (!is_of_pack(call, pack)) {
    auto const whose = call.pack.empty() ? "for " + inert(call.species) : inert(call.pack);
    if (!call.tier.empty())
      out.tier = fmt::format("tier `{}` of the pack {}", inert(call.tier), whose);
    out.complaint = fmt::format("(its words are those of the pack {}: give it with --pack)", whose);
    return out;
  }
  auto const tier = tier_of_name(pack, call.tier);
  out.tier = tier ? pack[*tier].title : inert(call.tier);
  auto const read = reader.read(call);
  if (!read) {
    out.complaint = "(this pack cannot read its answers: give theirs with --pack)";
    return out;
  }
  auto const& patient = read->patient;
  out.complaint = labels_text(pack, patient.came_for);
  if (out.complaint.empty()) {
    std::vector<SignId> told;
    for (auto const& [sign, answer] : patient.answers)
      if (auto const* yes = std::get_if<bool>(&answer);
          yes != nullptr && *yes && !pack[sign].of_the_patient && told.size() < 3)
        told.push_back(sign);
    out.complaint = labels_text(pack, told);
  }
  if (auto const pain = pack.pain_sign()) out.pain = answer_of(patient, pack, *pain);
  out.weight = answer_of(patient, pack, patient_sign::weight);
  if (patient.outcome) out.outcome = outcome_text(pack, *patient.outcome);
  return out;
}

std::string who_text(CallLine const& call) {
  auto const out = with_commas({call.patient_name, call.client_name, call.telephone});
  if (!out.empty()) return out;
  auto species = inert(call.species);
  std::replace(species.begin(), species.end(), '_', ' ');
  return species.empty() ? nobody_named
                         : fmt::format("{}, {}", with_article(species), nobody_named);
}

std::string who_text(PatientFound const& patient) {
  auto const out = with_commas({patient.name, patient.client_name, patient.telephone});
  return out.empty() ? nobody_named : out;
}

nlohmann::ordered_json call_json(CallLine const& call, WithNames with_names) {
  auto const time = [](std::optional<std::time_t> when) {
    return when ? nlohmann::ordered_json(clock_text(*when)) : nlohmann::ordered_json();
  };
  nlohmann::ordered_json out = {
      {"call", number(call.call)},
      {"patient", number(call.patient)},
      {"begun", clock_text(call.begun)},
      {"saved", clock_text(call.saved)},
      {"tier", call.tier.empty() ? nlohmann::ordered_json() : nlohmann::ordered_json(call.tier)},
      {"ring back", time(call.ring_back)},
      {"closed", time(call.closed)},
      {"case", nlohmann::ordered_json::parse(call.line, nullptr, false)}};
  if (!call.pack.empty()) out["pack"] = call.pack;
  if (with_names == WithNames::yes) {
    out["name"] = call.patient_name;
    out["caller"] = call.client_name;
    out["call back"] = call.telephone;
    out["words"] = nlohmann::ordered_json::parse(call.words, nullptr, false);
  }
  return out;
}

std::string case_line(CallLine const& call, WithNames with_names) {
  auto const said = nlohmann::ordered_json::parse(call.line, nullptr, false);
  auto out = nlohmann::ordered_json::object();
  out["name"] = fmt::format("patient {}, call {}", number(call.patient), number(call.call));
  if (with_names == WithNames::yes)
    out.update(nlohmann::ordered_json::parse(call.words, nullptr, false));
  if (said.is_object()) out.update(said);
  return out.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

// What spreadsheets take for a formula begins with one of these signs; a quote before it makes it
// text. Source: OWASP, "CSV Injection", from memory.
std::string table_cell(std::string_view text) {
  std::string out = "\"";
  auto const shown = inert(text);
  if (!shown.empty() && std::string_view("=+-@\t?").find(shown.front()) != std::string_view::npos)
    out += '\'';
  for (auto const c : shown) {
    if (c == '"') out += '"';
    out += c == '\t' ? ' ' : c;
  }
  return out + '"';
}

std::string until_text(std::time_t when, std::time_t now) {
  auto const minutes = (when > now ? when - now : now - when) / 60;
  constexpr std::time_t hour = 60;
  constexpr std::time_t day = 24 * hour;
  auto const span = minutes < 2 * hour  ? count_text(minutes, "minute")
                    : minutes < 2 * day ? count_text(minutes / hour, "hour")
                                        : count_text(minutes / day, "day");
  return when > now ? "in " + span : span + " overdue";
}

std::string count_text(long long count, std::string_view one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

}  // namespace flinch::cli
