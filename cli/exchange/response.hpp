#pragma once
// A case as a QuestionnaireResponse to the pack's form.
#include "exchange/terms.hpp"

namespace flinch::cli {

/// Whether the free texts of a case (its name, the caller, the note) are sent too.
enum class Names : bool { withheld, sent };

/// Its `item`s: only what was answered, asked and not known, told unasked, and how it turned out.
[[nodiscard]] Json response_items(Pack const& pack, Case const& patient, Names names);

}  // namespace flinch::cli
