#pragma once
// What is done and not done until the patient is seen, what is asked first, and when to ring again.
#include <string_view>

#include "care/care_page.hpp"

namespace flinch::cli {

/// Warnings that are known to apply, and the titles of those that may.
void write_not_to_do(CarePage const& on);

/// What may be done, and what the script had no room for.
void write_to_do(CarePage const& on);

/// The measures that wait for an answer, and the questions.
void write_ask_first(CarePage const& on);

/// The measures with one `advice`, each with the reasons behind it, under a heading.
void write_advised(CarePage const& on, Advice advice, std::string_view heading);

/// What means "ring again".
void write_ring_again(CarePage const& on);

}  // namespace flinch::cli
