#include "assess/evaluate.hpp"

namespace flinch {
namespace {

// Found inside the site: yes. The site, or one that covers it, checked and clear (on both sides
// when either would do): no. Otherwise nobody knows: a patient tender "at the front leg" may be so
// at the elbow.
Truth at_site(Tables const& tables, Findings const& findings, SiteMark const& mark) {
  for (auto const& found : findings.found)
    if (tables.covers(mark.site, found.site) && (mark.side == Side::any || mark.side == found.side))
      return Truth::yes;
  if (findings.clear_everywhere) return Truth::no;
  bool left_clear = false;
  bool right_clear = false;
  for (auto const& clear : findings.clear) {
    if (!tables.covers(clear.site, mark.site)) continue;
    left_clear = left_clear || clear.side != Side::right;
    right_clear = right_clear || clear.side != Side::left;
  }
  bool const is_clear = mark.side == Side::left    ? left_clear
                        : mark.side == Side::right ? right_clear
                                                   : left_clear && right_clear;
  return is_clear ? Truth::no : Truth::unknown;
}

}  // namespace

Truth leaf_truth(Tables const& tables, Tables::Leaf const& leaf, Answer const& answer) {
  switch (leaf.kind) {
    case Test::Kind::holds: {
      if (auto const* yes = std::get_if<bool>(&answer)) return truth(*yes);
      auto const& findings = std::get<Findings>(answer);
      if (findings.found_somewhere) return Truth::yes;
      return findings.clear_everywhere ? Truth::no : Truth::unknown;
    }
    case Test::Kind::at_site:
      return at_site(tables, std::get<Findings>(answer), leaf.mark);
    case Test::Kind::is_value:
    case Test::Kind::at_least:
      return truth((leaf.values >> std::get<Choice>(answer).index & 1U) != 0);
    case Test::Kind::in_range:
      return truth(lies_within(leaf, std::get<double>(answer)));
    case Test::Kind::in_group:
      return truth(tables.in_group(leaf.group, std::get<Choice>(answer).index));
  }
  return Truth::unknown;
}

Truth test_truth(Tables const& tables, Test const& test, Answer const& answer) {
  return leaf_truth(tables, Tables::leaf_of(test), answer);
}

}  // namespace flinch
