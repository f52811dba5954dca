#pragma once
// A set of signs that is gone through in their order.
#include <bit>
#include <cstdint>
#include <vector>

#include "flinch/model/condition.hpp"

namespace flinch {

class SignSet {
 public:
  /// For signs below this one.
  explicit SignSet(std::size_t signs) : words_((signs + bits - 1) / bits) {}

  [[nodiscard]] bool has(SignId sign) const {
    return (words_[word(sign)] >> static_cast<std::size_t>(sign) % bits & 1U) != 0;
  }
  void add(SignId sign) {
    words_[word(sign)] |= std::uint64_t{1} << static_cast<std::size_t>(sign) % bits;
  }
  /// Hands each sign to `take`, and forgets it.
  template <class Take>
  void empty_into(Take const& take) {
    for (std::uint32_t i = 0; i < words_.size(); ++i)
      for (auto& word = words_[i]; word != 0; word &= word - 1)
        take(SignId{i * bits + static_cast<std::uint32_t>(std::countr_zero(word))});
  }

 private:
  static constexpr std::uint32_t bits = 64;
  [[nodiscard]] static std::size_t word(SignId sign) {
    return static_cast<std::size_t>(sign) / bits;
  }
  std::vector<std::uint64_t> words_;
};

}  // namespace flinch
