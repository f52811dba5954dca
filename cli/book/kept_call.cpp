#include "book/kept_call.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "book/case_changes.hpp"
#include "book/origin.hpp"
#include "book/promised_time.hpp"
#include "book/urgency_of_all.hpp"
#include "files/clock.hpp"
#include "flinch/casefile/write_case.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

KeptCall::KeptCall(DeskBook book, CallStart const& start, Tables const& tables, DeskName desk,
                   std::time_t now)
    : book_(std::move(book)),
      tables_(tables),
      desk_(std::move(desk)),
      start_(start),
      begun_(start.call ? start.call->begun : now),
      origin_(new_origin()),
      line_(write_case_line(start.patient, tables.pack())),
      first_line_(line_),
      ring_back_at_(start.patient.ring_back_at),
      assessor_(tables) {
  if (start.call) {
    call_ = start.call->call;
    tier_ = start.call->tier;
    is_shared_ = true;
    try {
      if (book_.book) entries_ = book_.book->entries(*call_);
    } catch (BookTrouble const&) {
      // The first save tells what is wrong with the book.
    }
  }
}

void KeptCall::release() {
  if (!book_.book) return;
  try {
    for (auto const& held : {call_, start_.follows})
      if (held) book_.book->release(*held, desk_.text());
  } catch (BookTrouble const&) {
    // A claim of a run that is over holds nobody up.
  }
}

// The tier is told where it changed, and so is the time to ring back.
BookEntry KeptCall::entry_of(Case const& patient, std::time_t now) {
  BookEntry out;
  out.saved = now;
  out.said_by = desk_.person;
  auto const name = name_of_tier(tables_.pack(), assessor_.judge(patient).tier);
  if (name != tier_) out.tier = name;
  if (patient.ring_back_at != ring_back_at_)
    out.ring_back = RingBack{promised_time(patient.ring_back_at, now)};
  return out;
}

// What was known before stands as an entry of its own, so that nobody seems to have said it today.
// All of a save is one step of the book.
void KeptCall::save(BookEntry& entry, std::string const& line,
                    std::vector<std::string> const& from_book, Case const& patient) {
  auto& book = *book_.book;
  bool const was_known = !start_.known_from.empty();
  std::vector<BookEntry> entries;
  if (call_ || was_known) {
    auto changes = changes_between(line_, line);
    if (is_shared_)
      if (auto stands = book.call(*call_)) {
        changes = came_for_of_both(changes, line_, line, stands->line);
        judge_with_the_others(entry, std::move(*stands), changes, patient);
      }
    auto const parts = answers_apart(changes, from_book);
    if (parts.of_these != "{}")
      entries.push_back({entry.saved, std::string(the_book), parts.of_these});
    entry.changes = parts.rest;
    if (entry.changes != "{}" || entry.tier || entry.ring_back) entries.push_back(entry);
  }
  if (call_) {
    book.save_together(*call_, entries);
    entries_ += static_cast<long long>(entries.size());
    return;
  }
  NewCall anew;
  anew.entry = entry;
  anew.entry.changes = line;
  anew.patient = start_.of;
  anew.origin = origin_;
  anew.follows = start_.follows;
  anew.species = tables_.pack().patient_key();
  anew.pack = tables_.pack().name;
  if (was_known)
    anew.entry = {entry.saved, start_.known_from, first_line_};
  else
    first_line_ = line;
  anew.more = entries;
  call_ = book.begin(anew);
  if (!call_) throw BookTrouble("the book has this call already");
  entries_ = 1 + static_cast<long long>(entries.size());
  (void)book.hold(*call_, desk_.text(), entry.saved, Book::TakeOver::no);
}

void KeptCall::judge_with_the_others(BookEntry& entry, CallLine stands, std::string const& changes,
                                     Case const& patient) {
  auto const& pack = tables_.pack();
  tier_ = stands.tier;
  stands.line = said_together(stands.line, changes);
  auto const own = name_of_tier(pack, assessor_.judge(patient).tier);
  auto const name = urgency_of_all(assessor_, pack, own, stands);
  entry.tier.reset();
  if (name != tier_) entry.tier = name;
}

KeptCall::Kept KeptCall::keep(Case const& patient, std::vector<SignId> const& from_book,
                              std::time_t now) {
  auto const line = write_case_line(patient, tables_.pack());
  auto entry = entry_of(patient, now);
  std::vector<std::string> names;
  for (auto const sign : from_book) names.push_back(tables_.pack()[sign].name);
  bool const says_nothing = line == line_;
  if (says_nothing && (waiting_ || !book_.book || !call_)) return {};
  if (waiting_ || !book_.book) return wait_in_file(patient, entry, book_.trouble, names);
  try {
    auto const others = who_else_wrote();
    if (says_nothing && others.empty()) return {};
    save(entry, line, names, patient);
    line_ = line;
    if (entry.tier) tier_ = *entry.tier;
    ring_back_at_ = patient.ring_back_at;
    Kept out;
    if (entry.ring_back && !entry.ring_back->at && !patient.ring_back_at.empty())
      out.notice =
          "The book cannot tell when that is, and nobody will be reminded: write 15:40, or "
          "2026-11-25 15:40";
    for (auto const& told : {who_took_it(), others})
      if (!told.empty()) out.notice += (out.notice.empty() ? "" : ". ") + told;
    return out;
  } catch (BookTrouble const& trouble) {
    return wait_in_file(patient, entry, trouble.what(), names);
  }
}

std::string KeptCall::who_took_it() {
  auto const holder = book_.book->holder(*call_);
  if (!holder || holder->desk == desk_.text() || holder->desk == told_holder_) return "";
  told_holder_ = holder->desk;
  return fmt::format("{} took this call over at {}. What you record is kept too",
                     DeskName::of(holder->desk).shown(), clock_text(holder->since));
}

// What this desk records from then on is judged with it.
std::string KeptCall::who_else_wrote() {
  if (!call_) return "";
  auto const count = book_.book->entries(*call_);
  if (count <= entries_) return "";
  auto const all = book_.book->history(*call_);
  auto const known = std::min(static_cast<std::size_t>(entries_), all.size());
  entries_ = static_cast<long long>(all.size());
  is_shared_ = true;
  std::string who;
  for (auto i = known; i < all.size(); ++i)
    if (all[i].said_by != the_book) who = all[i].said_by;
  return fmt::format("{} wrote into this call too: both are kept, and its urgency is of both ({})",
                     who.empty() ? "Another desk" : inert(who),
                     fmt::format("flinch book history {}", number(*call_)));
}

KeptCall::Kept KeptCall::wait_in_file(Case const& patient, BookEntry const& entry,
                                      std::string const& why,
                                      std::vector<std::string> const& from_book) {
  bool const is_first = !waiting_;
  if (is_first) {
    WaitedCall waited;
    waited.known = call_;
    waited.begun = begun_;
    waited.before = call_ ? line_ : first_line_;
    waited.call.entry = entry;
    waited.call.entry.waited_in = new_origin();
    waited.call.origin = origin_;
    waited.call.patient = start_.of;
    waited.call.follows = start_.follows;
    waited.call.species = tables_.pack().patient_key();
    waited.call.pack = tables_.pack().name;
    if (!start_.known_from.empty()) {
      waited.known_from = start_.known_from;
      waited.known_line = first_line_;
    }
    waiting_ = std::make_unique<WaitingCall>(book_.place.identity(), std::move(waited));
  }
  if (auto const trouble = waiting_->write(patient, tables_.pack(), entry, from_book)) {
    auto out = fmt::format("{}; and no case file can be written: {}", why, *trouble);
    if (is_first) waiting_.reset();
    return {std::move(out), ""};
  }
  line_ = write_case_line(patient, tables_.pack());
  if (entry.tier) tier_ = *entry.tier;
  ring_back_at_ = patient.ring_back_at;
  if (!is_first) return {};
  return {"", fmt::format("{}. The call goes on in a case file, and is taken into the book later",
                          why)};
}

std::string KeptCall::end() {
  std::string told;
  if (waiting_) {
    try {
      Book again(book_.place, Book::Missing::is_trouble);
      auto const taken = waiting_->take_into(again, assessor_, tables_.pack(), tier_);
      call_ = taken.call;
      told = taken.told;
      waiting_.reset();
      book_.book = std::make_unique<Book>(std::move(again));
    } catch (BookTrouble const& trouble) {
      waiting_->end(tables_.pack(), desk_.text());
      return fmt::format(
          "NOT YET IN THE BOOK: {}. Until it can be taken in, by the next call with this book, the "
          "call is in {}.",
          trouble.what(), waiting_->path());
    }
  }
  release();
  if (!call_) return "";
  return fmt::format("In the book as call {}.{}{}", number(*call_), told.empty() ? "" : " ", told);
}

}  // namespace flinch::cli
