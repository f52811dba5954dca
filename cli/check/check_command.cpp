// `flinch check`: a pack's mistakes, warnings and examples, and what no patient has tried.
#include "check/check_command.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "check/check_cases.hpp"
#include "check/check_json.hpp"
#include "files/pack_source.hpp"
#include "flinch/text/display.hpp"
#include "look/json_text.hpp"
#include "look/schema.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct CheckOptions {
  std::string pack;
  std::vector<std::string> cases;  ///< YAML files, folders of them, `*.jsonl`
  bool names = false;              ///< of what nothing sets off, and of accepted warnings
  bool pairs = false;              ///< silent and impossible pairs of figures too
  bool strict = false;             ///< what is listed counts as "no"
  bool json = false;
};

std::string counted(std::size_t number, std::string_view what) {
  return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

BackingCounts count_all_figures(Pack const& pack) {
  BackingCounts all;
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries) all.add(backing(entry));
  return all;
}

std::string place_text(SourceSet const& sources, Place at) {
  auto const position = sources[at.file].position(at.span.begin);
  return fmt::format("{}:{}:{}", sources[at.file].name(), position.line, position.column);
}

class CheckText {
 public:
  CheckText(CheckFindings const& findings, SourceSet const& sources, Session const& session)
      : findings_(findings), pack_(findings.pack), sources_(sources), session_(session) {}

  void write(bool names, bool pairs) {
    session_.err << render(findings_.proof.warnings, sources_);
    if (pairs) write_pairs(names);
    for (auto const& [example, promises] : findings_.broken)
      for (auto const& promise : promises)
        session_.out << fmt::format("{}: example `{}` expects {}: {}\n",
                                    place_text(sources_, example->at), example->name,
                                    promise.promise, promise.instead);
    auto const& counts = findings_.figures;
    auto const& accepted = findings_.proof.accepted;
    session_.out << fmt::format(
        "{} {}: {} signs, {} causes, {} rules, {} alarms, {} sources\n"
        "{} figures counted in published samples, {} derived from sources, {} judged\n"
        "{} of {} examples as promised, {}{}\n",
        pack_.name, pack_.version, pack_.signs.size() - patient_sign::count, pack_.causes.size(),
        pack_.rules.size(), pack_.alarms.size(), pack_.sources.size(), counts.counted,
        counts.derived, counts.judged, pack_.examples.size() - findings_.broken.size(),
        pack_.examples.size(), counted(findings_.proof.warnings.size(), "warning"),
        accepted.empty() ? "" : fmt::format(", {} accepted", accepted.size()));
    if (!findings_.proof.pairs.empty())
      session_.out << fmt::format("{} of figures to look at{}\n",
                                  counted(findings_.proof.pairs.size(), "pair"),
                                  pairs ? "" : ": --pairs");
    cover("the examples", findings_.by_examples, names);
    if (findings_.with_cases) {
      auto const cases = findings_.with_cases->patients() - findings_.by_examples.patients();
      cover(fmt::format("the examples and {}", counted(cases, "case")), *findings_.with_cases,
            names);
    }
    if (names) write_accepted();
  }

 private:
  // What is impossible in full; of the silent ones a line a rule with the heaviest, worst first.
  void write_pairs(bool names) {
    std::vector<Diagnostic> in_full;
    struct Group {
      Diagnostic const* heaviest;
      std::size_t more = 0;
    };
    std::vector<Group> groups;
    for (auto const& pair : findings_.proof.pairs) {
      if (names || pair.code != Code::silent_pair) {
        in_full.push_back(pair);
        continue;
      }
      auto const is_of_same_rule = [&](Group const& group) {
        auto const& at = group.heaviest->at;
        return at.file == pair.at.file && at.span.begin == pair.at.span.begin;
      };
      auto const group = std::find_if(groups.begin(), groups.end(), is_of_same_rule);
      if (group == groups.end())
        groups.push_back({&pair, 0});
      else
        ++group->more;
    }
    session_.err << render(in_full, sources_);
    for (auto const& [pair, more] : groups)
      session_.err << fmt::format(
          "{}: {}{} [{}]\n", place_text(sources_, pair->at), inert(pair->message),
          more == 0 ? "" : fmt::format(", and {} more of this rule", more), code_text(pair->code));
    if (!groups.empty())
      session_.err
          << "  name the silent cause with its own frequency, or accept that the sign is a "
             "coincidence in it; with --names each pair is told with its example\n";
  }

  void cover(std::string const& patients, Coverage const& coverage, bool names) {
    auto const rules = coverage.silent_rules();
    auto const alarms = coverage.silent_alarms();
    auto const gates = coverage.untried_gates();
    session_.out << fmt::format(
        "{} set off {} of {} and {} of {}\n", patients, pack_.rules.size() - rules.size(),
        counted(pack_.rules.size(), "rule"), pack_.alarms.size() - alarms.size(),
        counted(pack_.alarms.size(), "alarm"));
    if (coverage.gates() > 0)
      session_.out << fmt::format("{} make {} of {} of care both true and false\n", patients,
                                  coverage.gates() - gates.size(),
                                  counted(coverage.gates(), "condition"));
    if (!names) return;
    for (auto const id : rules) name("rule", pack_[id]);
    for (auto const id : alarms) name("alarm", pack_[id]);
    for (auto const& gate : gates) name_gate(gate);
  }

  void name_gate(UntriedGate const& untried) {
    auto const& care = pack_.care[untried.gate.care];
    auto const never = untried.was_true ? "false" : untried.was_false ? "true" : "true or false";
    session_.out << fmt::format("  never {}: {}: care {}, {}\n", never,
                                place_text(sources_, care.at), care.name,
                                inert(gate_text(pack_, untried.gate)));
  }

  template <class T>
  void name(std::string_view kind, T const& silent) {
    session_.out << fmt::format("  not: {}: {} {} \"{}\"\n", place_text(sources_, silent.at), kind,
                                silent.name, inert(silent.title));
  }

  void write_accepted() {
    for (auto const& [warning, reason] : findings_.proof.accepted)
      session_.out << fmt::format("accepted: {}: {} [{}]\n  because {}\n",
                                  place_text(sources_, warning.at), inert(warning.message),
                                  code_text(warning.code), inert(reason));
  }

  CheckFindings const& findings_;
  Pack const& pack_;
  SourceSet const& sources_;
  Session const& session_;
};

// A pack that does not load.
Status refuse(OpenedPack const& opened, bool json, Session const& session) {
  auto const& errors = opened.outcome.diagnostics;
  if (json) {
    session.out << json_text({{"schema", schema_json(check_schema)},
                              {"diagnostics", diagnostics_json(errors, opened.sources)}});
  } else {
    session.err << render(errors, opened.sources)
                << fmt::format("{}: the pack cannot be used\n", counted(errors.size(), "error"));
  }
  return Status::bad;
}

Status check(CheckOptions const& options, Session const& session) {
  auto const opened = open_pack(options.pack);
  if (!opened.outcome) return refuse(opened, options.json, session);
  Tables const tables(*opened.outcome.value);
  auto by_examples = cover_examples(tables);
  std::optional<Coverage> with_cases;
  if (!options.cases.empty()) {
    with_cases = by_examples;
    if (!cover_cases(options.cases, tables, *with_cases, session)) return Status::bad;
  }
  CheckFindings const findings{
      tables.pack(),           proofread(tables),      count_all_figures(tables.pack()),
      broken_examples(tables), std::move(by_examples), std::move(with_cases)};
  if (options.json)
    session.out << json_text(check_json(findings, opened.sources));
  else
    CheckText(findings, opened.sources, session).write(options.names, options.pairs);
  bool const is_refused = options.strict && (!findings.proof.warnings.empty() ||
                                             (options.pairs && !findings.proof.pairs.empty()));
  return findings.broken.empty() && !is_refused ? Status::fine : Status::no;
}

CommandUse use_check() {
  auto const options = std::make_shared<CheckOptions>();
  return {{{"pack", &options->pack, pack_help, {.shown = "PACK", .is_path = true}},
           {"--cases",
            &options->cases,
            "Which rules do these cases set off? YAML files, folders of them, *.jsonl",
            {.shown = "CASES", .is_path = true}},
           {"--names", &options->names,
            "Name the rules, alarms and conditions of care that nothing tries, and the accepted "
            "warnings"},
           {"--pairs", &options->pairs,
            "List pairs of figures too: impossible ones, and silent ones by rule (docs/packs.md)"},
           {"--strict", &options->strict, "Exit status 1 when there are warnings"},
           {"--json", &options->json, "For programs: docs/check.schema.json"}},
          [options](Session const& session) { return check(*options, session); },
          {{"flinch check", "The shipped pack"},
           {"flinch check changed --names", "Your copy, with what nothing sets off"}}};
}

}  // namespace

Command const check_command{
    "check", "Check a pack: mistakes, warnings, its examples, what they cover", use_check};

}  // namespace flinch::cli
