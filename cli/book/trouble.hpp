#pragma once
// Why a book cannot be used.
#include <stdexcept>
#include <string>

namespace flinch::cli {

/// One sentence that names the book and says what to do. It never holds what was said of a patient
/// or its keeper, nor a password. Thrown by all of `Book`; a command ends with it and exit
/// status 2.
class BookTrouble : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace flinch::cli
