#pragma once
// The words of an interview: questions, why they are asked, how to check.
#include <functional>
#include <string>
#include <string_view>

#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"
#include "look/page.hpp"

namespace flinch::cli {

inline constexpr std::string_view short_caution_text =
    "Flinch does not diagnose; a licensed veterinarian and local rules decide.";

/// Whether the screen is a list of things that are there or not, answered by numbers.
[[nodiscard]] bool is_list(Pack const& pack, Screen const& screen);
/// Whether it asks for several facts of the patient, sex and neutered alone left aside.
[[nodiscard]] bool is_of_facts(Screen const& screen);

/// What stands beside questions when somebody is rung back.
struct BesideQuestions {
  std::string heading{};                    ///< of a list of what it had then; empty: the usual one
  std::function<std::string(SignId)> then;  ///< "was: yes"; empty where nothing was answered then

  [[nodiscard]] std::string of(SignId sign) const { return then ? then(sign) : ""; }
};

/// The question, with what may be typed.
[[nodiscard]] std::string question_text(Pack const& pack, Screen const& screen, Look const& look,
                                        BesideQuestions const& beside = {});

[[nodiscard]] std::string why_text(Pack const& pack, Screen const& screen, Look const& look,
                                   BesideQuestions const& beside = {});
[[nodiscard]] std::string how_text(Pack const& pack, Screen const& screen, Look const& look);

/// Numbered places of one side, for a sign by sites.
[[nodiscard]] std::string walk_text(Pack const& pack, SignId sign, Side side, Look const& look);

}  // namespace flinch::cli
