#pragma once
// Messages on a byte stream, each behind a header with its length: the base protocol of the
// Language Server Protocol 3.17.
#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>

namespace flinch::cli::serve {

struct FrameLimits {
  std::size_t header_bytes = 4096;                 ///< of all lines of one header
  std::size_t body_bytes = std::size_t{8} << 20U;  ///< of one message
};

struct Frame {
  enum class Kind {
    message,    ///< `text` is its body
    too_large,  ///< its body was passed over; the stream goes on behind it
    broken,     ///< no header: nothing more can be read; `text` says why
    end         ///< the stream ended, perhaps within a message
  };
  Kind kind = Kind::end;
  std::string text;
};

/// The next message. Never holds more than the limits allow.
[[nodiscard]] Frame read_frame(std::istream& in, FrameLimits const& limits = {});

/// Writes the body with its header and flushes.
void write_frame(std::ostream& out, std::string_view body);

}  // namespace flinch::cli::serve
