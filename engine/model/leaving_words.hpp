#pragma once
// Words that send the patient somewhere, in texts of a pack: where the vet comes nobody is sent.
#include <string>
#include <string_view>

namespace flinch {

/// The first words of a text that send somebody somewhere, in small letters: "leave for", "on the
/// way"; empty where there are none. "Until the vet is on the way" sends nobody.
[[nodiscard]] std::string leaving_words(std::string_view text);

/// The text without the sentences, and the parts of a sentence before or behind a semicolon, that
/// do nothing but send somebody somewhere ("Leave at once; telephone on the way."). What says more
/// than that stays whole: nothing that helps is lost.
[[nodiscard]] std::string without_leaving(std::string_view text);

}  // namespace flinch
