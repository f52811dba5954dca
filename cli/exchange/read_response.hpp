#pragma once
// A QuestionnaireResponse, alone or in a Bundle, as a case.
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch::cli {

/// Bytes of a document that are read, some thirty times those of an ordinary Bundle.
inline constexpr std::size_t largest_document = std::size_t{4} << 20U;

/// The case that the response in this JSON text tells of, or every reason why it cannot be taken as
/// it stands: items that the form does not have, answers of another type, units that do not fit,
/// amounts that cannot be believed, another species. What stands beside the answers and is not
/// taken over is warned of. Nothing is guessed.
[[nodiscard]] Outcome<Case> read_response(SourceSet const& sources, FileId file, Pack const& pack);

}  // namespace flinch::cli
