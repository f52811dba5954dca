#pragma once
// What was probably meant where the grammar expected something else: writings that people bring
// from elsewhere, each with the form that stands for it here.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "flinch/syntax/vocabulary.hpp"
#include "flinch/text/source.hpp"

namespace flinch::syntax {

/// A place where something else was expected.
struct Misfit {
  std::string_view text;      ///< of the whole file
  Span stretch;               ///< what one production had to cover
  std::uint32_t at = 0;       ///< where it stopped; the end of the stretch where more was expected
  std::string_view expected;  ///< in words
  Content content = Content::symbols;
  std::string_view form{};  ///< how the whole is written
  Holds holds = Holds::other;
};

struct Hint {
  std::string note;            ///< the remedy
  std::optional<Span> over{};  ///< what is wrong as a whole, where it is more than one token
  std::optional<std::string> instead{};  ///< what may be written over it
  char const* expected = nullptr;  ///< what was wanted there, where the grammar could not know
};

/// The remedy for what stands there, if it is known how that is meant.
[[nodiscard]] std::optional<Hint> writing_hint(Misfit const& misfit);

}  // namespace flinch::syntax
