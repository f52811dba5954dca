#pragma once
// Source texts: bytes with a name, and the places inside them.
#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

namespace flinch {

/// Byte offsets [begin, end) into one source.
struct Span {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  friend bool operator==(Span, Span) = default;
};

/// Index of a source in its `SourceSet`.
enum class FileId : std::uint32_t {};

/// A place in one of the sources. Two places always compare equal: trees are compared by what they
/// say, not by where it stands.
struct Place {
  FileId file{};
  Span span;
  friend bool operator==(Place const&, Place const&) { return true; }
};

/// The smallest place that covers both; they must lie in the same file.
[[nodiscard]] Place cover(Place a, Place b);

/// Line and column for people, both from 1; the column counts code points.
struct Position {
  std::uint32_t line = 1;
  std::uint32_t column = 1;
};

/// A text that lies in memory for as long as the program runs, so that nobody need hold a copy.
struct LastingText {
  std::string_view bytes;
};

/// One named text. Immutable; lines are indexed when the first place in it is asked for.
class Source {
 public:
  Source(std::string name, std::string text);
  Source(std::string name, LastingText text);
  [[nodiscard]] std::string const& name() const { return name_; }
  [[nodiscard]] std::string_view text() const { return text_; }
  /// Position of a byte offset; offsets past the end give the end.
  [[nodiscard]] Position position(std::uint32_t offset) const;
  /// The text of a line (from 1) without its line break.
  [[nodiscard]] std::string_view line(std::uint32_t number) const;

 private:
  struct Lines {
    std::once_flag once;
    std::vector<std::uint32_t> starts;
  };
  [[nodiscard]] std::vector<std::uint32_t> const& line_starts() const;

  std::string name_;
  std::shared_ptr<std::string const> owned_;  ///< what `text_` looks at, but where the text lasts
  std::string_view text_;
  std::shared_ptr<Lines> lines_ = std::make_shared<Lines>();
};

/// All texts of one run, in the order in which they were read.
class SourceSet {
 public:
  FileId add(std::string name, std::string text);
  FileId add(std::string name, LastingText text);
  [[nodiscard]] Source const& operator[](FileId id) const {
    return sources_[static_cast<std::size_t>(id)];
  }
  [[nodiscard]] std::size_t size() const { return sources_.size(); }
  [[nodiscard]] std::string_view text(Place at) const;

 private:
  std::vector<Source> sources_;
};

}  // namespace flinch
