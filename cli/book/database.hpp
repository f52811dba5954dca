#pragma once
// Statements of SQL held against SQLite or PostgreSQL. The one place that knows the library for
// both.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/place.hpp"

namespace flinch::cli {

/// Everything goes in and comes out as text; none is NULL.
using Cell = std::optional<std::string>;
using Row = std::vector<Cell>;

/// Whole numbers as the cells that hold them.
[[nodiscard]] inline Cell cell(long long number) { return std::to_string(number); }
[[nodiscard]] long long number(Cell const& cell);

/// A connection. Everything throws BookTrouble, whatever went wrong.
class Database {
 public:
  /// What to do about a file that is not there.
  enum class Missing : bool { is_trouble, is_made };

  Database(BookPlace place, Missing missing);
  ~Database();
  Database(Database&&) noexcept;
  Database& operator=(Database&&) noexcept;

  [[nodiscard]] BookPlace const& place() const;
  [[nodiscard]] bool is_server() const { return place().is_server; }
  /// Whether only its owner may read the file; of a server that is not known, and this is true.
  [[nodiscard]] bool is_private() const;

  /// From now on other programs are waited for so long (a file alone).
  void wait_at_most(int seconds);

  /// One statement; `values` take the places of `:name` in their order.
  void run(std::string const& sql, std::vector<Cell> const& values = {});
  /// Its rows, each of so many columns.
  [[nodiscard]] std::vector<Row> rows(std::string const& sql, std::size_t columns,
                                      std::vector<Cell> const& values = {});
  /// The same one by one, for many; `take` may not use the database.
  void each_row(std::string const& sql, std::size_t columns, std::vector<Cell> const& values,
                std::function<void(Row const&)> const& take);

 private:
  struct Connection;
  std::unique_ptr<Connection> connection_;
};

/// Several statements that happen together or not at all. To write is to be the only one who
/// writes (a file), or to change rows that nobody else changes (a server); to read is to see one
/// state of the whole book.
class Together {
 public:
  enum class To : bool { read, write };
  Together(Database& database, To to);
  Together(Together const&) = delete;
  Together& operator=(Together const&) = delete;
  ~Together();
  /// Forced to the disk when this returns.
  void keep();

 private:
  Database& database_;
  bool is_open_ = true;
};

}  // namespace flinch::cli
