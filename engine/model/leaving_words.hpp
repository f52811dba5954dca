#pragma once
// Words that send the patient somewhere, in texts of a pack: where the vet comes nobody is sent.
#include <string>
#include <string_view>

namespace flinch {

/// The first words of a text that send somebody somewhere, in small letters: "leave for", "on the
/// way"; empty where there are none. "Until the vet is on the way" sends nobody.
[[nodiscard]] std::string leaving_words(std::string_view text);

/// What a text tells to do where it told to leave if something happens.
inline constexpr std::string_view ring_at_once = "telephone again at once";

/// The text without what does nothing but send somebody somewhere: sentences, and parts of them
/// that a semicolon or a comma before "and" cuts off ("Leave at once; telephone on the way."). What
/// says more than that stays whole: nothing that helps is lost. Where it says when to leave ("if it
/// gets worse, leave at once"), it says to telephone again then.
[[nodiscard]] std::string without_leaving(std::string_view text);

}  // namespace flinch
