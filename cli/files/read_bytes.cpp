#include "files/read_bytes.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace flinch::cli {

std::optional<std::string> why_unreadable(std::string const& path) {
  namespace fs = std::filesystem;
  std::error_code trouble;
  auto const type = fs::status(path, trouble).type();
  if (type == fs::file_type::not_found) return "there is no such file";
  if (type == fs::file_type::directory) return "it is a folder";
  bool const is_read = type == fs::file_type::regular || type == fs::file_type::fifo;
  if (!is_read && type != fs::file_type::none && type != fs::file_type::unknown)
    return "it is no plain file and no pipe";
  // A pipe is not opened to try it: it would be empty afterwards.
  if (type == fs::file_type::fifo) return std::nullopt;
  if (!std::ifstream(path, std::ios::binary)) return "it may not be read";
  return std::nullopt;
}

std::optional<std::string> read_file(std::string const& path) {
  if (why_unreadable(path)) return std::nullopt;
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  return read_all(file);
}

std::string read_all(std::istream& in) {
  constexpr std::size_t at_once = std::size_t{64} << 10U;
  std::string out;
  while (in && out.size() < most_file_bytes) {
    auto const before = out.size();
    out.resize(before + std::min(at_once, most_file_bytes - before));
    in.read(out.data() + before, static_cast<std::streamsize>(out.size() - before));
    out.resize(before + static_cast<std::size_t>(in.gcount()));
  }
  return out;
}

std::optional<std::string> read_typed_line(std::istream& in) {
  constexpr std::size_t longest = 1000;
  std::string line;
  bool has_any = false;
  for (char c = 0; in.get(c);) {
    has_any = true;
    if (c == '\n') break;
    if (c != '\r' && line.size() < longest) line += c;
  }
  return has_any ? std::optional(std::move(line)) : std::nullopt;
}

}  // namespace flinch::cli
