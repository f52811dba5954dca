#pragma once
// The keys of a case that hold free text, in the order in which they are written.
#include <array>
#include <string_view>

#include "flinch/model/case.hpp"

namespace flinch {

struct FreeText {
  std::string_view key;
  std::string Case::*member = nullptr;
};

inline constexpr std::array<FreeText, 5> free_texts = {{
    {"name", &Case::name},
    {"caller", &Case::caller},
    {"call back", &Case::call_back},
    {"ring back at", &Case::ring_back_at},
    {"note", &Case::note},
}};

}  // namespace flinch
