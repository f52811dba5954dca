#include "desk/said_worse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/interview/sign_search.hpp"

namespace flinch::cli {

bool says_only_that_it_is_worse(std::string_view line) {
  constexpr std::array<std::string_view, 32> words = {
      "yes", "y",   "yeah", "yep",  "it",   "its",   "is",        "s",   "a",     "bit",  "little",
      "lot", "far", "now",  "much", "than", "then",  "that",      "got", "gone",  "new",  "getting",
      "he",  "hes", "she",  "shes", "he's", "she's", "something", "so",  "worse", "worst"};
  bool is_said = false;
  for (auto const& word : folded_words(line)) {
    if (std::find(words.begin(), words.end(), word) == words.end()) return false;
    is_said = is_said || word == "worse" || word == "worst" || word == "new" || word == "yes" ||
              word == "y" || word == "yeah" || word == "yep";
  }
  return is_said;
}

std::string as_said(std::string_view words) { return fmt::format("Said: \"{}\".", words); }

}  // namespace flinch::cli
