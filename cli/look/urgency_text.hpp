#pragma once
// How urgent, why, and what to do at once, as every text page draws them.
#include <cstdint>
#include <string_view>

#include "flinch/telling/telling.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// In brief leaves out why a reason is urgent, and likelihood where something else sets the tier.
enum class Wording : std::uint8_t { in_full, in_brief };

/// The tier's marks and title, after `before` ("At least:", or nothing), and what to do about it.
void write_tier(Pack const& pack, ToldUrgency const& urgency, std::string_view before, Page& page);

/// Whether the causes that set the tier are named, when the ranking did.
enum class Causes : bool { left_out, named };

/// What set the tier, then what asks for a lesser one.
void write_reasons(ToldUrgency const& urgency, Wording wording, Causes causes, Page& page);

/// What to do at once, in order, and what of food and water goes on.
void write_script(Telling const& told, Page& page);

}  // namespace flinch::cli
