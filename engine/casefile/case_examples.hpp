#pragma once
// Names of the pack, for messages that show how a case is written.
#include <string>

#include "flinch/model/pack.hpp"

namespace flinch {

/// "left forelimb": the first paired site on the left, else the first one; "SITE" where there is
/// none.
[[nodiscard]] std::string site_example(Pack const& pack);

/// The first sign of the pack that is answered yes or no; "SIGN" where there is none.
[[nodiscard]] std::string sign_example(Pack const& pack);

}  // namespace flinch
