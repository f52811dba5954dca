// The signs by which a disease is seen, for whoever names the disease instead.
#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/interview/sign_search.hpp"

namespace flinch {
namespace {

constexpr std::size_t signs_of_one = 5;  // a judgement: what fits under one question

// A condition that one sign, or one value of it, fulfils.
bool is_of_one_sign(Condition const& condition) {
  if (condition.kind != Condition::Kind::test) return false;
  auto const& test = condition.test;
  return test.kind == Test::Kind::holds ||
         (test.kind == Test::Kind::is_value && test.values.size() == 1);
}

// "A GDV", "has pyometra": small letters, without what stands around the name.
std::string plain_name(std::string_view typed) {
  constexpr std::array<std::string_view, 9> small = {"a",    "an",  "the", "has", "got",
                                                     "with", "his", "her", "it"};
  std::string out;
  for (auto const& word : folded_words(typed))
    if (std::find(small.begin(), small.end(), word) == small.end())
      (out += out.empty() ? "" : " ") += word;
  return out;
}

}  // namespace

void SignSearch::index_diseases() {
  for (std::uint32_t i = 0; i < pack_.causes.size(); ++i) {
    auto const& cause = pack_.causes[i];
    diseases_.emplace(plain_name(cause.name), CauseId{i});
    diseases_.emplace(plain_name(cause.title), CauseId{i});
    for (auto const& also : cause.also_called) diseases_.emplace(plain_name(also), CauseId{i});
  }
}

std::vector<FoundSign> SignSearch::signs_of_disease(std::string_view typed,
                                                    std::size_t at_most) const {
  auto const named = diseases_.find(plain_name(typed));
  if (named == diseases_.end()) return {};
  auto const cause = named->second;
  std::vector<FoundSign> out;
  for (auto const& rule : pack_.rules) {
    if (!rule.condition || !is_of_one_sign(*rule.condition)) continue;
    auto const& test = rule.condition->test;
    auto const& sign = pack_[test.sign];
    if (sign.of_the_patient || sign.seen_by != SeenBy::anyone) continue;
    auto const entry = std::find_if(rule.entries.begin(), rule.entries.end(),
                                    [&](RuleEntry const& one) { return one.cause == cause; });
    if (entry == rule.entries.end()) continue;
    auto const often = entry->frequencies.front();
    auto const usual = rule.usual.front();
    // How much it speaks for the cause, in as many patients as have it.
    auto const speaks = usual > 0 ? often * std::log(often / usual) : 0;
    if (!(speaks > 0)) continue;
    auto const value = test.values.empty() ? std::nullopt : std::optional(test.values.front());
    out.push_back({test.sign, speaks, pack_[cause].title, value, false, false,
                   may_calm_[index(test.sign)], cause});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](FoundSign const& a, FoundSign const& b) { return a.score > b.score; });
  out.resize(std::min({out.size(), signs_of_one, at_most}));
  return out;
}

}  // namespace flinch
