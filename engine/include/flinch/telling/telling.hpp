#pragma once
// What is told of a patient, decided once: every page, screen and note draws from this.
//
//   Telling told = tell(tables, assessor.assess(patient), Reader::keeper);
//   for (auto const& line : told.script.lines) ...
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "flinch/assess/open_questions.hpp"
#include "flinch/care/plan.hpp"
#include "flinch/telling/care_words.hpp"
#include "flinch/telling/caution.hpp"
#include "flinch/telling/practice.hpp"
#include "flinch/telling/script.hpp"

namespace flinch {

/// What makes it so urgent: a danger sign, what was swallowed, or causes that are likely enough.
enum class UrgentBy : std::uint8_t { alarm, taken, likelihood };

struct UrgencyReason {
  UrgentBy by{};
  bool sets_tier = false;  ///< the others ask for a lesser tier
  std::string what;        ///< one sentence
  std::string because;     ///< why that is urgent; may be empty
};

struct ToldUrgency {
  std::optional<TierId> tier;
  std::string title;  ///< "See a vet now"
  std::string say;    ///< what to do about it
  std::vector<UrgencyReason> reasons;
  bool is_by_likelihood = false;  ///< no alarm asks for this tier
  /// What would ask for more, but for what is known; one sentence each.
  std::vector<std::string> held_back;
  /// A higher tier that open answers could still lead to.
  std::optional<TierId> could_be;
};

/// A title, and what is said of it.
struct ToldItem {
  std::string title;
  std::string text;
};

/// What not to do.
struct ToldWarning {
  std::string title;
  std::string text;
  std::string because;
  std::string but_ask;  ///< why a vet may say otherwise; may be empty
};

/// A question that is open and could raise the tier.
struct ToldQuestion {
  OpenQuestion open;
  std::string ask;       ///< as a question
  std::string who_else;  ///< "at the clinic", "by the vet", "by hands on the patient", "could not
                         ///< be told"; else empty
};

struct Telling {
  Reader reader = Reader::keeper;
  SeenAt seen_at = SeenAt::clinic;
  CarePlan plan;
  ToldUrgency urgency;
  Script script;
  ToldMouth mouth;
  /// Titles of what fits and may be done at home only once a bar is cleared or a vet has been
  /// asked, first aid first; never to be told as what to do. What goes by mouth is told in `mouth`.
  std::vector<std::string> ask_us_first;
  std::vector<ToldWarning> do_not;  ///< warnings that apply
  std::string may_not;              ///< warnings that may apply, in one sentence; may be empty
  /// This patient's own dangers first. A keeper is told only what a keeper can find out.
  std::vector<ToldQuestion> open;
  std::string open_count;            ///< "84 open: 71 anyone can tell, ..."
  std::vector<std::string> clashes;  ///< answers that contradict each other, and which counted
  std::vector<ToldItem> ring_again;  ///< what means "ring again"
  std::string look_again;            ///< when to look again
  std::vector<std::string> next;     ///< what to examine or test, of the first causes, each once
};

/// "Ask us first, before any of these: ...": four at most, and how many more; empty without any.
[[nodiscard]] std::string ask_us_first_words(Telling const& told);

[[nodiscard]] Telling tell(Tables const& tables, Assessment const& result, Reader reader,
                           Setting const& setting = {});

}  // namespace flinch
