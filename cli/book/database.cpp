#include "book/database.hpp"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <random>
#include <thread>
#include <unordered_map>

#include "book/server_driver.hpp"
#include "book/trouble.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// Whoever waits to write asks again after a while that is drawn anew each time. SQLite's own
// waiting makes that while longer and longer, and so whoever has waited longest is the last to be
// let in: of eight desks that saved without a pause one was kept out for 20 seconds.
int wait_to_write(void* wait_s, int tries) {
  using Clock = std::chrono::steady_clock;
  thread_local Clock::time_point begun;
  thread_local std::minstd_rand chance(static_cast<unsigned>(::getpid()));
  if (tries == 0) begun = Clock::now();
  if (Clock::now() - begun > std::chrono::seconds(*static_cast<int const*>(wait_s))) return 0;
  std::this_thread::sleep_for(
      std::chrono::microseconds(std::uniform_int_distribution(500, 4000)(chance)));
  return 1;
}

// What the library says of an error repeats the statement and its values: names and numbers. Only
// the code is looked at.
std::string why(soci::soci_error const& error, ServerDriver const* driver, int wait_s) {
  if (auto const* file = dynamic_cast<soci::sqlite3_soci_error const*>(&error)) {
    constexpr int kind_bits = 0xFF;
    switch (file->result() & kind_bits) {
      case SQLITE_FULL:
        return "the disk is full: make room, nothing of this step was kept";
      case SQLITE_READONLY:
      case SQLITE_PERM:
        return "this book may only be read: have its owner and the folder's let you write";
      case SQLITE_CORRUPT:
      case SQLITE_NOTADB:
        return "this book is damaged, or no book: take up the last backup (docs/book.md)";
      case SQLITE_BUSY:
      case SQLITE_LOCKED:
        return fmt::format("another program has held this book for {} seconds: try again", wait_s);
      case SQLITE_CANTOPEN:
        return "this book cannot be opened: see whether you may write in its folder";
      case SQLITE_IOERR:
        return "the disk does not take or give this book's bytes: see whether it is full or "
               "failing";
      default:
        return fmt::format("this book refused a step (SQLite error {})", file->result());
    }
  }
  if (auto const state = driver ? driver->state_of(error) : std::nullopt) {
    auto const is_of = [&](std::string_view kind) { return state->starts_with(kind); };
    if (is_of("53100")) return "the server's disk is full: nothing of this step was kept";
    if (is_of("25006") || is_of("42501"))
      return "the server lets this user read alone: have its owner let you write";
    if (is_of("08") || is_of("57") || is_of(" ") || state->empty() || state->front() == '\0')
      return "the server no longer answers: see whether it runs and can be reached";
    return fmt::format("the server refused a step (PostgreSQL state {})", inert(*state));
  }
  return "the server cannot be reached, or does not let you in: see address, user and password";
}

std::string settings_of(BookPlace const& place) {
  if (!place.is_server) return fmt::format("dbname=\"{}\"", place.location);
  auto out = place.location;
  auto const set = [&](std::string_view name, int value) {
    if (out.find(fmt::format("{}=", name)) != std::string::npos) return;
    out += fmt::format("{}{}={}", out.find('?') == std::string::npos ? '?' : '&', name, value);
  };
  set("connect_timeout", place.wait_s);
  // A line that is cut in the middle of a step is found out as soon.
  set("tcp_user_timeout", place.wait_s * 1000);
  return out;
}

}  // namespace

long long number(Cell const& cell) {
  long long out = 0;
  if (cell) std::from_chars(cell->data(), cell->data() + cell->size(), out);
  return out;
}

struct Database::Connection {
  // A statement and the places of its values, made once and run often.
  struct Prepared {
    Prepared(soci::session& session, std::string const& sql, std::size_t values,
             std::size_t columns)
        : in(values), in_null(values), out(columns), out_null(columns), statement(session) {
      for (std::size_t i = 0; i < values; ++i) statement.exchange(soci::use(in[i], in_null[i]));
      for (std::size_t i = 0; i < columns; ++i) statement.exchange(soci::into(out[i], out_null[i]));
      statement.alloc();
      statement.prepare(sql);
      statement.define_and_bind();
    }

    std::vector<std::string> in;
    std::vector<soci::indicator> in_null;
    std::vector<std::string> out;
    std::vector<soci::indicator> out_null;
    soci::statement statement;
  };

  template <class Work>
  auto guarded(Work const& work) {
    try {
      return work();
    } catch (soci::soci_error const& error) {
      prepared.clear();  // what failed in the middle is not run again
      throw BookTrouble(fmt::format("{}: {}", place.shown, why(error, driver, place.wait_s)));
    }
  }

  void open() {
    if (place.is_server) {
      driver = server_driver();
      if (!driver)
        throw BookTrouble(fmt::format(
            "{}: the part of flinch that talks to a server is missing: install flinch anew",
            place.shown));
    }
    session.open(driver ? *driver->connects : *soci::factory_sqlite3(), settings_of(place));
    if (place.is_server) {
      session << "SET client_encoding TO 'UTF8'";
      session << "SET synchronous_commit TO on";
      session << "SET client_min_messages TO warning";
      session << "SET search_path TO flinch";
      // How many rows there are hangs on what is asked for: planned once for all, a search is slow.
      session << "SET plan_cache_mode TO force_custom_plan";
      return;
    }
    std::string ignored;
    auto* const file = static_cast<soci::sqlite3_session_backend*>(session.get_backend());
    sqlite_api::sqlite3_busy_handler(file->conn_, wait_to_write, &place.wait_s);
    session << "PRAGMA journal_mode = WAL", soci::into(ignored);
    session << "PRAGMA synchronous = FULL";
    session << "PRAGMA foreign_keys = ON";
    session << "PRAGMA secure_delete = ON", soci::into(ignored);
  }

  Prepared& statement(std::string const& sql, std::size_t values, std::size_t columns) {
    auto& found = prepared[sql];
    if (!found) found = std::make_unique<Prepared>(session, sql, values, columns);
    return *found;
  }

  BookPlace place;
  bool is_private = true;
  ServerDriver const* driver = nullptr;  ///< of a book on a server
  soci::session session{};
  std::unordered_map<std::string, std::unique_ptr<Prepared>> prepared{};  ///< ends before `session`
};

Database::Database(BookPlace place, Missing missing)
    : connection_(new Connection{std::move(place)}) {
  auto const& its_place = connection_->place;
  if (!its_place.is_server) {
    if (missing == Missing::is_made) make_book_file(its_place);
    connection_->is_private = keep_book_file_private(its_place);
  }
  connection_->guarded([&] { connection_->open(); });
}

Database::~Database() = default;
Database::Database(Database&&) noexcept = default;
Database& Database::operator=(Database&&) noexcept = default;

bool Database::is_private() const { return connection_->is_private; }

BookPlace const& Database::place() const { return connection_->place; }

void Database::wait_at_most(int seconds) { connection_->place.wait_s = seconds; }

void Database::run(std::string const& sql, std::vector<Cell> const& values) {
  if (values.empty())
    connection_->guarded([&] { connection_->session << sql; });
  else
    each_row(sql, 0, values, {});
}

std::vector<Row> Database::rows(std::string const& sql, std::size_t columns,
                                std::vector<Cell> const& values) {
  std::vector<Row> out;
  each_row(sql, columns, values, [&](Row const& row) { out.push_back(row); });
  return out;
}

void Database::each_row(std::string const& sql, std::size_t columns,
                        std::vector<Cell> const& values,
                        std::function<void(Row const&)> const& take) {
  connection_->guarded([&] {
    auto& prepared = connection_->statement(sql, values.size(), columns);
    for (std::size_t i = 0; i < values.size(); ++i) {
      prepared.in[i] = values[i].value_or("");
      prepared.in_null[i] = values[i] ? soci::i_ok : soci::i_null;
    }
    Row row(columns);
    for (bool has_row = prepared.statement.execute(true); has_row && columns > 0;
         has_row = prepared.statement.fetch()) {
      for (std::size_t i = 0; i < columns; ++i)
        row[i] = prepared.out_null[i] == soci::i_ok ? Cell(prepared.out[i]) : Cell();
      take(row);
    }
  });
}

Together::Together(Database& database, To to) : database_(database) {
  if (database.is_server())
    database.run(to == To::write ? "BEGIN" : "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
  else
    database.run(to == To::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Together::~Together() {
  if (!is_open_) return;
  try {
    database_.run("ROLLBACK");
  } catch (BookTrouble const&) {
    // A connection that is gone has rolled back.
  }
}

void Together::keep() {
  database_.run("COMMIT");
  is_open_ = false;
}

}  // namespace flinch::cli
