#pragma once
// One patient: what was answered, sign by sign. What is absent, or could not be told, is unknown.
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "flinch/model/condition.hpp"

namespace flinch {

/// Where a sign was found, and which sites were checked and are clear.
struct Findings {
  bool found_somewhere = false;
  bool clear_everywhere = false;
  std::vector<SiteMark> found;
  std::vector<SiteMark> clear;
  friend bool operator==(Findings const&, Findings const&) = default;
};

/// The index of a step, choice or breed.
struct Choice {
  std::uint32_t index = 0;
  friend bool operator==(Choice const&, Choice const&) = default;
};

/// Yes or no; a step, choice or breed; a number in the sign's unit; findings by site.
using Answer = std::variant<bool, Choice, double, Findings>;

enum class TierId : std::uint32_t {};
enum class CauseId : std::uint32_t {};

/// What the patient turned out to have and to need, once the case is closed.
struct CaseOutcome {
  bool is_cause_known = false;
  std::optional<CauseId> cause;  ///< where it is known: one of the pack's, or none of them
  std::optional<TierId> needed;  ///< how urgent it really was
  friend bool operator==(CaseOutcome const&, CaseOutcome const&) = default;
};

struct Case {
  std::string name;
  std::string caller;        ///< who telephoned
  std::string call_back;     ///< the number to ring them at
  std::string ring_back_at;  ///< when that was promised
  std::string note;
  /// At most one answer a sign, the patient's own signs (age, weight, ...) included; any order.
  std::vector<std::pair<SignId, Answer>> answers;
  /// Asked, and nobody could tell: unknown, and not asked again.
  std::vector<SignId> cannot_tell;
  std::optional<CaseOutcome> outcome{};  ///< of a closed case
  /// The complaint: the signs that were told unasked, in the order in which they were. Each is
  /// answered, and told (see `Tables::is_told`).
  std::vector<SignId> came_for{};
  friend bool operator==(Case const&, Case const&) = default;
};

/// A supposed answer in the place of what the case holds; without one, nobody could tell.
struct Change {
  SignId sign{};
  std::optional<Answer> answer;
  friend bool operator==(Change const&, Change const&) = default;
};

}  // namespace flinch
