#pragma once
// When to ring the caller back.
#include <ctime>
#include <optional>
#include <string>

#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// The proposed time: a quarter of the time within which the tier wants the patient seen, so that a
/// patient that got worse, or never left home, is found out while there is time. More than six
/// hours ahead it falls between 8 in the morning and 8 in the evening, by moving to the evening
/// before; to the next five minutes, always before the tier's time is up. The quarter is a
/// judgement.
[[nodiscard]] std::time_t ring_back_time(Tier const& tier, std::time_t now);

/// A time that was typed, with its day, and what is wrong with it; nothing for other words (see
/// `promised_time`).
struct AgreedTime {
  std::string text;     ///< "2026-11-25 15:40"
  std::string warning;  ///< it is past, or after the time that the urgency allows; empty: neither
};
[[nodiscard]] std::optional<AgreedTime> agreed_time(std::string const& typed, Tier const* tier,
                                                    std::time_t now);

}  // namespace flinch::cli
