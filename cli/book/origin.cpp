#include "book/origin.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <random>

#include "book/desk_name.hpp"

namespace flinch::cli {

// Source of the numbers: FNV-1a of 64 bits, RFC 9923.
std::string hash_of(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (auto const c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3U;
  }
  return fmt::format("{:016x}-{}", hash, bytes.size());
}

// Two files that hold the same are two. No name that may stand in the path is kept.
std::string origin_of_file(std::string const& file) {
  std::error_code trouble;
  auto const whole = std::filesystem::weakly_canonical(file, trouble);
  return "file-" + hash_of(fmt::format("{}:{}", this_machine(), trouble ? file : whole.string()));
}

std::string new_origin() {
  std::random_device chance;
  return fmt::format("desk-{:08x}{:08x}{:08x}{:08x}", chance(), chance(), chance(), chance());
}

}  // namespace flinch::cli
