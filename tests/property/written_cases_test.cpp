// What is written of any case reads back as the same case.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>

#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/write_case.hpp"
#include "model/fit.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"

namespace flinch::test {
namespace {

// Sites outside a sign's own choice are no answers to it.
void drop_misplaced(Pack const& pack, Case& dog) {
  for (auto& [sign, answer] : dog.answers) {
    auto* findings = std::get_if<Findings>(&answer);
    if (findings == nullptr) continue;
    auto const is_misplaced = [&, on = sign](SiteMark const& mark) {
      Report report;
      return !site_fits(pack, pack[on], mark, {}, report);
    };
    std::erase_if(findings->found, is_misplaced);
    std::erase_if(findings->clear, is_misplaced);
  }
  // Findings that say nothing are no answer.
  std::erase_if(dog.answers, [](auto const& answer) {
    auto const* findings = std::get_if<Findings>(&answer.second);
    return findings != nullptr && *findings == Findings{};
  });
}

std::string random_text(std::mt19937& random) {
  static std::vector<std::string> const pieces = {
      "a",    "the dog", " ",    "\n",  "\t",   ": ",       "'",      "\"",     "\\",
      "#",    "- ",      "{",    "]",   "%",    "\x1b[31m", "\u00e9", "\u202e", "\U0001f415",
      "\x01", "\u0085",  "=1+1", "<b>", "null", "~",        ","};
  std::string out;
  for (auto i = std::uniform_int_distribution(0, 12)(random); i > 0; --i)
    out += pieces[std::uniform_int_distribution<std::size_t>(0, pieces.size() - 1)(random)];
  return out;
}

std::optional<CaseOutcome> random_outcome(Pack const& pack, std::mt19937& random) {
  auto const below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::uint32_t>(0,
                                                        static_cast<std::uint32_t>(n - 1))(random);
  };
  CaseOutcome out;
  out.is_cause_known = below(3) > 0;
  if (out.is_cause_known && below(3) > 0) out.cause = CauseId{below(pack.causes.size())};
  if (below(3) > 0) out.needed = TierId{below(pack.tiers.size())};
  if (out == CaseOutcome{}) return std::nullopt;
  return out;
}

TEST(Properties, AWrittenCaseReadsBackAsTheSame) {
  auto const pack = shipped_pack();
  std::mt19937 random(4711);
  std::size_t answers = 0;
  for (int i = 0; i < 400; ++i) {
    auto dog = random_case(*pack, random);
    drop_misplaced(*pack, dog);
    answers += dog.answers.size();
    for (auto* text : {&dog.name, &dog.caller, &dog.call_back, &dog.ring_back_at, &dog.note})
      *text = random_text(random);
    dog.outcome = random_outcome(*pack, random);
    auto const written = write_case(dog, *pack);
    SourceSet sources;
    auto const read = read_case(sources, sources.add("written.yaml", written), *pack);
    ASSERT_TRUE(read) << i << '\n' << render(read.diagnostics, sources) << written;
    ASSERT_EQ(*read.value, dog) << i << '\n' << written;
    ASSERT_EQ(write_case(*read.value, *pack), written) << i;
  }
  EXPECT_GT(answers, 400U * 50U) << "too few answers to say anything";
}

}  // namespace
}  // namespace flinch::test
