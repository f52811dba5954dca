#pragma once
// When to ring the caller back.
#include <ctime>
#include <optional>
#include <string>

#include "flinch/model/pack.hpp"
#include "flinch/telling/practice.hpp"

namespace flinch::cli {

/// The proposed time: a quarter of the time within which the tier wants the patient seen, so that a
/// patient that got worse, or never left home, is found out while there is time; to the next five
/// minutes, always before the tier's time is up. Of a tier that leaves more than an hour it falls
/// into the practice's hours, or between 8 in the morning and 8 in the evening where none are
/// known: before the quarter is over, though not before a third of it, else as soon as that is so
/// again, if the tier leaves so long. The quarter is a judgement.
[[nodiscard]] std::time_t ring_back_time(Tier const& tier, std::time_t now,
                                         Setting const& setting = {});

/// A time that was typed, with its day, and what is wrong with it; nothing for other words (see
/// `promised_time`).
struct AgreedTime {
  std::string text;     ///< "2026-11-25 15:40"
  std::string warning;  ///< it is past, or after the time that the urgency allows; empty: neither
};
[[nodiscard]] std::optional<AgreedTime> agreed_time(std::string const& typed, Tier const* tier,
                                                    std::time_t now);

}  // namespace flinch::cli
