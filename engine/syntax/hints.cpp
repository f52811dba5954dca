#include "syntax/hints.hpp"

#include "syntax/surroundings.hpp"

namespace flinch::syntax {

std::optional<Hint> writing_hint(Misfit const& misfit) {
  hints::Surroundings const around(misfit);
  if (around.rest.empty()) return hints::at_the_end(around);
  // The first that knows the slip: what is narrow stands before what is wide.
  for (auto* const look :
       {hints::neutered,  hints::quote,     hints::unseen,       hints::comment,
        hints::point,     hints::way,       hints::how_often,    hints::form,
        hints::taken,     hints::frequency, hints::yes_or_no,    hints::language_word,
        hints::elsewhere, hints::per,       hints::clause,       hints::range,
        hints::title,     hints::name,      hints::comparison,   hints::unit_mark,
        hints::mark,      hints::list,      hints::in_condition, hints::two_words})
    if (auto out = look(around)) return out;
  return std::nullopt;
}

}  // namespace flinch::syntax
