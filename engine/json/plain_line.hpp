#pragma once
// The quick way through an ordinary line: one JSON object of texts, `true` and `false`, in maps and
// lists, as a row of tokens without places. Whatever else a line holds is left to `LineParser`,
// which says what is wrong with it.
#include <cstdint>
#include <memory>
#include <span>
#include <string_view>

namespace flinch::json {

/// In a map keys and values take turns; a map or list lasts until its `close`.
struct Token {
  enum class Kind : std::uint8_t { text, yes, no, map, list, close };
  Kind kind{};
  std::string_view text;
};

/// Keeps its memory from one line to the next. One a thread.
class PlainLineParser {
 public:
  PlainLineParser();
  ~PlainLineParser();
  PlainLineParser(PlainLineParser&&) noexcept;
  PlainLineParser& operator=(PlainLineParser&&) noexcept;

  /// The tokens within the object on this line, its last `close` included; none when the line is
  /// not JSON or holds anything else. Keys given twice stay so. Good until the next line.
  [[nodiscard]] std::span<Token const> read(std::string_view line);

 private:
  struct Memory;
  std::unique_ptr<Memory> memory_;
};

}  // namespace flinch::json
