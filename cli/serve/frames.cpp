#include "serve/frames.hpp"

#include <algorithm>
#include <charconv>
#include <istream>
#include <optional>
#include <ostream>

namespace flinch::cli::serve {
namespace {

Frame broken(std::string why) { return {Frame::Kind::broken, std::move(why)}; }

// Field names of headers are alike in capital and small letters.
bool is_length_field(std::string_view name) {
  constexpr std::string_view wanted = "content-length";
  return std::equal(name.begin(), name.end(), wanted.begin(), wanted.end(), [](char a, char b) {
    return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b;
  });
}

std::optional<std::size_t> length_of(std::string_view digits) {
  while (!digits.empty() && (digits.front() == ' ' || digits.front() == '\t'))
    digits.remove_prefix(1);
  while (!digits.empty() && (digits.back() == ' ' || digits.back() == '\t'))
    digits.remove_suffix(1);
  std::size_t length = 0;
  auto const [stop, error] = std::from_chars(digits.data(), digits.data() + digits.size(), length);
  if (error != std::errc{} || stop != digits.data() + digits.size()) return std::nullopt;
  return length;
}

// Reads the body piece by piece: a length that is only claimed costs no memory.
Frame read_body(std::istream& in, std::size_t length) {
  Frame out{Frame::Kind::message, {}};
  while (out.text.size() < length) {
    auto const before = out.text.size();
    auto const piece = std::min<std::size_t>(length - before, 65536);
    out.text.resize(before + piece);
    in.read(out.text.data() + before, static_cast<std::streamsize>(piece));
    if (static_cast<std::size_t>(in.gcount()) != piece) return {};
  }
  return out;
}

}  // namespace

Frame read_frame(std::istream& in, FrameLimits const& limits) {
  std::optional<std::size_t> length;
  std::string line;
  for (std::size_t bytes = 0;; ++bytes) {
    int const c = in.get();
    if (c == std::istream::traits_type::eof()) return {};
    if (bytes == limits.header_bytes) return broken("the header of a message is too long");
    if (c != '\n') {
      line += static_cast<char>(c);
      continue;
    }
    if (!line.ends_with('\r')) return broken("a line of a header ends without carriage return");
    line.pop_back();
    if (line.empty()) break;
    auto const colon = line.find(':');
    if (colon == std::string::npos) return broken("a line of a header has no colon");
    if (is_length_field(std::string_view(line).substr(0, colon))) {
      if (length) return broken("a header gives Content-Length twice");
      length = length_of(std::string_view(line).substr(colon + 1));
      if (!length) return broken("a Content-Length is no number of bytes");
    }
    line.clear();
  }
  if (!length) return broken("a header has no Content-Length");
  if (*length <= limits.body_bytes) return read_body(in, *length);
  for (auto left = *length; left > 0;) {
    auto const piece = std::min<std::size_t>(left, 65536);
    in.ignore(static_cast<std::streamsize>(piece));
    if (static_cast<std::size_t>(in.gcount()) != piece) return {};
    left -= piece;
  }
  return {Frame::Kind::too_large, {}};
}

void write_frame(std::ostream& out, std::string_view body) {
  out << "Content-Length: " << body.size() << "\r\n\r\n" << body << std::flush;
}

}  // namespace flinch::cli::serve
