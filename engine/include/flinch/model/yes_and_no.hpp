#pragma once
// Yes and no, however a sign is answered: a plain yes is found somewhere, a plain no found nowhere.
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// The answer says that the sign is there: yes, or found, be the place known or not. Never of a
/// step, a choice or a number.
[[nodiscard]] bool says_yes(Answer const& answer);

/// The answer says that the sign is not there: no, or found nowhere. Some places that are clear do
/// not: it may be elsewhere.
[[nodiscard]] bool says_no(Answer const& answer);

/// A yes, or a step beyond the first, which is the usual one. Of signs with such answers.
[[nodiscard]] bool is_there(Answer const& answer);

/// Yes, the place unknown, or no, in the form of the sign, whose answer is `yes or no` or `sites`.
[[nodiscard]] Answer plain_answer(Sign const& sign, bool yes);

}  // namespace flinch
