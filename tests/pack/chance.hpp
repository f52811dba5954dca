#pragma once
// Random numbers that are the same with every compiler and library.
#include <cstdint>
#include <random>

namespace flinch::test {

class Chance {
 public:
  explicit Chance(std::uint64_t seed) : bits_(seed) {}
  /// From 0 up to, not including, 1.
  double next() { return static_cast<double>(bits_() >> 11U) * 0x1p-53; }
  std::size_t below(std::size_t count) {
    return static_cast<std::size_t>(next() * static_cast<double>(count));
  }

 private:
  std::mt19937_64 bits_;
};

}  // namespace flinch::test
