#include "book/book.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <set>

#include "book/book_words.hpp"
#include "book/case_changes.hpp"
#include "book/schema.hpp"
#include "book/search_words.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t longest_name = 200;  ///< bytes shown in lists; the whole stands in `wording`

Cell time_cell(std::optional<std::time_t> time) { return time ? cell(*time) : Cell(); }

Cell text_cell(std::string const& text) { return text.empty() ? Cell() : Cell(text); }

std::string shown(std::string const& text) {
  return inert(std::string_view(text).substr(0, whole_character(text, longest_name)));
}

}  // namespace

BookWords::BookWords(std::string const& json) {
  auto const tree = nlohmann::json::parse(json, nullptr, false);
  auto const text = [&](char const* key) {
    auto const found = tree.is_object() ? tree.find(key) : tree.end();
    return found != tree.end() && found->is_string() ? shown(found->get<std::string>()) : "";
  };
  name = text("name");
  client = text("caller");
  telephone = text("call back");
}

Book::Book(BookPlace const& place, Missing missing) : database_(place, missing) {
  bring_up_to_date(database_);
}

std::optional<CallId> Book::begin(NewCall const& call) {
  Together all(database_, Together::To::write);
  if (call_of_origin(call.origin)) return std::nullopt;
  auto const id = begin_one(call);
  all.keep();
  return id;
}

CallId Book::begin_one(NewCall const& call) {
  auto entry = call.entry;
  entry.is_taken_in = !call.origin.empty();
  auto const parts = apart(entry.changes);
  BookWords const words(parts.words);
  if (call.patient && !patient(*call.patient))
    throw BookTrouble(fmt::format("{}: there is no patient {} in this book", place().shown,
                                  number(*call.patient)));
  auto const species = species_in(parts.said);
  auto const patient =
      call.patient ? *call.patient : patient_of(words, species.empty() ? call.species : species);
  if (call.patient) write_names(patient, words);
  auto const made = database_.rows(
      "INSERT INTO call (patient, begun, saved, events, tier, ring_back, origin) VALUES (:patient, "
      ":begun, :saved, 1, :tier, :ring_back, :origin) RETURNING id",
      1,
      {cell(number(patient)), cell(entry.saved), cell(entry.saved),
       text_cell(entry.tier.value_or("")),
       time_cell(entry.ring_back ? entry.ring_back->at : std::nullopt), text_cell(call.origin)});
  CallId const id{number(made.front().front())};
  write_entry(id, 1, entry, &call);
  if (call.follows)
    add_in_step(*call.follows, {entry.saved, entry.said_by, "{}", {}, RingBack{}}, std::nullopt);
  if (has_outcome(parts.said))
    database_.run("UPDATE call SET closed = :closed WHERE id = :id",
                  {cell(entry.saved), cell(number(id))});
  for (auto const& one : call.more) add_in_step(id, one, std::nullopt);
  return id;
}

void Book::save(CallId call, BookEntry const& entry) { save_together(call, {entry}); }

void Book::save_together(CallId call, std::vector<BookEntry> const& entries) {
  Together all(database_, Together::To::write);
  for (auto const& entry : entries) add_in_step(call, entry, std::nullopt);
  all.keep();
}

void Book::close(CallId call, BookEntry const& entry) {
  Together all(database_, Together::To::write);
  auto const its_line = this->call(call);
  bool const was_open = its_line && !its_line->closed;
  add_in_step(call, entry, entry.saved);
  std::set<CallId> done = {call};
  for (auto one = this->call(call); one && one->follows && done.insert(*one->follows).second;) {
    one = this->call(*one->follows);
    if (one && !one->closed) add_in_step(one->call, entry, entry.saved);
  }
  // Those that rang back for them end with them: nobody is due for a patient that is done with. To
  // correct an outcome ends nothing.
  if (was_open)
    for (auto const& visit : visits(its_line->patient))
      if (visit.follows && done.contains(*visit.follows) && done.insert(visit.call).second &&
          !visit.closed)
        add_in_step(visit.call, entry, entry.saved);
  all.keep();
}

void Book::add_in_step(CallId call, BookEntry const& entry, std::optional<std::time_t> closed) {
  // Whoever else saves in this call waits for this row, and so gets the next number.
  auto const updated = database_.rows(
      "UPDATE call SET events = events + 1, saved = :saved, tier = CASE WHEN :sets_tier = "
      "'y' THEN :tier ELSE tier END, ring_back = CASE WHEN :sets = 'y' THEN :ring_back ELSE "
      "ring_back END, closed = coalesce(:closed, "
      "closed) WHERE id = :id RETURNING events",
      1,
      {cell(entry.saved), entry.tier ? "y" : "n", text_cell(entry.tier.value_or("")),
       entry.ring_back ? "y" : "n", time_cell(entry.ring_back ? entry.ring_back->at : std::nullopt),
       time_cell(closed), cell(number(call))});
  if (updated.empty())
    throw BookTrouble(
        fmt::format("{}: there is no call {} in this book", place().shown, number(call)));
  write_entry(call, number(updated.front().front()), entry);
  if (apart(entry.changes).words != "{}") name_patient(call);
}

void Book::write_entry(CallId call, long long place_in_call, BookEntry const& entry,
                       NewCall const* begun_by) {
  auto const parts = apart(entry.changes);
  BookFacts facts;
  facts.tier = entry.tier;
  if (entry.ring_back) facts.ring_back.emplace(entry.ring_back->at);
  if (entry.is_taken_in) facts.taken_in = TakenInMark{parts.words != "{}"};
  facts.waited_in = entry.waited_in;
  if (begun_by != nullptr) {
    if (begun_by->follows) facts.follows = number(*begun_by->follows);
    facts.species = begun_by->species;
    facts.pack = begun_by->pack;
  }
  database_.run(
      "INSERT INTO event (call, number, saved, said_by, changes) VALUES (:call, :number, :saved, "
      ":said_by, :changes)",
      {cell(number(call)), cell(place_in_call), cell(entry.saved), shown(entry.said_by),
       with_book_facts(parts.said, facts)});
  if (parts.words != "{}")
    database_.run("INSERT INTO wording (call, number, changes) VALUES (:call, :number, :changes)",
                  {cell(number(call)), cell(place_in_call), parts.words});
}

PatientId Book::patient_of(BookWords const& words, std::string const& species) {
  if (auto const known = known_patient(words, species)) {
    write_names(*known, words);
    return *known;
  }
  std::optional<ClientId> client;
  if (auto const digits = digits_in(words.telephone); !digits.empty()) {
    auto const found = database_.rows(
        "SELECT p.client FROM search_word w JOIN patient p ON p.id = w.patient "
        "WHERE w.word = :word ORDER BY p.id LIMIT 1",
        1, {"#" + digits});
    if (!found.empty()) client = ClientId{number(found.front().front())};
  }
  return new_patient(words, client);
}

// Of the calls that this condition on a call c chooses; empty: none of them tells.
std::string Book::species_of(std::string const& calls, Cell const& value) {
  for (auto const& row :
       database_.rows("SELECT e.changes FROM event e JOIN call c ON c.id = e.call WHERE " + calls +
                          " ORDER BY e.call, e.number",
                      1, {value}))
    if (auto its = species_in(row.front().value_or("{}")); !its.empty()) return its;
  return "";
}

// The same name at the same number is the same patient, unless it is of another species; anything
// less might be another.
std::optional<PatientId> Book::known_patient(BookWords const& words, std::string const& species) {
  auto const digits = digits_in(words.telephone);
  auto const name = words_in(words.name);
  if (digits.empty() || name.empty()) return std::nullopt;
  for (auto const& row : database_.rows("SELECT p.id, p.name FROM search_word w JOIN patient p ON "
                                        "p.id = w.patient WHERE w.word = :word ORDER BY p.id",
                                        2, {"#" + digits}))
    if (words_in(row[1].value_or("")) == name) {
      auto const its = species_of("c.patient = :patient", row[0]);
      if (its.empty() || species.empty() || its == species) return PatientId{number(row[0])};
    }
  return std::nullopt;
}

PatientId Book::new_patient(BookWords const& words, std::optional<ClientId> client) {
  if (!client)
    client = ClientId{number(
        database_
            .rows("INSERT INTO client (name, telephone) VALUES (:name, :telephone) RETURNING id", 1,
                  {text_cell(words.client), text_cell(words.telephone)})
            .front()
            .front())};
  PatientId const patient{
      number(database_
                 .rows("INSERT INTO patient (client, name) VALUES (:client, :name) RETURNING id", 1,
                       {cell(number(*client)), text_cell(words.name)})
                 .front()
                 .front())};
  write_names(patient, words);
  return patient;
}

// What was told takes the place of what was known; what was not told leaves it.
void Book::write_names(PatientId patient, BookWords const& words) {
  if (words.are_empty()) return;
  if (!words.name.empty())
    database_.run("UPDATE patient SET name = :name WHERE id = :id",
                  {words.name, cell(number(patient))});
  database_.run(
      "UPDATE client SET name = coalesce(:name, name), telephone = coalesce(:telephone, telephone) "
      "WHERE id = (SELECT client FROM patient WHERE id = :id)",
      {text_cell(words.client), text_cell(words.telephone), cell(number(patient))});
  for (auto const& word : search_words(words.name, words.client, words.telephone))
    database_.run(
        "INSERT INTO search_word (word, patient) VALUES (:word, :patient) ON CONFLICT DO NOTHING",
        {word, cell(number(patient))});
}

// Names and numbers are often told late in a call: only then is it known which patient it is about.
void Book::name_patient(CallId call) {
  BookWords const words(words_of(call));
  auto const found = database_.rows(
      "SELECT patient, (SELECT count(*) FROM call o WHERE o.patient = c.patient) FROM call c "
      "WHERE c.id = :id",
      2, {cell(number(call))});
  PatientId const patient{number(found.front()[0])};
  bool const is_its_only_call = number(found.front()[1]) == 1;
  auto const known = known_patient(words, species_of("c.id = :id", cell(number(call))));
  if (!known || *known == patient || !is_its_only_call) return write_names(patient, words);
  auto const client =
      database_.rows("SELECT client FROM patient WHERE id = :id", 1, {cell(number(patient))})
          .front()
          .front();
  database_.run("UPDATE call SET patient = :patient WHERE id = :id",
                {cell(number(*known)), cell(number(call))});
  database_.run("DELETE FROM search_word WHERE patient = :patient", {cell(number(patient))});
  database_.run("DELETE FROM patient WHERE id = :patient", {cell(number(patient))});
  database_.run(
      "DELETE FROM client WHERE id = :client AND NOT EXISTS (SELECT 1 FROM patient WHERE client = "
      ":the_same)",
      {client, client});
  write_names(*known, words);
}

std::string Book::words_of(CallId call) {
  Folded words;
  for (auto const& row :
       database_.rows("SELECT changes FROM wording WHERE call = :call ORDER BY number", 1,
                      {cell(number(call))}))
    words.add(row.front().value_or("{}"));
  return words.text();
}

std::optional<Holder> Book::hold(CallId call, std::string const& desk, std::time_t now,
                                 TakeOver take_over) {
  Together all(database_, Together::To::write);
  auto const row =
      database_
          .rows(
              "INSERT INTO holder (call, desk, since) VALUES (:call, :desk, :since) ON CONFLICT "
              "(call) DO UPDATE SET since = CASE WHEN holder.desk = excluded.desk THEN "
              "excluded.since ELSE holder.since END RETURNING desk, since",
              2, {cell(number(call)), shown(desk), cell(now)})
          .front();
  Holder const has_it{row[0].value_or(""), static_cast<std::time_t>(number(row[1]))};
  bool const is_ours = has_it.desk == shown(desk);
  if (!is_ours && take_over == TakeOver::yes)
    database_.run("UPDATE holder SET desk = :desk, since = :since WHERE call = :call",
                  {shown(desk), cell(now), cell(number(call))});
  all.keep();
  if (is_ours || take_over == TakeOver::yes) return std::nullopt;
  return has_it;
}

std::optional<Holder> Book::holder(CallId call) {
  auto const found =
      database_.rows("SELECT desk, since FROM holder WHERE call = :call", 2, {cell(number(call))});
  if (found.empty()) return std::nullopt;
  return Holder{found.front()[0].value_or(""), static_cast<std::time_t>(number(found.front()[1]))};
}

std::vector<std::pair<CallId, Holder>> Book::held() {
  std::vector<std::pair<CallId, Holder>> out;
  for (auto const& row :
       database_.rows("SELECT call, desk, since FROM holder ORDER BY since, call", 3))
    out.emplace_back(CallId{number(row[0])},
                     Holder{row[1].value_or(""), static_cast<std::time_t>(number(row[2]))});
  return out;
}

void Book::release(CallId call, std::string const& desk) {
  database_.run("DELETE FROM holder WHERE call = :call AND desk = :desk",
                {cell(number(call)), shown(desk)});
}

}  // namespace flinch::cli
