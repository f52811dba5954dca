#pragma once
// Finding signs by a few letters or by a caller's own words.
//
//   SignSearch const search(pack);
//   for (auto const& found : search.find("wont get up", 10)) ...   // slow_to_rise first
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

struct FoundSign {
  SignId sign{};
  double score = 0;        ///< the higher, the better it fits; comparable within one search only
  std::string_view words;  ///< of the pack, that fitted best: a label, an `also said`, a question
};

/// An index over the words of a pack's signs; it looks into the pack, which must outlive it.
/// Immutable; one instance serves any number of threads.
class SignSearch {
 public:
  explicit SignSearch(Pack const& pack);

  /// Signs whose label, name, question or `also said` fit what was typed, best first, ties in the
  /// order of the pack. Letter case, accents and apostrophes do not matter; a word may be typed in
  /// part, or with one spelling mistake from four letters on. Rare words count more than common
  /// ones, small words ("the", "his") hardly, and a sign must fit more than a third of what was
  /// typed. The dog's own signs (age, weight, ...) are not found.
  [[nodiscard]] std::vector<FoundSign> find(std::string_view typed, std::size_t at_most) const;

 private:
  struct Phrase {
    std::uint32_t sign = 0;
    double worth = 0;                  ///< of a fit here, by the kind of text that it is
    std::string_view text;             ///< as in the pack; a name as its label
    std::vector<std::uint32_t> words;  ///< indices into `words_`, in order
  };
  struct TypedWord {
    double weight = 0;         ///< how much it tells signs apart
    std::vector<double> fits;  ///< 0 to 1, for each of `words_`
  };

  void add(std::uint32_t sign, double worth, std::string_view text, std::string_view shown);
  [[nodiscard]] std::vector<TypedWord> weigh(std::vector<std::string> const& typed) const;

  Pack const& pack_;
  std::vector<std::string> words_;
  std::unordered_map<std::string, std::uint32_t> word_index_;
  std::vector<std::vector<std::uint32_t>> signs_of_word_;  ///< ascending, each once
  std::vector<Phrase> phrases_;                            ///< in the order of the signs
};

/// The words of a text in small letters without accents or apostrophes: "Won't eat" is "wont",
/// "eat".
[[nodiscard]] std::vector<std::string> folded_words(std::string_view text);

}  // namespace flinch
