#pragma once
// All that the pages tell of a patient, for programs: the object `telling` of
// docs/care.schema.json.
#include <nlohmann/json.hpp>

#include "flinch/assess/judgement.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/telling/telling.hpp"

namespace flinch::cli {

/// A question that is open, in the one form in which every document has it; `ask` in the words that
/// its reader is told.
[[nodiscard]] nlohmann::ordered_json open_question_json(Pack const& pack, OpenQuestion const& open,
                                                        std::string const& ask);
/// Answers that cannot both be so, and which of them counted.
[[nodiscard]] nlohmann::ordered_json contradictions_json(Pack const& pack,
                                                         Judgement const& judgement);

/// Measures, doses and the caution stand beside it in the output of `care`.
[[nodiscard]] nlohmann::ordered_json telling_json(Pack const& pack, Telling const& told);

}  // namespace flinch::cli
