// What a user waits for between two questions of an interview.
#include <benchmark/benchmark.h>

#include "bench/synthetic_pack.hpp"
#include "flinch/interview/interview.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace {

using namespace flinch;

void next_question(benchmark::State& state, std::shared_ptr<Pack const> const& pack,
                   std::string const& yaml) {
  Tables const tables(pack);
  Assessor assessor(tables);
  Interview interview(tables, Reader::clinician);
  auto const patient = test::case_of(*pack, yaml);
  for (auto _ : state) benchmark::DoNotOptimize(interview.next(assessor.assess(patient)));
  std::size_t entries = 0;
  for (auto const& rule : pack->rules) entries += rule.entries.size();
  state.counters["entries"] = static_cast<double>(entries);
}

std::shared_ptr<Pack const> shipped_pack() {
  auto const read = [](std::string_view path) -> std::optional<std::string> {
    return test::source_file("rules/canine/" + std::string(path));
  };
  SourceSet sources;
  return *load_pack("pack.flinch", read, sources).value;
}

void FirstQuestionOfShippedPack(benchmark::State& state) {
  next_question(state, shipped_pack(), "answers: {}\n");
}
BENCHMARK(FirstQuestionOfShippedPack)->Unit(benchmark::kMicrosecond);

void NextQuestionOfShippedPack(benchmark::State& state) {
  next_question(state, shipped_pack(), test::source_file("docs/cases/bramble.yaml"));
}
BENCHMARK(NextQuestionOfShippedPack)->Unit(benchmark::kMicrosecond);

// Causes and signs; each sign has one rule that names twenty causes, every twentieth an alarm.
void NextQuestionInPackOf(benchmark::State& state) {
  auto const loaded =
      test::load({{"pack.flinch", bench::wide_pack(static_cast<std::size_t>(state.range(0)),
                                                   static_cast<std::size_t>(state.range(1)))}});
  if (!loaded.outcome) {
    state.SkipWithError("the synthetic pack is not sound");
    return;
  }
  next_question(state, *loaded.outcome.value, "answers: {s1: yes, s2: no, s5: yes}\n");
}
BENCHMARK(NextQuestionInPackOf)
    ->Args({100, 250})
    ->Args({500, 1250})
    ->Args({1000, 2500})
    ->Args({2000, 5000})
    ->Args({4000, 10000})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
