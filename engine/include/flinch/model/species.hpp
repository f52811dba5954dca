#pragma once
// What the pack says of its species in words.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flinch {

/// The words for the patient, neutral where the pack has none of its own.
struct SpeciesWords {
  std::string one = "patient";    ///< "rabbit"
  std::string many = "patients";  ///< "rabbits"
  std::vector<std::string> male;  ///< everyday words, the one that is shown first; may be empty
  std::vector<std::string> female;
  std::vector<std::string> young;
  std::vector<std::string> neutered_male;
  std::vector<std::string> neutered_female;
};

/// What an everyday word says of the sex.
struct SexWord {
  bool is_male = false;
  bool is_neutered = false;  ///< otherwise nothing is said of that
};

/// What the pack calls so, in any letter case; nothing for a word of another kind.
[[nodiscard]] std::optional<SexWord> sex_called(SpeciesWords const& words, std::string_view called);

/// The word that is shown for a neutered patient of that sex; nothing where the pack has none.
[[nodiscard]] std::optional<std::string_view> word_for_neutered(SpeciesWords const& words,
                                                                bool is_male);

/// "an" before a vowel, else "a": "a rabbit", "an otter".
[[nodiscard]] std::string with_article(std::string const& word);

/// With its first letter large, where that is a letter from a to z: "Rabbit".
[[nodiscard]] std::string capitalised(std::string word);

}  // namespace flinch
