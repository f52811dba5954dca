#pragma once
// What a key is: a letter, a digit, an arrow.
#include <string>

#include "call/call_model.hpp"

namespace flinch::cli {

/// A letter of any script.
[[nodiscard]] inline bool is_letter(std::string const& text) {
  auto const c = text.empty() ? '\0' : text[0];
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (static_cast<unsigned char>(c) >= 0x80);
}

/// 1 to 9 for such a digit, otherwise 0.
[[nodiscard]] inline std::size_t digit(Key const& key) {
  if (key.kind != Key::Kind::text || key.text.size() != 1) return 0;
  return key.text[0] >= '1' && key.text[0] <= '9' ? static_cast<std::size_t>(key.text[0] - '0') : 0;
}

inline void move(std::size_t& place, Key const& key, std::size_t count) {
  if (key.kind == Key::Kind::up && place > 0) --place;
  if (key.kind == Key::Kind::down && place + 1 < count) ++place;
}

}  // namespace flinch::cli
