#pragma once
// One typed line as answers to several questions of a screen: the facts of the patient, or choices
// whose numbers run through.
//
//   read_facts(pack, {age, sex, breed, weight}, "8 years, male neutered, Labrador", context)
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/interview.hpp"

namespace flinch::cli {

struct JoinedReply {
  std::vector<std::pair<SignId, Answer>> answers;
  std::vector<SignId> cannot_tell;
  std::string remark;  ///< what was not understood; one line
  /// Of the breed, which the remark asks whether it was meant.
  std::optional<Answer> suggested{};
};

/// Parts of the line, at commas, semicolons and "and", each of which must be one fact alone; ages
/// and weights need their unit, since a bare number may be either. What no part tells is left out;
/// "?" and the like are can't tell to all.
[[nodiscard]] JoinedReply read_facts(Pack const& pack, std::vector<SignId> const& facts,
                                     std::string_view line, EntryContext const& context);

/// The numbers of the choices, which run through all of the questions, or their words parted by
/// commas. Nothing is taken of a line of which a part is not understood or that answers a question
/// twice.
[[nodiscard]] JoinedReply read_choices(Pack const& pack, std::vector<SignId> const& questions,
                                       std::string_view line);

}  // namespace flinch::cli
