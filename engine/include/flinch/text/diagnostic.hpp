#pragma once
// What is wrong with a text, where, and what would fit instead.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/text/source.hpp"

namespace flinch {

/// Every kind of mistake that can be reported; `diagnostic_codes.def` lists them.
enum class Code {
#define FLINCH_CODE(name, text) name,
#define FLINCH_WARNING(name, text) name,
#include "flinch/text/diagnostic_codes.def"
#undef FLINCH_WARNING
#undef FLINCH_CODE
};

/// The code as printed, such as `unknown-name`.
[[nodiscard]] std::string_view code_text(Code code);

/// The warnings that a pack may accept, in the order of `diagnostic_codes.def`.
[[nodiscard]] std::vector<Code> const& acceptable_warnings();

enum class Severity { warning, error };

/// A remark below a diagnostic; without a place it is only words.
struct Note {
  std::string message;
  std::optional<Place> at;
};

struct Diagnostic {
  Code code{};
  Severity severity = Severity::error;
  Place at;
  std::string message;
  std::vector<Note> notes;
  /// What may be meant in the place of what is underlined: an editor offers to write it there.
  std::optional<std::string> instead{};

  /// Notes "did you mean `name`?", with the place where that is defined, and offers to write it.
  void did_you_mean(std::string_view name, std::optional<Place> defined_at = std::nullopt);
};

/// Diagnostics being gathered, most of them while something is still half read.
class Report {
 public:
  /// Adds an error and returns it, so that notes can be hung on.
  Diagnostic& error(Code code, Place at, std::string message);
  /// Adds a warning and returns it.
  Diagnostic& warning(Code code, Place at, std::string message);
  /// The error that was reported there, to say more of it; null where none was. Valid until the
  /// next is added.
  [[nodiscard]] Diagnostic* find(Code code, Place at);
  [[nodiscard]] bool has_errors() const { return errors_ > 0; }
  [[nodiscard]] std::size_t error_count() const { return errors_; }
  /// Everything so far, ordered by file and place.
  [[nodiscard]] std::vector<Diagnostic> take();

 private:
  std::vector<Diagnostic> diagnostics_;
  std::size_t errors_ = 0;
};

/// A value, or the reasons why there is none; warnings ride along with a value.
template <class T>
struct [[nodiscard]] Outcome {
  std::optional<T> value;
  std::vector<Diagnostic> diagnostics;
  explicit operator bool() const { return value.has_value(); }
};

/// Diagnostics for people: place, message and code, the line with a caret, notes. At most
/// `shown_at_most` are printed, then a count of the rest.
[[nodiscard]] std::string render(std::vector<Diagnostic> const& diagnostics,
                                 SourceSet const& sources, std::size_t shown_at_most = 200);

}  // namespace flinch
