#pragma once
// What the parts of a care page share: of whom and for whom it is written, and where.
#include <cstddef>
#include <string>
#include <string_view>

#include "flinch/telling/telling.hpp"
#include "look/page.hpp"

namespace flinch::cli {

struct CarePage {
  Pack const& pack;
  Assessment const& result;
  Telling const& told;
  std::string_view assess_command;  ///< that is named for what is open; empty: none
  Page& page;

  [[nodiscard]] Care const& care(PlannedMeasure const& measure) const {
    return pack.care[measure.care];
  }
  [[nodiscard]] bool is_keeper() const { return told.reader == Reader::keeper; }
  [[nodiscard]] bool vet_comes() const { return told.seen_at == SeenAt::home; }
  [[nodiscard]] bool is_clinician() const { return told.reader == Reader::clinician; }
  [[nodiscard]] bool is_top() const { return told.plan.tier == TierId{0}; }
};

}  // namespace flinch::cli
