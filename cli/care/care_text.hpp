#pragma once
// A plan of care for people to read.
#include <string>
#include <string_view>

#include "flinch/telling/telling.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// `assess_command` is named for what is open; empty: none is named.
[[nodiscard]] std::string care_text(Tables const& tables, Case const& patient,
                                    std::string_view assess_command, Assessment const& result,
                                    Telling const& told, Look const& look);

}  // namespace flinch::cli
