#include "book/scratch_book.hpp"

#include <cstdlib>
#include <filesystem>

namespace flinch::test {

ScratchBook::ScratchBook() {
  std::string pattern = (std::filesystem::temp_directory_path() / "flinch-book-XXXXXX").string();
  folder_ = ::mkdtemp(pattern.data());
  char const* server = std::getenv("FLINCH_TEST_SERVER");
  place_ = cli::book_place(server != nullptr ? server : folder_ + "/data/book.db");
  if (place_.is_server)
    cli::Database(place_, cli::Database::Missing::is_made)
        .run("DROP SCHEMA IF EXISTS flinch CASCADE");
}

ScratchBook::~ScratchBook() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

cli::NewCall new_call(std::time_t saved, std::string line) {
  cli::NewCall out;
  out.entry.saved = saved;
  out.entry.said_by = "front desk";
  out.entry.changes = std::move(line);
  return out;
}

}  // namespace flinch::test
