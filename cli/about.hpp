#pragma once
// What the program says of itself.

namespace flinch::cli {

inline constexpr char const* about =
    "Pain triage for animals: signs in, urgency and ranked causes with reasons out.\n"
    "It supports people who decide; it does not diagnose. A licensed veterinarian decides.";

}  // namespace flinch::cli
