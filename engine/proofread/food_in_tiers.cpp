// Tiers whose words speak of food and drink, which are told by the patient.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "model/wording.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// The first word of that kind; nothing where none stands there.
std::string food_word(std::string_view text) {
  constexpr std::array<std::string_view, 11> words = {"food",  "feed",  "feeding", "fed",
                                                      "eat",   "meal",  "meals",   "water",
                                                      "drink", "mouth", "fasting"};
  auto const small = in_small_letters(text);
  auto const is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  for (auto at = small.begin(); at != small.end();) {
    at = std::find_if(at, small.end(), is_letter);
    auto const end = std::find_if_not(at, small.end(), is_letter);
    std::string word(at, end);
    if (std::find(words.begin(), words.end(), word) != words.end()) return word;
    at = end;
  }
  return {};
}

}  // namespace

void find_food_in_tiers(Pack const& pack, Remarks& remarks) {
  bool const has_fasting = std::any_of(pack.care.begin(), pack.care.end(),
                                       [](Care const& care) { return care.is_fasting; });
  for (auto const& tier : pack.tiers) {
    auto const word = food_word(tier.say);
    if (word.empty()) continue;
    remarks.add(
        Code::food_in_tier, tier.at, {tier.at},
        fmt::format("the words of the tier `{}` speak of food or drink (`{}`)", tier.name, word),
        has_fasting ? "`fasting` says what goes on, by who the patient is: the two may contradict "
                      "each other"
                    : "without a `fasting` the pages say to ask about food and water",
        "say it in a `fasting`, which is told in one place, or accept this where both agree");
  }
}

}  // namespace flinch
