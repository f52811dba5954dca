// Calls that are taken in from files, again and again, each one time.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "book/book.hpp"
#include "book/book_words.hpp"
#include "book/case_changes.hpp"
#include "book/search_words.hpp"

namespace flinch::cli {
namespace {

// Same name or same number is the same patient with the other corrected; a file whose name is
// another and whose number is not known to be the same is about another patient.
bool are_of_other_patients(BookWords const& one, BookWords const& other) {
  auto const name = words_in(one.name);
  auto const other_name = words_in(other.name);
  if (name.empty() || other_name.empty() || name == other_name) return false;
  auto const digits = digits_in(one.telephone);
  return digits.empty() || digits != digits_in(other.telephone);
}

}  // namespace

std::optional<CallId> Book::call_of_origin(std::string const& origin) {
  if (origin.empty()) return std::nullopt;
  auto const found = database_.rows("SELECT id FROM call WHERE origin = :origin", 1, {origin});
  return found.empty() ? std::nullopt : std::optional(CallId{number(found.front().front())});
}

std::vector<CallId> Book::calls_at_same_start(NewCall const& call) {
  std::vector<CallId> out;
  auto const parts = apart(call.entry.changes);
  auto const species = species_in(parts.said);
  auto const patient =
      known_patient(BookWords(parts.words), species.empty() ? call.species : species);
  if (!patient) return out;
  for (auto const& row :
       database_.rows("SELECT id FROM call WHERE patient = :patient AND begun = :begun ORDER BY id",
                      1, {cell(number(*patient)), cell(call.entry.saved)}))
    out.push_back(CallId{number(row.front())});
  return out;
}

TakenIn Book::take_in(std::vector<NewCall> const& calls) {
  Together all(database_, Together::To::write);
  // What one of these files is for certain, no other of them is.
  std::set<CallId> claimed;
  for (auto const& call : calls)
    if (auto const found = call_of_origin(call.origin)) claimed.insert(*found);
  auto const known_as = [&](NewCall const& call) -> std::optional<CallId> {
    if (call.origin.empty()) return std::nullopt;
    if (auto const found = call_of_origin(call.origin)) {
      if (!are_of_other_patients(BookWords(words_of(*found)),
                                 BookWords(apart(call.entry.changes).words)))
        return found;
      // The file is used again, for another patient: its first call stays as it is.
      database_.run("UPDATE call SET origin = NULL WHERE id = :id", {cell(number(*found))});
      return std::nullopt;
    }
    auto others = calls_at_same_start(call);
    if (auto const older = call_of_origin(call.older_origin)) others.insert(others.begin(), *older);
    auto const free = std::find_if(others.begin(), others.end(),
                                   [&](CallId id) { return !claimed.contains(id); });
    return free == others.end() ? std::nullopt : std::optional(*free);
  };
  TakenIn out;
  for (auto const& call : calls) {
    auto const known = known_as(call);
    if (!known) {
      claimed.insert(begin_one(call));
      ++out.begun;
      continue;
    }
    ++(save_news_of(*known, call) ? out.changed : out.known);
    database_.run("UPDATE call SET origin = :origin WHERE id = :id",
                  {call.origin, cell(number(*known))});
    claimed.insert(*known);
  }
  all.keep();
  return out;
}

TakenInCall Book::take_in(WaitedCall const& waited, Judge const& judge) {
  Together all(database_, Together::To::write);
  auto known = call_of_origin(waited.call.origin);
  // A book that was restored may have given its number to another call.
  if (!known && waited.known)
    if (auto const found = call(*waited.known); found && found->begun == waited.begun)
      known = waited.known;
  TakenInCall out;
  if (known) {
    out.call = *known;
    save_waited(out, waited, judge);
  } else {
    begin_waited(out, waited);
  }
  if (!waited.ended_by.empty())
    for (auto const& held : {std::optional(out.call), waited.call.follows})
      if (held) release(*held, waited.ended_by);
  all.keep();
  return out;
}

void Book::begin_waited(TakenInCall& taken, WaitedCall const& waited) {
  auto anew = waited.call;
  anew.entry.saved = waited.begun;
  if (!is_patient_of(waited)) anew.patient.reset();
  if (anew.follows && !call(*anew.follows)) anew.follows.reset();
  // What was known before stands as an entry of its own.
  if (!waited.known_line.empty()) {
    anew.entry = {waited.begun, waited.known_from, waited.known_line};
    anew.entry.waited_in = waited.call.entry.waited_in;
  }
  taken.call = begin_one(anew);
  if (!waited.known_line.empty()) {
    auto entry = waited.call.entry;
    entry.changes = changes_between(waited.known_line, entry.changes);
    add_waited(taken.call, waited.from_book, std::move(entry));
  }
  taken.tier = waited.call.entry.tier.value_or("");
}

// Into a call that the book has: what others said in it since stays, and counts for its urgency.
void Book::save_waited(TakenInCall& taken, WaitedCall const& waited, Judge const& judge) {
  auto const entries = history(taken.call);
  auto stands = *call(taken.call);
  taken.tier = taken.tier_before = stands.tier;
  if (std::any_of(entries.begin(), entries.end(), [&](KeptEntry const& one) {
        return has_waited_in(one.changes, waited.call.entry.waited_in);
      }))
    return;
  auto entry = waited.call.entry;
  entry.changes = came_for_of_both(changes_between(waited.before, entry.changes), waited.before,
                                   entry.changes, stands.line);
  taken.others_wrote = changes_between(apart(waited.before).said, stands.line) != "{}";
  // Alone in the call, its desk told what there was to tell; the pack of whoever takes it in may
  // be another.
  if (!taken.others_wrote) {
    taken.tier = entry.tier.value_or(stands.tier);
  } else {
    stands.line = said_together(stands.line, entry.changes);
    taken.tier = judge(stands);
  }
  entry.tier.reset();
  if (taken.tier != taken.tier_before) entry.tier = taken.tier;
  add_waited(taken.call, waited.from_book, std::move(entry));
}

// What the book said of itself apart from what a person did.
void Book::add_waited(CallId call, std::vector<std::string> const& from_book, BookEntry entry) {
  auto const parts = answers_apart(entry.changes, from_book);
  if (parts.of_these != "{}") {
    BookEntry its{entry.saved, std::string(the_book), parts.of_these};
    its.waited_in = entry.waited_in;
    add_in_step(call, its, std::nullopt);
  }
  entry.changes = parts.rest;
  if (entry.changes != "{}" || entry.tier || entry.ring_back)
    add_in_step(call, entry, std::nullopt);
}

// A restored book may have given a patient's number to another: only name and number tell.
bool Book::is_patient_of(WaitedCall const& waited) {
  if (!waited.call.patient) return false;
  auto const its = patient(*waited.call.patient);
  if (!its) return false;
  auto const name = words_in(its->name);
  auto const digits = digits_in(its->telephone);
  if (name.empty() && digits.empty()) return false;
  // The name may have been corrected in the call: then what it began with tells.
  for (auto const& line : {waited.known_line, waited.before, waited.call.entry.changes}) {
    if (line.empty()) continue;
    BookWords const words(apart(line).words);
    if (words_in(words.name) == name && digits_in(words.telephone) == digits) return true;
  }
  return false;
}

// What the file says otherwise than before; what was said at desks between stays.
bool Book::save_news_of(CallId id, NewCall const& call) {
  auto const stands =
      database_.rows("SELECT saved, tier, origin FROM call WHERE id = :id", 3, {cell(number(id))});
  auto const& row = stands.front();
  Folded before;
  bool is_forgotten = false;
  bool is_first_of_file = row[2].has_value();
  for (auto const& entry : history(id)) {
    auto const mark = taken_in_mark(entry.changes);
    // Older books do not tell whether there were words: then none come back.
    if (mark || is_first_of_file) {
      before.add(entry.changes);
      before.add(entry.wordings);
      if (entry.wordings == "{}" && (!mark || mark->had_words)) is_forgotten = true;
    }
    is_first_of_file = false;
  }
  auto changes = changes_between(before.text(), call.entry.changes);
  if (is_forgotten) changes = apart(changes).said;
  auto const patch = nlohmann::json::parse(changes);
  if (patch.empty()) return false;
  auto entry = call.entry;
  entry.changes = changes;
  entry.is_taken_in = true;
  entry.saved = std::max<std::time_t>(entry.saved, number(row[0]));
  if (entry.tier == row[1]) entry.tier.reset();
  if (!patch.contains("ring back at"))
    entry.ring_back.reset();
  else if (!entry.ring_back)
    entry.ring_back = RingBack{};
  auto const has_now = has_outcome(changes);
  add_in_step(id, entry, has_now ? std::optional(entry.saved) : std::nullopt);
  if (!has_now && patch.contains("outcome"))
    database_.run("UPDATE call SET closed = NULL WHERE id = :id", {cell(number(id))});
  return true;
}

}  // namespace flinch::cli
