#pragma once
// Why a cause stands where it does: the rules that counted, in words and in decibans.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// Weight of evidence in decibans: 10 log10 of the ratio whose natural logarithm is `nats`.
/// Source: Good IJ (1985) Weight of evidence: a brief survey. Bayesian Statistics 2:249-270.
[[nodiscard]] double decibans(double nats);

/// A weight in words: "barely for", "a little against", "clearly for", "strongly for", "very
/// strongly against"; "neither way" where it would show as 0.0 decibans. The limits, 1, 5, 10 and
/// 15 decibans, are a judgement.
[[nodiscard]] std::string weight_in_words(double nats);

struct Reason {
  RuleId rule{};
  Truth truth = Truth::unknown;
  std::uint32_t band = 0;
  double weight = 0;  ///< counted, in natural logarithms
  double share = 1;   ///< below 1 when an overlap took some of it away
};

/// The rules that counted for or against a cause, strongest first.
[[nodiscard]] std::vector<Reason> reasons(Assessment const& result, CauseId cause);

/// What was seen, in the words of the rule: "Dry retching", "not: Dry retching", "not mentioned:
/// Dry retching", "Age: over 7 years".
[[nodiscard]] std::string reason_text(Pack const& pack, Reason const& reason);

/// Its title; "None of the listed causes".
[[nodiscard]] std::string title_of(Pack const& pack, std::optional<CauseId> cause);

/// Its title with the clinical name behind it, unless the title says the same or there is none:
/// "Twisted stomach (gastric dilatation-volvulus)".
[[nodiscard]] std::string clinical_title(Pack const& pack, std::optional<CauseId> cause);

/// " (not pain)" to stand behind the title of a cause that only looks like pain, else nothing.
[[nodiscard]] std::string not_pain_mark(Pack const& pack, std::optional<CauseId> cause);

/// The family by which the rule speaks of the cause; none when it names the cause itself, or not.
[[nodiscard]] std::optional<FamilyId> family_of(Pack const& pack, RuleId rule, CauseId cause);

/// Its title; "Nothing told that says how soon".
[[nodiscard]] std::string title_of(Pack const& pack, std::optional<TierId> tier);

/// "no", "unknown" or "yes".
[[nodiscard]] std::string_view truth_text(Truth truth);

/// `part_without_whole` and the like, for programs.
[[nodiscard]] std::string_view kind_text(Contradiction::Kind kind);

/// Two answers that clash, by name: "Yes to \"drags its toes\", no to \"hind legs failing\", which
/// includes it."
[[nodiscard]] std::string contradiction_text(Pack const& pack, Contradiction const& contradiction);

/// An answer in lay words: "yes", "less than usual", "39.8 C", "found at left elbow".
[[nodiscard]] std::string answer_text(Pack const& pack, SignId sign, Answer const& answer);

/// What a sign was answered and where that comes from: "limping: yes", "shallow breaths: no
/// (follows from no to trouble breathing)", "vomiting: not known".
[[nodiscard]] std::string known_text(Pack const& pack, Assessment const& result, SignId sign);

/// The same without the sign: "no (follows from no to trouble breathing)", "not known".
[[nodiscard]] std::string said_text(Pack const& pack, Assessment const& result, SignId sign);

/// A supposed answer: "vomiting: yes", "vomiting: can't tell".
[[nodiscard]] std::string change_text(Pack const& pack, Change const& change);

/// "left elbow" in the site's own words.
[[nodiscard]] std::string site_text(Pack const& pack, SiteMark const& mark);

/// "10 years, 32.66 kg, Labrador Retriever, male, neutered": what is known of it; may be empty.
[[nodiscard]] std::string signalment_text(Pack const& pack, Assessment const& result);

/// Of a measure: "told where Sore hocks or Worn hips is at least 10 % likely"; empty where it is
/// for no cause.
[[nodiscard]] std::string told_where_text(Pack const& pack, Care const& care);

/// Of a measure: "C, expert opinion".
[[nodiscard]] std::string grade_words(char grade);

}  // namespace flinch
