#include "flinch/model/species.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "model/wording.hpp"

namespace flinch {

std::optional<SexWord> sex_called(SpeciesWords const& words, std::string_view called) {
  auto const small = in_small_letters(called);
  auto const is_one_of = [&](std::vector<std::string> const& all) {
    return std::any_of(all.begin(), all.end(),
                       [&](std::string const& word) { return in_small_letters(word) == small; });
  };
  for (auto const& [all, told] : {std::pair{&words.male, SexWord{true, false}},
                                  {&words.female, SexWord{false, false}},
                                  {&words.neutered_male, SexWord{true, true}},
                                  {&words.neutered_female, SexWord{false, true}}})
    if (is_one_of(*all)) return told;
  return std::nullopt;
}

std::optional<std::string_view> word_for_neutered(SpeciesWords const& words, bool is_male) {
  auto const& all = is_male ? words.neutered_male : words.neutered_female;
  return all.empty() ? std::nullopt : std::optional<std::string_view>(all.front());
}

std::string with_article(std::string const& word) {
  constexpr std::string_view vowels = "aeiouAEIOU";
  bool const is_open = !word.empty() && vowels.find(word.front()) != std::string_view::npos;
  return (is_open ? "an " : "a ") + word;
}

std::string capitalised(std::string word) {
  if (!word.empty() && word.front() >= 'a' && word.front() <= 'z')
    word.front() = static_cast<char>(word.front() - 'a' + 'A');
  return word;
}

}  // namespace flinch
