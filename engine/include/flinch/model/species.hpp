#pragma once
// What the pack says of its species in words.
#include <string>
#include <vector>

namespace flinch {

/// The words for the patient, neutral where the pack has none of its own.
struct SpeciesWords {
  std::string one = "patient";    ///< "rabbit"
  std::string many = "patients";  ///< "rabbits"
  std::vector<std::string> male;  ///< everyday words, the one that is shown first; may be empty
  std::vector<std::string> female;
  std::vector<std::string> young;
};

/// "an" before a vowel, else "a": "a rabbit", "an otter".
[[nodiscard]] std::string with_article(std::string const& word);

/// With its first letter large, where that is a letter from a to z: "Rabbit".
[[nodiscard]] std::string capitalised(std::string word);

}  // namespace flinch
