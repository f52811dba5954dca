// What users wait for: loading the shipped pack, parsing packs of any size, assessing a case.
#include <benchmark/benchmark.h>
#include <malloc.h>
#include <yaml-cpp/yaml.h>

#include <limits>

#include "bench/synthetic_pack.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace {

using namespace flinch;

Outcome<std::shared_ptr<Pack const>> load_shipped(SourceSet& sources) {
  return load_pack(
      "pack.flinch",
      [](std::string_view path) -> std::optional<std::string> {
        return test::source_file("rules/canine/" + std::string(path));
      },
      sources);
}

void LoadShippedPack(benchmark::State& state) {
  for (auto _ : state) {
    SourceSet sources;
    benchmark::DoNotOptimize(load_shipped(sources));
  }
}
BENCHMARK(LoadShippedPack)->Unit(benchmark::kMillisecond);

void BuildTables(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  for (auto _ : state) benchmark::DoNotOptimize(Tables(pack));
}
BENCHMARK(BuildTables)->Unit(benchmark::kMicrosecond);

void per_rule(benchmark::State& state, std::size_t bytes) {
  auto const rules = static_cast<double>(state.range(0));
  state.counters["time_per_rule"] = benchmark::Counter(
      rules, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
  state.SetBytesProcessed(static_cast<std::int64_t>(bytes) *
                          static_cast<std::int64_t>(state.iterations()));
}

void ParsePack(benchmark::State& state) {
  auto const text = bench::synthetic_pack(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    SourceSet sources;
    Report report;
    auto const file = sources.add("pack.flinch", text);
    benchmark::DoNotOptimize(syntax::parse(sources, file, {}, report));
  }
  per_rule(state, text.size());
}
BENCHMARK(ParsePack)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);

void LoadPack(benchmark::State& state) {
  auto const text = bench::synthetic_pack(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    auto const loaded = test::load({{"pack.flinch", text}});
    if (!loaded.outcome) state.SkipWithError("the synthetic pack is not sound");
  }
  per_rule(state, text.size());
}
BENCHMARK(LoadPack)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);

void ParseSameAsYaml(benchmark::State& state) {
  auto const text = bench::synthetic_yaml(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(YAML::Load(text));
  per_rule(state, text.size());
}
BENCHMARK(ParseSameAsYaml)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);

void AssessDemo(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const patient = test::case_of(*pack, test::source_file("docs/cases/bramble.yaml"));
  for (auto _ : state) benchmark::DoNotOptimize(assessor.assess(patient));
}
BENCHMARK(AssessDemo)->Unit(benchmark::kMicrosecond);

void AskOpenQuestions(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  Tables const tables(pack);
  auto const result =
      Assessor(tables).assess(test::case_of(*pack, test::source_file("docs/cases/bramble.yaml")));
  for (auto _ : state) benchmark::DoNotOptimize(open_questions(tables, result));
}
BENCHMARK(AskOpenQuestions)->Unit(benchmark::kMicrosecond);

// What an overview of `flinch review` reckons: the tier, the first causes, the first two compared,
// and how sure that is.
void ReviewDemo(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  Tables const tables(pack);
  auto const result =
      Assessor(tables).assess(test::case_of(*pack, test::source_file("docs/cases/bramble.yaml")));
  for (auto _ : state) {
    benchmark::DoNotOptimize(explain_tier(tables, result));
    for (std::size_t i = 0; i < 3; ++i)
      benchmark::DoNotOptimize(explain_cause(tables, result, *result.ranking[i].cause));
    benchmark::DoNotOptimize(
        contrast(tables, result, *result.ranking[0].cause, *result.ranking[1].cause));
    benchmark::DoNotOptimize(Uncertainty(tables, result).alike_with_first());
  }
}
BENCHMARK(ReviewDemo)->Unit(benchmark::kMicrosecond);

void SmallestChangesDemo(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const patient = test::case_of(*pack, test::source_file("docs/cases/bramble.yaml"));
  for (auto _ : state) benchmark::DoNotOptimize(smallest_changes(tables, assessor, patient));
}
BENCHMARK(SmallestChangesDemo)->Unit(benchmark::kMillisecond);

// The same twelve answers in packs of growing size: each sign carries four rules whatever the size,
// so the time must not grow with the pack.
void AssessInPackOf(benchmark::State& state) {
  auto const loaded = test::load(
      {{"pack.flinch", bench::synthetic_pack(static_cast<std::size_t>(state.range(0)))}});
  auto const& pack = *loaded.outcome.value;
  Tables const tables(pack);
  Assessor assessor(tables);
  std::string yaml = "answers:\n";
  for (int i = 0; i < 12; ++i)
    yaml += "  s" + std::to_string(i * 3) + (i % 2 == 0 ? ": yes\n" : ": no\n");
  auto const patient = test::case_of(*pack, yaml);
  for (auto _ : state) benchmark::DoNotOptimize(assessor.assess(patient));
}
BENCHMARK(AssessInPackOf)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMicrosecond);

void ReadCase(benchmark::State& state) {
  SourceSet sources;
  auto const pack = *load_shipped(sources).value;
  auto const yaml = test::source_file("docs/cases/bramble.yaml");
  for (auto _ : state) benchmark::DoNotOptimize(test::case_of(*pack, yaml));
}
BENCHMARK(ReadCase)->Unit(benchmark::kMicrosecond);

}  // namespace

int main(int argc, char** argv) {
  // Memory is kept between iterations, so that parsing is measured and not the kernel's page
  // faults.
  mallopt(M_MMAP_MAX, 0);
  mallopt(M_TRIM_THRESHOLD, std::numeric_limits<int>::max());
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
