// What is read from a book: lists, one patient, all calls.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "book/book.hpp"
#include "book/case_changes.hpp"
#include "book/search_words.hpp"

namespace flinch::cli {
namespace {

constexpr char const* columns_of_a_call =
    "c.id, c.patient, c.begun, c.saved, c.tier, c.ring_back, c.closed, p.name, k.name, k.telephone";
constexpr std::size_t column_count = 10;
constexpr char const* from_calls =
    "FROM call c JOIN patient p ON p.id = c.patient JOIN client k ON k.id = p.client";

std::optional<std::time_t> time_of(Cell const& cell) {
  return cell ? std::optional<std::time_t>(number(cell)) : std::nullopt;
}

CallLine line_of(Row const& row) {
  CallLine out;
  out.call = CallId{number(row[0])};
  out.patient = PatientId{number(row[1])};
  out.begun = number(row[2]);
  out.saved = number(row[3]);
  out.tier = row[4].value_or("");
  out.ring_back = time_of(row[5]);
  out.closed = time_of(row[6]);
  out.patient_name = row[7].value_or("");
  out.client_name = row[8].value_or("");
  out.telephone = row[9].value_or("");
  return out;
}

std::string select(std::string const& where) {
  return fmt::format("SELECT {} {} {}", columns_of_a_call, from_calls, where);
}

// No character comes after it, so that what begins with a word lies between both.
std::string last_that_begins_with(std::string const& word) { return word + "\U0010FFFF"; }

// How often words begin so, counted up to where it no longer matters which is the rarest: a search
// that looks at so many takes some 20 ms.
long long hits_of(Database& database, std::vector<std::string> const& beginnings) {
  constexpr long long counted_at_most = 4000;
  long long out = 0;
  for (auto const& begins : beginnings)
    out +=
        number(database
                   .rows("SELECT count(*) FROM (SELECT 1 FROM search_word WHERE word >= :from AND "
                         "word <= :to LIMIT :most) counted",
                         1, {begins, last_that_begins_with(begins), cell(counted_at_most)})
                   .front()
                   .front());
  return out;
}

}  // namespace

// `where` speaks of a call c alone.
std::vector<CallLine> Book::lines(std::string const& where, std::vector<Cell> const& values) {
  std::vector<CallLine> out;
  std::unordered_map<long long, std::size_t> places;
  database_.each_row(select(where), column_count, values, [&](Row const& row) {
    out.push_back(line_of(row));
    places.emplace(number(out.back().call), out.size() - 1);
  });
  std::vector<Folded> said(out.size());
  std::vector<Folded> words(out.size());
  database_.each_row(
      fmt::format(
          "SELECT e.call, e.changes, w.changes FROM event e LEFT JOIN wording w ON w.call = "
          "e.call AND w.number = e.number WHERE e.call IN (SELECT c.id FROM call c {}) ORDER "
          "BY e.call, e.number",
          where),
      3, values, [&](Row const& row) {
        auto const found = places.find(number(row[0]));
        if (found == places.end()) return;  // begun between the two statements
        said[found->second].add(row[1].value_or("{}"));
        if (row[2]) words[found->second].add(*row[2]);
      });
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (auto const follows = said[i].follows()) out[i].follows = CallId{*follows};
    out[i].pack = said[i].pack();
    out[i].species = said[i].species();
    out[i].line = said[i].text();
    out[i].words = words[i].text();
  }
  return out;
}

std::optional<CallLine> Book::call(CallId call) {
  auto found = lines("WHERE c.id = :id", {cell(number(call))});
  if (found.empty()) return std::nullopt;
  return std::move(found.front());
}

std::vector<KeptEntry> Book::history(CallId call) {
  std::vector<KeptEntry> out;
  for (auto& row : database_.rows(
           "SELECT e.saved, e.said_by, e.changes, w.changes FROM event e LEFT JOIN wording w ON "
           "w.call = e.call AND w.number = e.number WHERE e.call = :call ORDER BY e.number",
           4, {cell(number(call))}))
    out.push_back({static_cast<std::time_t>(number(row[0])), row[1].value_or(""),
                   row[2].value_or("{}"), row[3].value_or("{}")});
  return out;
}

long long Book::entries(CallId call) {
  auto const found =
      database_.rows("SELECT events FROM call WHERE id = :id", 1, {cell(number(call))});
  return found.empty() ? 0 : number(found.front().front());
}

std::vector<CallLine> Book::ring_backs(std::size_t most) {
  return lines(
      "WHERE c.ring_back IS NOT NULL AND c.closed IS NULL ORDER BY c.ring_back, c.id LIMIT :most",
      {cell(static_cast<long long>(most))});
}

std::vector<CallLine> Book::begun(std::time_t from, std::time_t until, std::size_t most) {
  return lines("WHERE c.begun >= :from AND c.begun < :until ORDER BY c.begun, c.id LIMIT :most",
               {cell(from), cell(until), cell(static_cast<long long>(most))});
}

std::vector<CallLine> Book::open(std::time_t from, std::time_t until, std::size_t most) {
  return lines(
      "WHERE c.closed IS NULL AND c.begun >= :from AND c.begun < :until ORDER BY c.begun, c.id "
      "LIMIT "
      ":most",
      {cell(from), cell(until), cell(static_cast<long long>(most))});
}

std::vector<CallLine> Book::visits(PatientId patient) {
  return lines("WHERE c.patient = :patient ORDER BY c.begun, c.id", {cell(number(patient))});
}

std::optional<PatientFound> Book::patient(PatientId patient) {
  auto const found = database_.rows(
      "SELECT p.id, p.client, p.name, k.name, k.telephone, "
      "(SELECT count(*) FROM call c WHERE c.patient = p.id), "
      "(SELECT max(c.begun) FROM call c WHERE c.patient = p.id) "
      "FROM patient p JOIN client k ON k.id = p.client WHERE p.id = :id",
      7, {cell(number(patient))});
  if (found.empty()) return std::nullopt;
  auto const& row = found.front();
  return PatientFound{PatientId{number(row[0])},
                      ClientId{number(row[1])},
                      row[2].value_or(""),
                      row[3].value_or(""),
                      row[4].value_or(""),
                      number(row[5]),
                      static_cast<std::time_t>(number(row[6]))};
}

std::vector<PatientFound> Book::patients_of(ClientId client) {
  std::vector<PatientFound> out;
  for (auto const& row : database_.rows("SELECT id FROM patient WHERE client = :client ORDER BY id",
                                        1, {cell(number(client))}))
    if (auto found = patient(PatientId{number(row.front())})) out.push_back(std::move(*found));
  return out;
}

std::vector<PatientFound> Book::find(std::string const& words, std::size_t most) {
  auto typed = search_beginnings(words);
  if (typed.empty()) return {};
  // The hits of the rarest are gone through in order, the others only looked up.
  std::vector<long long> hits;
  if (typed.size() > 1)
    for (auto const& beginnings : typed) hits.push_back(hits_of(database_, beginnings));
  if (!hits.empty())
    std::swap(
        typed.front(),
        typed[static_cast<std::size_t>(std::min_element(hits.begin(), hits.end()) - hits.begin())]);
  std::vector<PatientId> patients;
  for (auto const& begins : typed.front()) {
    std::string sql = "SELECT w.patient FROM search_word w WHERE w.word >= :from AND w.word <= :to";
    std::vector<Cell> values = {begins, last_that_begins_with(begins)};
    for (std::size_t i = 1; i < typed.size(); ++i) {
      sql += fmt::format(
          " AND EXISTS (SELECT 1 FROM search_word x WHERE x.patient = w.patient AND (x.word "
          "BETWEEN :from{0} AND :to{0} OR x.word BETWEEN :or_from{0} AND :or_to{0}))",
          i);
      for (auto const& word : {typed[i].front(), typed[i].back()}) {
        values.emplace_back(word);
        values.emplace_back(last_that_begins_with(word));
      }
    }
    sql += " ORDER BY w.word, w.patient DESC LIMIT :most";
    values.push_back(cell(static_cast<long long>(2 * most)));
    for (auto const& row : database_.rows(sql, 1, values)) {
      PatientId const patient{number(row.front())};
      if (patients.size() < most &&
          std::find(patients.begin(), patients.end(), patient) == patients.end())
        patients.push_back(patient);
    }
  }
  std::vector<PatientFound> out;
  for (auto const id : patients)
    if (auto found = patient(id)) out.push_back(std::move(*found));
  std::stable_sort(out.begin(), out.end(),
                   [](PatientFound const& a, PatientFound const& b) { return a.last > b.last; });
  return out;
}

void Book::each_call(Calls const& which, std::function<void(CallLine const&)> const& take) {
  constexpr long long calls_at_once = 1000;
  std::vector<Cell> values = {cell(0)};
  std::string where = "WHERE c.id > :after";
  if (which.which == Calls::Which::closed) where += " AND c.closed IS NOT NULL";
  // The sign keeps SQLite from walking the index of times for each page; without a column's type
  // beside it, text is compared as a number only when that is said. A server would take the sign
  // for a condition that few calls meet, and sort all of them for each page.
  auto const begun = [&](char const* compared, std::optional<std::time_t> time) {
    if (!time) return;
    where += fmt::format(" AND {}c.begun {} CAST(:time{} AS BIGINT)",
                         database_.is_server() ? "" : "+", compared, values.size());
    values.push_back(cell(*time));
  };
  begun(">=", which.from);
  begun("<", which.until);
  where += " ORDER BY c.id LIMIT :most";
  values.push_back(cell(calls_at_once));
  Together all(database_, Together::To::read);
  for (auto page = lines(where, values); !page.empty(); page = lines(where, values)) {
    for (auto const& call : page) take(call);
    values.front() = cell(number(page.back().call));
  }
  all.keep();
}

}  // namespace flinch::cli
