#pragma once
// The words that statements and clauses begin with, for what looks at rule files without reading
// their meaning: the layout, editors.
#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "flinch/syntax/names.hpp"

namespace flinch::syntax {

/// What stands behind the words of a clause, as far as its look is concerned.
enum class Content {
  symbols,    ///< names, numbers, texts and marks, with blanks where one likes
  condition,  ///< the same, joined by `and` and `or`
  reference   ///< one run of characters up to the next blank: an address, a grade; maybe a text
};

/// What a clause, or the first line of a statement, holds: what an editor can offer for it, and
/// which slips are made in it.
enum class Holds : std::uint8_t {
  other,      ///< a text, a number, or nothing
  names,      ///< one name or several
  yes_or_no,  ///< names of signs, which have no places here
  meaning,    ///< a name and its condition
  condition,
  frequency,
  sourced_number,
  range,
  called,
  never_neutered,
  sizes,
  read_as,
  seen_by,
  seen_at,
  answer,
  floor,
  over,
  in_cause,
  dose,
  form,
  level,
  settings,
  patient_facts,
  finding,
  promises
};

/// Stands among the clauses of an example for the line that begins with the pack's species and goes
/// on with a fact: `rabbit age 2 years`.
inline constexpr std::string_view species_line = "SPECIES";

/// What an example and a case tell of the patient itself, in the order in which it is shown.
inline constexpr std::array<std::string_view, 6> patient_facts = {"age", "weight",   "breed",
                                                                  "sex", "neutered", "size"};

struct ClauseWords {
  std::string_view phrase;  ///< one word or several, such as `never if`, or `species_line`
  Content content = Content::symbols;
  std::string_view form{};  ///< how it is written as a whole, such as `usual 5%`
  Holds holds = Holds::other;
  std::string_view grammar{};  ///< what follows the words, as the EBNF of the language says it
  std::optional<NameKind> refers{};  ///< what its names stand for, where it holds names of one kind
};

struct StatementWords {
  std::string_view keyword;
  Content content = Content::symbols;  ///< of what follows the keyword
  std::vector<ClauseWords> clauses;    ///< none for a statement without clauses
};

/// Every kind of statement, in the order of docs/language_reference.md.
[[nodiscard]] std::vector<StatementWords> const& statement_words();

/// The kind that begins with this word, or null.
[[nodiscard]] StatementWords const* find_statement_words(std::string_view keyword);

}  // namespace flinch::syntax
