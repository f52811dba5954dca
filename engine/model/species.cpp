#include "flinch/model/species.hpp"

#include <string_view>

namespace flinch {

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
