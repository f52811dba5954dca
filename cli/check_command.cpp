// `flinch check`: a pack's mistakes, warnings and examples.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "commands.hpp"
#include "flinch/assess/promises.hpp"
#include "flinch/explain/figures.hpp"
#include "json_text.hpp"
#include "pack_source.hpp"

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

std::string counted(std::size_t number, std::string_view what) {
  return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

BackingCounts count_all_figures(Pack const& pack) {
  BackingCounts all;
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries) all.add(backing(entry));
  return all;
}

struct BrokenExample {
  Example const* example;
  std::vector<BrokenPromise> promises;
};

std::vector<BrokenExample> run_examples(Pack const& pack,
                                        std::shared_ptr<Pack const> const& shared) {
  Tables const tables(shared);
  Assessor assessor(tables);
  std::vector<BrokenExample> broken;
  for (auto const& example : pack.examples) {
    auto promises = broken_promises(tables, assessor, example);
    if (!promises.empty()) broken.push_back({&example, std::move(promises)});
  }
  return broken;
}

}  // namespace

Status check(CheckOptions const& options, Session const& session) {
  auto const opened = open_pack(options.pack);
  auto const& diagnostics = opened.outcome.diagnostics;
  if (!options.json) session.err << render(diagnostics, opened.sources);
  Json out;
  out["diagnostics"] = Json::array();
  for (auto const& d : diagnostics)
    out["diagnostics"].push_back(diagnostic_json(d, opened.sources));

  std::size_t warnings = 0;
  for (auto const& d : diagnostics) warnings += d.severity == Severity::warning ? 1 : 0;
  if (!opened.outcome) {
    auto const errors = diagnostics.size() - warnings;
    if (options.json)
      session.out << json_text(out);
    else
      session.err << fmt::format("{}, {}: the pack cannot be used\n", counted(errors, "error"),
                                 counted(warnings, "warning"));
    return Status::bad;
  }

  auto const& pack = **opened.outcome.value;
  auto const counts = count_all_figures(pack);
  auto const broken = run_examples(pack, *opened.outcome.value);
  if (options.json) {
    out["pack"] = pack.name;
    out["examples"] = pack.examples.size();
    out["broken"] = Json::array();
    for (auto const& [example, promises] : broken)
      for (auto const& promise : promises)
        out["broken"].push_back({{"example", example->name},
                                 {"promise", promise.promise},
                                 {"instead", promise.instead}});
    session.out << json_text(out);
  } else {
    for (auto const& [example, promises] : broken) {
      auto const position = opened.sources[example->at.file].position(example->at.span.begin);
      for (auto const& promise : promises)
        session.out << fmt::format(
            "{}:{}:{}: example `{}` expects {}: {}\n", opened.sources[example->at.file].name(),
            position.line, position.column, example->name, promise.promise, promise.instead);
    }
    session.out << fmt::format(
        "{} {}: {} signs, {} causes, {} rules, {} alarms, {} sources\n"
        "{} figures counted in published samples, {} derived from sources, {} judged\n"
        "{} of {} examples as promised, {}\n",
        pack.name, pack.version, pack.signs.size() - dog_sign::count, pack.causes.size(),
        pack.rules.size(), pack.alarms.size(), pack.sources.size(), counts.counted, counts.derived,
        counts.judged, pack.examples.size() - broken.size(), pack.examples.size(),
        counted(warnings, "warning"));
  }
  return broken.empty() ? Status::fine : Status::no;
}

}  // namespace flinch::cli
