#pragma once
// The urgency of a call in which more than one desk wrote.
#include <functional>
#include <optional>
#include <string>

#include "book/book.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

/// The name of the tier; empty for none.
[[nodiscard]] std::string name_of_tier(Pack const& pack, std::optional<TierId> tier);
/// Nothing where the pack has none of this name.
[[nodiscard]] std::optional<TierId> tier_of_name(Pack const& pack, std::string const& name);
/// Whether the call's tiers are this pack's: by the name of the pack that the book keeps, in an
/// older book by the species. Tiers of two packs may be called alike and mean something else.
[[nodiscard]] bool is_of_pack(CallLine const& call, Pack const& pack);

/// By its name, of what one desk tells (`own`) and what all said together give, the more urgent: a
/// desk that knows less must not lower what another one found. `together` is the call with all that
/// was said, and the tier that the book holds of it, which counts too where this pack does not know
/// all of it. A tier that this pack does not have gives way to its most urgent one alone.
[[nodiscard]] std::string urgency_of_all(Assessor& assessor, Pack const& pack,
                                         std::string const& own, CallLine const& together);

/// What a person must be told of a call that was taken in: where others wrote into it meanwhile,
/// its urgency, if that is another than this desk (`own`) or the book had told; else, if it is
/// lower than the book had told. Empty where there is nothing to tell.
[[nodiscard]] std::string told_otherwise(Pack const& pack, TakenInCall const& taken,
                                         std::string const& own);

}  // namespace flinch::cli
