#pragma once
// What a patient has had already, and what may go by mouth.
#include "care/care_page.hpp"

namespace flinch::cli {

/// Each substance swallowed, with the levels that it reaches, and what is still to be asked of it.
void write_swallowed_already(CarePage const& on);

/// Whether food, water and medicines may go by mouth, and why not.
void write_mouth(CarePage const& on);

}  // namespace flinch::cli
