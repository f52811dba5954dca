#include "check/check_json.hpp"
#include "look/schema.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

Json diagnostic_json(Diagnostic const& d, SourceSet const& sources) {
  auto const place = [&](Place at) {
    auto const begin = sources[at.file].position(at.span.begin);
    auto const end = sources[at.file].position(at.span.end);
    return Json{{"file", sources[at.file].name()},
                {"line", begin.line},
                {"column", begin.column},
                {"end_line", end.line},
                {"end_column", end.column}};
  };
  auto out = place(d.at);
  out["severity"] = d.severity == Severity::error ? "error" : "warning";
  out["code"] = code_text(d.code);
  out["message"] = d.message;
  out["notes"] = Json::array();
  for (auto const& note : d.notes) {
    Json one = {{"message", note.message}};
    if (note.at) one["at"] = place(*note.at);
    out["notes"].push_back(std::move(one));
  }
  return out;
}

template <class Id>
Json names_json(Pack const& pack, std::vector<Id> const& ids) {
  auto out = Json::array();
  for (auto const id : ids) out.push_back(pack[id].name);
  return out;
}

Json gates_json(Pack const& pack, std::vector<UntriedGate> const& gates) {
  auto out = Json::array();
  for (auto const& [gate, was_true, was_false] : gates)
    out.push_back({{"care", pack.care[gate.care].name},
                   {"clause", clause_text(gate.clause)},
                   {"number", gate.number + 1},
                   {"was_true", was_true},
                   {"was_false", was_false}});
  return out;
}

Json coverage_json(Pack const& pack, Coverage const& coverage) {
  return {{"cases", coverage.patients()},
          {"silent_rules", names_json(pack, coverage.silent_rules())},
          {"silent_alarms", names_json(pack, coverage.silent_alarms())},
          {"gates", coverage.gates()},
          {"untried_gates", gates_json(pack, coverage.untried_gates())}};
}

}  // namespace

Json diagnostics_json(std::vector<Diagnostic> const& diagnostics, SourceSet const& sources) {
  auto out = Json::array();
  for (auto const& d : diagnostics) out.push_back(diagnostic_json(d, sources));
  return out;
}

Json check_json(CheckFindings const& findings, SourceSet const& sources) {
  auto const& pack = findings.pack;
  Json out;
  out["schema"] = schema_json(check_schema);
  out["diagnostics"] = diagnostics_json(findings.proof.warnings, sources);
  out["accepted"] = Json::array();
  for (auto const& [warning, reason] : findings.proof.accepted) {
    auto one = diagnostic_json(warning, sources);
    one["reason"] = reason;
    out["accepted"].push_back(std::move(one));
  }
  out["pairs"] = diagnostics_json(findings.proof.pairs, sources);
  out["pack"] = pack.name;
  out["rules"] = pack.rules.size();
  out["alarms"] = pack.alarms.size();
  out["examples"] = pack.examples.size();
  out["broken"] = Json::array();
  for (auto const& [example, promises] : findings.broken)
    for (auto const& promise : promises)
      out["broken"].push_back(
          {{"example", example->name}, {"promise", promise.promise}, {"instead", promise.instead}});
  out["coverage"] = {{"examples", coverage_json(pack, findings.by_examples)}};
  if (findings.with_cases)
    out["coverage"]["examples_and_cases"] = coverage_json(pack, *findings.with_cases);
  return out;
}

}  // namespace flinch::cli
