#pragma once
// The next question, given what is known: what could still raise the tier first, then what tells
// most about the causes for the least effort.
//
//   Interview interview(tables, Reader::keeper);
//   Outlook outlook = interview.next(assessor.assess(patient));
//   if (outlook.screen) show(*outlook.screen);   // until outlook.is_enough
//
// An `Interview` holds scratch memory: one a thread, over shared tables.
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/interview/gain.hpp"
#include "flinch/model/reader.hpp"

namespace flinch {

/// Whether a reader who is asked can answer a sign that is `seen by` so.
[[nodiscard]] bool can_see(Reader reader, SeenBy seen_by);

/// One question, and why it is worth asking.
struct Question {
  SignId sign{};
  double bits = 0;                        ///< expected information about the causes
  std::optional<RuleId> rule;             ///< that these bits come from
  std::optional<TierId> could_reach;      ///< the highest tier that hangs on it
  std::vector<AlarmId> alarms;            ///< those that would ask for a higher tier and hang on it
  std::vector<std::size_t> taken{};       ///< indices of care: what may have been taken, the same
  std::optional<TierId> alone_reaches{};  ///< the highest that its answer alone could bring about
  /// Asked after those that alone could raise the tier: it cannot, or it is a part of what could
  /// not be told (who cannot say whether the patient vomits can seldom say what is in it).
  bool waits = true;
};

/// What to ask at once.
struct Screen {
  enum class Kind : std::uint8_t {
    patient,  ///< a fact of the patient itself: age, weight, breed, or sex and neutered together
    place,    ///< where something is that was found, alone: something hangs on its place
    danger,   ///< what could raise the tier: "any of these right now?"
    system,   ///< broad questions, one a system of the body, a no to which settles many dangers
    telling   ///< what tells most about the causes for its effort
  };
  Kind kind{};
  /// One question; or several to be answered together: of signs that are there or not (yes or no,
  /// or found somewhere), `lines_at_most`, those that matter most first; or facts of the
  /// patient.
  std::vector<Question> questions;
};

struct Outlook {
  /// The best screen; none when this reader can be asked nothing more.
  std::optional<Screen> screen;
  /// Questions of this reader that could still raise the tier, places among them.
  std::size_t danger_left = 0;
  /// Others that tell at least `InterviewLimits::least_bits`, or which and how much was swallowed.
  std::size_t telling_left = 0;
  std::size_t patient_left = 0;  ///< facts of the patient not asked yet
  std::size_t place_left = 0;    ///< places of what was found, that tell, but cannot raise the tier
  /// Screens that `danger_left` fills as things stand. A yes, or what cannot be told, may open
  /// more.
  std::size_t danger_screens = 0;
  /// The highest tier above the present one that a single answer of this reader could still
  /// bring about, and the highest that several together could.
  std::optional<TierId> one_answer_reaches, several_answers_reach;
  /// What is not set aside cannot make an alarm, or something taken, raise the tier when this
  /// reader answers it, and tells less than `least_bits` about the causes.
  bool is_enough = false;
  /// `screen` is one of those that open an interview; the patient is not known well enough to name
  /// causes.
  bool is_opening = false;
  [[nodiscard]] std::size_t worth_asking() const {
    return danger_left + telling_left + patient_left + place_left;
  }
};

/// The assessment with the tier that may be told: while sex or age decide what can be and were
/// neither told, nor asked in vain, nor `set_aside`, that of the alarms alone, since no tier rests
/// on likelihood before.
[[nodiscard]] Assessment as_told(Tables const& tables, Assessment const& result,
                                 std::span<SignId const> set_aside = {});

/// Judgements, tried on the examples of the shipped pack: docs/interview.md.
struct InterviewLimits {
  std::size_t lines_at_most = 8;  ///< of a screen: what one can take in at a glance
  /// A question worth fewer bits about the causes would hardly change the ranking. At 0.01 bits an
  /// example of the shipped pack still ended with another tier than its whole file has.
  double least_bits = 0.002;
  /// A question worth so many is asked alone, and before danger questions whose answer would not
  /// raise the tier by itself; weaker ones share a screen.
  double alone_bits = 0.2;
  /// All facts of the patient on one screen, where one line can tell them, or one after the other.
  bool are_facts_joined = false;
  /// Since when it is so comes right behind the complaint; else with what tells causes apart.
  bool is_since_asked_first = true;
};

/// Of an interview by typed lines.
[[nodiscard]] constexpr InterviewLimits limits_of_lines() {
  InterviewLimits out;
  out.are_facts_joined = true;
  return out;
}

/// How soon it must be seen at the latest for the tier to count as pressing, a judgement: what
/// reaches a lower one can wait for its turn.
inline constexpr double pressing_s = 24.0 * 3600;

/// What was found of the patient's trouble by which the degree applies: it makes sense only with
/// that. None where it applies by nothing found.
[[nodiscard]] std::optional<SignId> found_for_degree(Tables const& tables, Assessment const& result,
                                                     SignId degree);

class Interview {
 public:
  Interview(Tables const& tables, Reader reader, InterviewLimits limits = {});

  /// What to ask next. With `came_for`, the complaint (empty where there is none to be had), the
  /// interview opens with: where each thing is that it came for; since when; what was swallowed,
  /// and how much; the dangers that are `asked first`, and of what goes with what was found, by
  /// whatever question, that which alone reaches the highest tier; how bad it is; the parts of a
  /// whole, and what else goes with it, because it is a part of the same whole or because one alarm
  /// asks for both (three lists of all at most, the rest later), and for each list one choice that
  /// an alarm asks for with it; broad questions, one a system; age, sex and breed; what else is
  /// `asked first`; the weight. A list that is not full is filled up with what would come next.
  /// Then, and without `came_for` at once, in this order: whether a weight is right that can hardly
  /// be; the patient's age and sex; the place of what was found somewhere, where it could raise the
  /// tier; what was swallowed, and how much; danger questions that alone could make an alarm raise
  /// the tier, by the tier that they reach so, the screen filled up with such of lower tiers
  /// (single choices, and what can wait for days, behind what is there or not and tells as much
  /// about the causes as what is asked alone, be it a list or one question); what would hold back
  /// an alarm that set the tier (`unless`); weight and breed; other places on which something
  /// hangs; the most telling question; all other danger questions; what tells little.
  ///
  /// What is known, could not be told, cannot apply or cannot be seen by the reader is left out,
  /// and so are the signs `set_aside` (skipped for now, or found where nobody can tell). A whole is
  /// asked before its parts, and what decides whether a sign applies before the sign. A sign by
  /// sites is not asked again once some sites are known.
  [[nodiscard]] Outlook next(Assessment const& assessed, std::span<SignId const> set_aside = {},
                             std::optional<std::span<SignId const>> came_for = {});

  /// Seconds of work and bother that the answer costs: its `takes`, and judged extra time for
  /// reading the question, for hands or equipment, and for checks that may hurt.
  [[nodiscard]] double effort_s(SignId sign) const;

 private:
  [[nodiscard]] bool may_ask(SignId sign) const { return !closed_[index(sign)]; }
  [[nodiscard]] bool is_there_or_not(SignId sign) const;
  void close_signs(Assessment const& result, std::span<SignId const> set_aside);
  [[nodiscard]] std::vector<Question> place_questions(Assessment const& result,
                                                      std::span<SignId const> set_aside) const;
  void count_danger(Outlook& outlook, std::vector<Question> const& questions) const;
  [[nodiscard]] SignId first_to_ask(SignId sign, Assessment const& result) const;
  [[nodiscard]] std::optional<SignId> open_condition(SignId sign, Assessment const& result) const;
  [[nodiscard]] std::vector<Question> substance_questions(Assessment const& result);
  [[nodiscard]] std::vector<Question> amount_questions(Assessment const& result) const;
  [[nodiscard]] std::vector<Question> calming_questions(Assessment const& result) const;
  [[nodiscard]] std::vector<Question> patient_facts(Assessment const& result) const;
  [[nodiscard]] std::vector<Question> danger_questions(Assessment const& result);
  void add_danger(OpenQuestion const& open, Assessment const& result,
                  std::vector<Question>& questions);
  [[nodiscard]] std::vector<Question> telling_questions(Assessment const& result);
  void count(Outlook& outlook, std::vector<Question> const& telling) const;
  /// All that could be asked, by kind.
  struct Open {
    std::vector<Question> patient, places, danger, substances, amounts, calming, telling;
    bool is_raised_by_place = false;
  };
  [[nodiscard]] std::optional<Screen> opening_screen(Assessment const& result,
                                                     std::span<SignId const> set_aside,
                                                     std::span<SignId const> came_for,
                                                     Open const& open) const;
  [[nodiscard]] std::vector<Question> going_with(std::span<SignId const> found,
                                                 std::vector<Question> const& danger) const;
  [[nodiscard]] bool is_asked_with(Question const& question, std::span<SignId const> found) const;
  [[nodiscard]] std::vector<Question> parts_of_found(std::span<SignId const> found,
                                                     std::vector<Question> const& danger) const;
  [[nodiscard]] std::optional<SignId> first_choice(Assessment const& result) const;
  /// How a choice is tied to what was found: it makes sense only with that, or an alarm asks for
  /// both.
  enum class Link : std::uint8_t { hangs_on, asked_with };
  [[nodiscard]] std::optional<SignId> choice_of(Assessment const& result,
                                                std::span<SignId const> found,
                                                std::vector<Question> const& danger,
                                                Link link) const;
  [[nodiscard]] std::vector<Question> opening_dangers(std::span<SignId const> found,
                                                      std::vector<Question> const& danger) const;
  void put_fitting_first(std::vector<Question>& danger) const;
  [[nodiscard]] std::vector<Question> systems(std::vector<Question> const& danger) const;
  [[nodiscard]] std::optional<Screen> usual_screen(Assessment const& result,
                                                   Open const& open) const;
  [[nodiscard]] SignId outermost(SignId sign) const;
  [[nodiscard]] bool is_system(SignId sign) const;
  [[nodiscard]] Screen patient_screen(std::vector<Question> const& facts) const;
  [[nodiscard]] bool is_pressing_list(Screen const& danger) const;
  [[nodiscard]] Screen danger_screen(std::vector<Question> const& questions) const;
  [[nodiscard]] Screen telling_screen(std::vector<Question> const& questions,
                                      Assessment const& result) const;

  Tables const& tables_;
  Reader reader_;
  InterviewLimits limits_;
  Gains gains_;
  std::vector<std::size_t> parts_inside_;  ///< of each sign: those that the reader can see
  std::vector<bool> closed_;        ///< signs known, not to be told, set aside or not to be seen
  std::vector<OpenQuestion> open_;  ///< what could raise the tier, of any reader
  std::vector<std::int32_t> danger_at_;  ///< place of a sign in the danger questions, or -1
  std::vector<Gain> best_;  ///< of each sign: what asking it, its parts included, tells
};

}  // namespace flinch
