#pragma once
// Zeros to begin with, many of which are never looked at.
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <new>
#include <type_traits>

namespace flinch {

/// As many numbers as it was made for, all 0. Those that are never touched take no memory of the
/// machine, as they would in a vector: the system hands out pages of zeros when they are.
/// Throws std::bad_alloc.
template <class Number>
class Zeroed {
  static_assert(std::is_arithmetic_v<Number>);

 public:
  explicit Zeroed(std::size_t count)
      : numbers_(static_cast<Number*>(std::calloc(count + 1, sizeof(Number)))) {
    if (numbers_ == nullptr) throw std::bad_alloc();
  }
  [[nodiscard]] Number& operator[](std::size_t i) { return numbers_[i]; }

 private:
  struct Free {
    void operator()(Number* numbers) const { std::free(numbers); }
  };
  std::unique_ptr<Number[], Free> numbers_;
};

}  // namespace flinch
