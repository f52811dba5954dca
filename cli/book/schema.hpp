#pragma once
// The tables of a book, and how an older book becomes a present one.
#include "book/database.hpp"

namespace flinch::cli {

/// The version of the tables that this program reads and writes.
[[nodiscard]] int book_version();

/// Makes the tables, or brings those of an older version up to the present one, in one transaction.
/// Throws BookTrouble for a database that holds something else, and for a newer book.
void bring_up_to_date(Database& database);

}  // namespace flinch::cli
