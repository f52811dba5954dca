#pragma once
// Why so soon, and what to do at once: what assessment and interview both say of a tier.
#include <cstdint>
#include <string_view>

#include "flinch/assess/assessment.hpp"
#include "flinch/care/plan.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// In brief leaves out the reasons, and first aid that suits any dog.
enum class Wording : std::uint8_t { in_full, in_brief };

/// The tier's marks and title, after `before` ("At least:", or nothing), and what it says to do.
/// `result.judgement.tier` must be set.
void write_tier(Pack const& pack, Assessment const& result, std::string_view before, Page& page);

/// Whether the causes that set the tier are named, when the ranking did.
enum class Causes : bool { left_out, named };

/// What set the tier: alarms and swallowed things, with what to do, and causes, in brief only when
/// no alarm did; then alarms and swallowed things of lesser urgency.
void write_findings(Pack const& pack, Assessment const& result, Wording wording, Causes causes,
                    Page& page);

/// An alarm that fired, and what to do.
void write_alarm(Alarm const& alarm, Wording wording, Page& page);

/// First aid that fits and is not barred, each with how it is done.
void write_first_aid(Pack const& pack, CarePlan const& plan, Wording wording, Page& page);

}  // namespace flinch::cli
