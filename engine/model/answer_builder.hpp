#pragma once
// Answers made from what was written, checked against the sign that they answer. Used by the
// examples of a pack and by the reader of case files, so that both accept the same.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

class AnswerBuilder {
 public:
  AnswerBuilder(Pack const& pack, Report& report) : pack_(pack), report_(report) {}

  /// Says nothing of unknown breeds: their table could not be read.
  void forgive_breeds() { forgives_breeds_ = true; }

  /// Shows answers as an example writes them, not as a case file does.
  void shows_examples() { shows_examples_ = true; }

  /// Says nothing of unknown words for a sex: those of the pack could not be read.
  void forgive_sexes() { forgives_sexes_ = true; }

  /// The sign of this name; unknown names are reported with the nearest.
  [[nodiscard]] std::optional<SignId> sign(std::string_view name, Place at);

  /// Yes or no: also of a sign by sites, found somewhere or nowhere.
  void yes_or_no(SignId sign, bool yes, Place at);
  void cannot_tell(SignId sign, Place at);
  /// As a case writes an answer: a word, an amount, `can't tell`.
  void written(SignId sign, std::string_view text, Place at);
  /// A step, choice, breed, or `yes` / `no`.
  void word(SignId sign, std::string_view word, Place at);
  /// A number with its unit as written.
  void amount(SignId sign, double value, std::string_view unit, Place at);
  /// `site` may be preceded by its side: `left elbow`.
  void found(SignId sign, std::string_view site, Place at);
  void clear(SignId sign, std::string_view site, Place at);

  /// Reports a patient that is neutered where the pack says that it, or one of its sex, never is.
  void refuse_never_neutered();

  /// The answers so far, one a sign, in the order of the signs.
  [[nodiscard]] Case take();

 private:
  [[nodiscard]] std::optional<std::string> meant_sex(std::string_view word) const;
  void explain_sex(Diagnostic& error, std::string_view word) const;
  void unlisted_value(SignId sign, std::string_view word, Place at);
  void unknown_breed(std::string_view word, Place at);
  void set(SignId sign, Answer answer, Place at);
  void sex(SexWord told, std::string_view word, Place at);
  void not_neutered(std::string_view word, std::string_view beside, Place at);
  [[nodiscard]] bool is_new(SignId sign, Place at);
  [[nodiscard]] Findings* findings(SignId sign, Place at);
  [[nodiscard]] std::optional<SiteMark> site(SignId sign, std::string_view text, Place at);

  Pack const& pack_;
  Report& report_;
  Case case_;
  bool shows_examples_ = false;
  bool forgives_breeds_ = false;
  bool forgives_sexes_ = false;
  std::unordered_map<std::uint32_t, Place> answered_;
  std::optional<std::string> neutered_by_word_;  // that told the sex
};

}  // namespace flinch
