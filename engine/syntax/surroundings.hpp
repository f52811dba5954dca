#pragma once
// A place where something else was expected, with what stands around it, and the looks at it: each
// knows one kind of slip.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "syntax/hints.hpp"

namespace flinch::syntax::hints {

struct Surroundings {
  explicit Surroundings(Misfit const& misfit);

  [[nodiscard]] bool expects(std::string_view words) const;
  [[nodiscard]] bool expects_end() const;
  [[nodiscard]] bool expects_name() const;
  [[nodiscard]] bool expects_frequency() const;

  /// The next bytes from the place on, as many as there are.
  [[nodiscard]] Span span(std::size_t length) const;
  [[nodiscard]] Hint over(std::size_t length, std::string note,
                          std::optional<std::string> instead) const;

  /// The digits that end at `end`, with a point in them or not.
  [[nodiscard]] std::string_view number_ending(std::uint32_t end) const;
  /// The digits before the place, blanks between or not.
  [[nodiscard]] std::string_view number_before() const;

  Misfit const& misfit;
  std::string_view rest;           ///< from the place to the end of the stretch, no blanks behind
  std::string_view token{};        ///< the word that stands there
  std::string_view word_before{};  ///< the word behind which it stands
  std::uint32_t before_word = 0;   ///< where that begins
  char last = '\0';                ///< the last character before it that is no blank
  bool is_close = false;           ///< no blank between
  bool is_same_line = false;       ///< no line break between
};

template <std::size_t n>
[[nodiscard]] std::size_t length_of_any(std::string_view text,
                                        std::array<std::string_view, n> const& of) {
  for (auto const one : of)
    if (text.starts_with(one)) return one.size();
  return 0;
}
[[nodiscard]] bool holds_letter(std::string_view text);
[[nodiscard]] std::string_view number_beginning(std::string_view text);
[[nodiscard]] double value(std::string_view digits);
[[nodiscard]] std::string_view after_blanks(std::string_view text);

// Each gives the remedy where the slip is of its kind. All but `at_the_end` need something in
// `rest`.
using Look = std::optional<Hint>(Surroundings const&);
// hints_names.cpp
Look quote;          ///< curly and single quotes
Look unseen;         ///< characters that cannot be seen
Look comment;        ///< comments of other languages
Look language_word;  ///< `AND`, `Not`
Look title;          ///< `rule rolling Rolling or kicking`
Look name;           ///< capitals, hyphens, foreign letters, words of the language
Look mark;           ///< marks that other ways of writing have
Look neutered;       ///< other words for the neutered
Look list;           ///< what joins the parts of a list
Look two_words;      ///< `sign tail bob`, `cite smith 2003`
// hints_figures.cpp
Look at_the_end;  ///< a figure or a source that is missing at the end
Look point;       ///< `0,5`, `.5`, `1/2`
Look frequency;   ///< one figure is wanted: no range, no bound, no word
Look elsewhere;   ///< how a dose is written elsewhere
Look per;         ///< a slash after a unit
Look range;       ///< `0.6-1 mg`
Look unit_mark;   ///< `°C`, `µg`
// hints_doses.cpp
Look way;        ///< `over the back`, `pour-on`, `in the ear`
Look how_often;  ///< `once a week`, `every other day`
Look form;       ///< `drench 5%`, `syrup`, `in 1 mL`
Look taken;      ///< amounts and conditions where a sign is named; parts of a `level`
// hints_clauses.cpp
Look clause;     ///< clauses whose parts have an order or a kind of their own
Look yes_or_no;  ///< kinds of answers
// hints_conditions.cpp
Look comparison;    ///< `≥`, `!=`, `&&`
Look in_condition;  ///< words that join or test in other ways

}  // namespace flinch::syntax::hints
