#pragma once
// An empty book for each test: a file in a scratch folder, or, with FLINCH_TEST_SERVER, a server's.
#include <string>

#include "book/book.hpp"

namespace flinch::test {

class ScratchBook {
 public:
  ScratchBook();
  ~ScratchBook();
  ScratchBook(ScratchBook const&) = delete;
  ScratchBook& operator=(ScratchBook const&) = delete;

  [[nodiscard]] cli::BookPlace const& place() const { return place_; }
  [[nodiscard]] cli::Book open() const { return {place_, cli::Book::Missing::is_made}; }
  /// Beside the book, or where it would be.
  [[nodiscard]] std::string const& folder() const { return folder_; }

 private:
  std::string folder_;
  cli::BookPlace place_;
};

/// A call as a desk begins it.
[[nodiscard]] cli::NewCall new_call(std::time_t saved, std::string line);

}  // namespace flinch::test
