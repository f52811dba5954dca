#include "serve/file_uri.hpp"

#include <fmt/format.h>

#include <charconv>
#include <filesystem>

namespace flinch::cli::serve {

std::optional<std::string> path_of_uri(std::string_view uri) {
  constexpr std::string_view scheme = "file://";
  if (!uri.starts_with(scheme)) return std::nullopt;
  uri.remove_prefix(scheme.size());
  constexpr std::string_view this_host = "localhost";
  if (uri.starts_with(this_host)) uri.remove_prefix(this_host.size());
  if (!uri.starts_with('/')) return std::nullopt;
  std::string path;
  for (std::size_t i = 0; i < uri.size(); ++i) {
    if (uri[i] != '%') {
      path += uri[i];
      continue;
    }
    if (i + 2 >= uri.size()) return std::nullopt;
    unsigned value = 0;
    auto const [stop, error] = std::from_chars(uri.data() + i + 1, uri.data() + i + 3, value, 16);
    if (error != std::errc{} || stop != uri.data() + i + 3) return std::nullopt;
    path += static_cast<char>(value);
    i += 2;
  }
  if (path.find('\0') != std::string::npos) return std::nullopt;
  return std::filesystem::path(path).lexically_normal().string();
}

std::string uri_of_path(std::string_view path) {
  constexpr std::string_view plain =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
  std::string out = "file://";
  for (char const c : path) {
    if (plain.find(c) != std::string_view::npos)
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace flinch::cli::serve
