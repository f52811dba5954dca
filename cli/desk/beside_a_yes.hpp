#pragma once
// A degree that says none of what was told to be there.
#include <string>

#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

/// "Told before: vomiting: yes. ...", when the answer is the lowest step of a degree that applies
/// by what was found ("it did not vomit"): one of the two may be a slip. Empty otherwise. Of a
/// belly that is swollen and did not grow both can be so, so nothing is refused.
[[nodiscard]] std::string beside_a_yes(Tables const& tables, Assessment const& result, SignId sign,
                                       Answer const& answer);

/// The other way round: the yes is told when such a degree already says none ("no wound", then a
/// wound): "Told before: wound, which kind: none. ...". Empty otherwise.
[[nodiscard]] std::string beside_a_none(Tables const& tables, Assessment const& result, SignId sign,
                                        Answer const& answer);

}  // namespace flinch::cli
