#include "flinch/model/yes_and_no.hpp"

namespace flinch {

bool says_yes(Answer const& answer) {
  if (auto const* yes = std::get_if<bool>(&answer)) return *yes;
  auto const* findings = std::get_if<Findings>(&answer);
  return findings != nullptr && findings->found_somewhere;
}

bool says_no(Answer const& answer) {
  if (auto const* yes = std::get_if<bool>(&answer)) return !*yes;
  auto const* findings = std::get_if<Findings>(&answer);
  return findings != nullptr && !findings->found_somewhere && findings->clear_everywhere;
}

bool is_there(Answer const& answer) {
  auto const* step = std::get_if<Choice>(&answer);
  return step != nullptr ? step->index > 0 : says_yes(answer);
}

Answer plain_answer(Sign const& sign, bool yes) {
  if (traits(sign).has_places) return Findings{yes, !yes, {}, {}};
  return yes;
}

}  // namespace flinch
