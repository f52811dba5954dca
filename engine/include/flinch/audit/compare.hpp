#pragma once
// Two packs over the same cases: which patients are seen later or sooner, which get another first
// cause, and what in the packs explains it.
#include <span>
#include <string>
#include <vector>

#include "flinch/audit/audit.hpp"

namespace flinch {

/// A case read for both packs: the same file, each pack's own ids.
struct CasePair {
  std::string name;
  Case before;
  Case after;
};

/// One difference between the packs that bears on a case.
struct Difference {
  enum class Kind : std::uint8_t {
    alarm,  ///< fires (1) in one pack, not (0) in the other
    rule,   ///< its counted weight for `cause`, in natural logarithms; 0 where it says nothing
    base,   ///< ln of the prior probability of `cause`; both packs list it
    harm    ///< threshold of the tier `name`; 0 where there is none
  };
  Kind kind{};
  std::string name;   ///< of the alarm, rule, cause or tier
  std::string title;  ///< its words, of the newer pack where it has it
  std::string cause;  ///< for `rule`: the name of the cause
  double before = 0;
  double after = 0;
  [[nodiscard]] double change() const { return after - before; }
};

/// One side of a comparison, in names, for the packs' ids differ.
struct Standing {
  std::string tier;   ///< empty when nothing can be said
  std::string first;  ///< the first cause; empty: none of the listed causes
  double first_probability = 0;
};

/// A case that came out otherwise.
struct Movement {
  std::string name;
  Standing before;
  Standing after;
  /// Steps towards less urgent by the time that the tiers allow; negative: more urgent.
  int steps_later = 0;
  bool is_under_triaged = false;  ///< after, by the tier that was really needed; false if not known
  bool is_needed_known = false;
  bool lost_true_cause = false;  ///< it stood first before, and no longer does
  std::vector<Difference> why;   ///< alarms first, then the largest change of counted weight first
};

struct Comparison {
  std::size_t cases = 0;
  std::size_t later = 0;  ///< given a less urgent tier than before
  std::size_t sooner = 0;
  std::size_t other_first = 0;
  /// Worst first: those seen later and too late; those seen later, the need unknown; those seen
  /// later and still soon enough; those whose true cause lost the first place; other first causes;
  /// those seen sooner. Among equals more steps first, then the order of the cases.
  std::vector<Movement> movements;
};

/// Causes, rules, alarms and tiers of the two packs are the same when their names are. Tiers are
/// ordered by `within`; a case without a tier counts as least urgent. `each` is called before every
/// case.
[[nodiscard]] Comparison compare(Tables const& before, Tables const& after,
                                 std::span<CasePair const> cases, EachCase const& each = {});

}  // namespace flinch
