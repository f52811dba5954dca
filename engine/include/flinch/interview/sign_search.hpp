#pragma once
// Finding signs, and their steps and choices, by a few letters or by a caller's own words.
//
//   SignSearch const search(pack);
//   for (auto const& found : search.find("gums look pale", 9)) ...   // gum_colour, pale
#include <cstddef>
#include <cstdint>
#include <optional>
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
  std::optional<std::uint32_t> value{};  ///< the step or choice that the words mean
  /// The same words, small ones ("his", "the") apart, and they mean nothing else.
  bool is_exact = false;
  /// The words say no where those of the pack do not ("not limping"), or the other way round: what
  /// they mean of the sign is to be asked.
  bool is_turned = false;
  /// An `unless` asks for the sign: known it makes a danger sign wait. So it is never exact, and is
  /// offered with its whole question.
  bool may_calm = false;
  /// What was typed is the name of this cause, nothing that is seen: the sign is one of its own.
  std::optional<CauseId> of_disease{};
};

/// An index over the words of a pack's signs; it looks into the pack, which must outlive it.
/// Immutable; one instance serves any number of threads.
class SignSearch {
 public:
  explicit SignSearch(Pack const& pack);

  /// What the words may mean, best first, ties in the order of the pack, a sign once for each of
  /// its values. First the same words, then everyday words (labels, `also said`) before those of a
  /// question, whole words before beginnings, beginnings before one spelling mistake (from four
  /// letters on, in a word that begins no word of the pack); while the last word is only begun,
  /// signs that begin with what was typed and those that bear on many causes; signs that an alarm
  /// asks for before others that fit alike. All that was typed must fit one phrase, or two thirds
  /// of three words or more; what fits only across phrases never stands first. Letter case, accents
  /// and apostrophes do not matter, small words ("the", "his") hardly. The patient's own signs
  /// (age, weight, ...) are not found.
  ///
  /// The name of a cause ("GDV") gives the signs that anyone sees and that speak most for it,
  /// unless a sign is said in the same words; none of them is exact.
  ///
  /// `asked` is the sign whose question is being read out: words for its values come first, and a
  /// step ("less") is told by its own name only there.
  [[nodiscard]] std::vector<FoundSign> find(std::string_view typed, std::size_t at_most,
                                            std::optional<SignId> asked = {}) const;

  /// What a whole sentence may mean of which no phrase says all ("started wheezing this morning"):
  /// signs of which an everyday phrase stands in it, or most of one, best first. Nothing of it is
  /// exact; it is to be asked.
  [[nodiscard]] std::vector<FoundSign> find_within(std::string_view sentence,
                                                   std::size_t at_most) const;

 private:
  struct Phrase {
    std::uint32_t sign = 0;
    std::optional<std::uint32_t> value;
    bool is_everyday = true;          ///< a label or words of people; not a question
    bool is_of_step = false;          ///< a step's own name: it means little without its question
    std::string_view text;            ///< as in the pack; a name as its label
    std::vector<std::uint32_t> told;  ///< of `words_`, without small ones, ascending, each once
    std::uint32_t first = 0;          ///< of them, as it is said
    bool says_no = false;
    bool is_of_self = false;  ///< "not himself": without its last word it tells nothing
  };
  enum class WordKind : unsigned char { telling, filler, no, small };
  struct TypedWord {
    WordKind kind{};
    double weight = 0;                  ///< how much it tells signs apart
    std::vector<double> fits;           ///< 0 to 1, for each of `words_`
    std::optional<std::uint32_t> same;  ///< of `words_`
    bool is_self = false;               ///< "himself"
  };
  struct Fitting;

  void index_diseases();
  [[nodiscard]] std::vector<FoundSign> signs_of_disease(std::string_view typed,
                                                        std::size_t at_most) const;
  [[nodiscard]] WordKind kind_of(std::string_view word) const;
  void add(Phrase phrase, std::string_view text);
  void add_values(std::uint32_t sign);
  void count_causes();
  [[nodiscard]] double rarity(std::size_t signs_with_it) const;
  [[nodiscard]] std::vector<TypedWord> weigh(std::vector<std::string> const& typed) const;
  [[nodiscard]] Fitting fit_to(Phrase const& phrase, std::vector<TypedWord> const& typed,
                               std::optional<SignId> asked) const;
  [[nodiscard]] double lead_of_begun(Phrase const& phrase,
                                     std::vector<TypedWord> const& typed) const;

  Pack const& pack_;
  std::vector<double> asked_about_;   ///< of each sign, 0 to 1: how many causes it bears on
  std::vector<bool> is_danger_;       ///< of each sign: an alarm asks for it
  std::vector<bool> may_calm_;        ///< of each sign: an `unless` asks for it
  std::vector<std::string> species_;  ///< the words for it: they tell nothing
  std::vector<std::string> words_;
  std::unordered_map<std::string, std::uint32_t> word_index_;
  std::vector<std::vector<std::uint32_t>> signs_of_word_;  ///< ascending, each once
  std::vector<Phrase> phrases_;                            ///< in the order of the signs
  std::unordered_map<std::string, CauseId> diseases_;      ///< by each of their names
};

/// The words of a text in small letters without accents or apostrophes: "Won't eat" is "wont",
/// "eat".
[[nodiscard]] std::vector<std::string> folded_words(std::string_view text);

}  // namespace flinch
