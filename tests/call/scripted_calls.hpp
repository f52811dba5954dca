#pragma once
// Ten calls of invented dogs and callers, taken by a nurse who does as the screen says.
#include <optional>
#include <string>
#include <vector>

#include "call/call_model.hpp"

namespace flinch::test {

struct ScriptedCall {
  std::string title;
  /// What the caller says unasked, and the sign that it means.
  struct Said {
    std::string words;
    std::string sign;
  };
  std::vector<Said> said;
  /// The answers, as in a case file, to whatever is asked; all else is no, or the first of a
  /// choice.
  std::string answers;
};
[[nodiscard]] std::vector<ScriptedCall> const& scripted_calls();

/// How the nurse works.
enum class Desk : unsigned char {
  one_by_one,  ///< yes, no or ? to every question in turn
  lists,       ///< 0 or a digit to a whole list
  search       ///< first what the caller says, found by a few letters; then the lists
};

/// Until something was reached.
struct Effort {
  std::size_t keys = 0;
  std::size_t screens = 0;  ///< lists or questions read out, searches included
};
struct Taken {
  TierId tier{};  ///< of all answers together
  std::optional<Effort> to_tier;
  /// To that tier with no single open answer that could raise it.
  std::optional<Effort> to_safe;
};
[[nodiscard]] Taken take_call(Tables const& tables, ScriptedCall const& script, Desk desk);

/// A call about a dog whose answers are known; all else is no. What it came for is searched first,
/// each by the words of its label, in as few letters as bring it among the first three.
[[nodiscard]] Taken take_call(Tables const& tables, Case const& patient);

/// The table of docs/call.md.
[[nodiscard]] std::string effort_table(Tables const& tables);

}  // namespace flinch::test
