// What is removed from a book, and what is copied from one into another.
#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "book/book.hpp"

namespace flinch::cli {
namespace {

struct Table {
  char const* name;
  char const* columns;
  std::size_t count;
  char const* key;  ///< a whole number by which its rows are gone through; `id` is given by the
                    ///< database, which must be told the next one after a copy
};

// No row before those that it refers to.
constexpr Table all_tables[] = {
    {"client", "id, name, telephone", 3, "id"},
    {"patient", "id, client, name", 3, "id"},
    {"call", "id, patient, begun, saved, events, tier, ring_back, closed, origin", 9, "id"},
    {"event", "call, number, saved, said_by, changes", 5, "call"},
    {"wording", "call, number, changes", 3, "call"},
    {"search_word", "word, patient", 2, "patient"},
    {"holder", "call, desk, since", 3, "call"},
};

// ":v0, :v1, ..."
std::string places(std::size_t count) {
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += fmt::format("{}:v{}", i == 0 ? "" : ", ", i);
  return out;
}

long long count_of(Database& database, std::string const& from, std::vector<Cell> const& values) {
  return number(database.rows("SELECT count(*) FROM " + from, 1, values).front().front());
}

// Some thousand at a time: a server's answer is held in memory whole.
void copy_rows(Table const& table, Database& from, Database& to) {
  constexpr long long keys_at_once = 10000;
  auto const insert = fmt::format("INSERT INTO {} ({}) VALUES ({})", table.name, table.columns,
                                  places(table.count));
  auto const select = fmt::format("SELECT {0} FROM {1} WHERE {2} > :after AND {2} <= :last",
                                  table.columns, table.name, table.key);
  auto const last = number(
      from.rows(fmt::format("SELECT max({}) FROM {}", table.key, table.name), 1).front().front());
  for (long long after = 0; after < last; after += keys_at_once)
    from.each_row(select, table.count, {cell(after), cell(after + keys_at_once)},
                  [&](Row const& row) { to.run(insert, row); });
}

}  // namespace

// `patients` is a condition on a patient p.
void Book::forget_patient_names(std::string const& patients, std::vector<Cell> const& values) {
  database_.run(
      fmt::format("DELETE FROM search_word WHERE patient IN (SELECT p.id FROM patient p WHERE {})",
                  patients),
      values);
  database_.run(
      fmt::format("UPDATE patient SET name = NULL WHERE id IN (SELECT p.id FROM patient p WHERE "
                  "{}) AND name IS NOT NULL",
                  patients),
      values);
}

Forgotten Book::forget(ClientId client) {
  std::vector<Cell> const id = {cell(number(client))};
  std::string const patients = "p.client = :client";
  std::string const calls =
      "SELECT c.id FROM call c JOIN patient p ON p.id = c.patient WHERE p.client = :client";
  Forgotten out;
  {
    Together all(database_, Together::To::write);
    out.clients = count_of(database_, "client WHERE id = :client", id);
    out.patients = count_of(database_, "patient p WHERE " + patients, id);
    out.calls = count_of(database_, fmt::format("({}) found", calls), id);
    database_.run(fmt::format("DELETE FROM wording WHERE call IN ({})", calls), id);
    // Nobody is left to be rung.
    database_.run(fmt::format("UPDATE call SET ring_back = NULL WHERE ring_back IS NOT NULL AND id "
                              "IN ({})",
                              calls),
                  id);
    forget_patient_names(patients, id);
    database_.run("UPDATE client SET name = NULL, telephone = NULL WHERE id = :client", id);
    all.keep();
  }
  out.are_traces_gone = remove_traces();
  return out;
}

Forgotten Book::forget_before(std::time_t time) {
  std::vector<Cell> const when = {cell(time)};
  std::string const calls = "SELECT id FROM call WHERE saved < :time";
  std::string const patients =
      "NOT EXISTS (SELECT 1 FROM call c WHERE c.patient = p.id AND c.saved >= :time)";
  std::string const clients =
      "(name IS NOT NULL OR telephone IS NOT NULL) AND NOT EXISTS (SELECT 1 FROM patient p JOIN "
      "call c ON c.patient = p.id WHERE p.client = client.id AND c.saved >= :time)";
  Forgotten out;
  {
    Together all(database_, Together::To::write);
    out.calls = count_of(
        database_,
        fmt::format("(SELECT DISTINCT call FROM wording WHERE call IN ({})) found", calls), when);
    out.patients = count_of(database_, "patient p WHERE p.name IS NOT NULL AND " + patients, when);
    out.clients = count_of(database_, "client WHERE " + clients, when);
    database_.run(fmt::format("DELETE FROM wording WHERE call IN ({})", calls), when);
    database_.run(
        fmt::format("UPDATE call SET ring_back = NULL WHERE ring_back IS NOT NULL AND id IN ({})",
                    calls),
        when);
    forget_patient_names(patients, when);
    database_.run("UPDATE client SET name = NULL, telephone = NULL WHERE " + clients, when);
    all.keep();
  }
  out.are_traces_gone = remove_traces();
  return out;
}

// What was deleted is overwritten in a file, but still stands in the log of its last changes; a
// server keeps it until it tidies up. The log cannot be emptied while another program reads in it:
// that is waited for, then said in the first column.
bool Book::remove_traces() {
  if (!database_.is_server()) {
    constexpr int wait_for_readers_s = 3;
    struct AsUsualAgain {
      Database& database;
      int usual_s;
      ~AsUsualAgain() { database.wait_at_most(usual_s); }
    } const again{database_, place().wait_s};
    database_.wait_at_most(std::min(again.usual_s, wait_for_readers_s));
    return number(database_.rows("PRAGMA wal_checkpoint(TRUNCATE)", 3).front().front()) == 0;
  }
  for (auto const* table : {"wording", "search_word", "patient", "client"})
    database_.run(fmt::format("VACUUM {}", table));
  return true;
}

void Book::copy_into(Book& to) {
  if (!to.database_.rows("SELECT 1 FROM client LIMIT 1", 1).empty())
    throw BookTrouble(
        fmt::format("{}: this book holds calls already, and nothing is written over "
                    "them: name a new one",
                    to.place().shown));
  Together reading(database_, Together::To::read);
  Together writing(to.database_, Together::To::write);
  for (auto const& table : all_tables) {
    copy_rows(table, database_, to.database_);
    if (table.key == std::string_view("id") && to.database_.is_server())
      (void)to.database_.rows(
          fmt::format("SELECT setval(pg_get_serial_sequence('flinch.{0}', 'id'), (SELECT "
                      "coalesce(max(id), 1) FROM {0}))",
                      table.name),
          1);
  }
  writing.keep();
  reading.keep();
}

}  // namespace flinch::cli
