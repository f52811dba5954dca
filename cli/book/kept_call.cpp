#include "book/kept_call.hpp"

#include <fmt/format.h>

#include <utility>

#include "book/case_changes.hpp"
#include "book/origin.hpp"
#include "book/promised_time.hpp"
#include "files/clock.hpp"
#include "flinch/casefile/write_case.hpp"

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
  auto const tier = assessor_.judge(patient).tier;
  if (tier && tables_.pack()[*tier].name != tier_) out.tier = tables_.pack()[*tier].name;
  if (patient.ring_back_at != ring_back_at_)
    out.ring_back = RingBack{promised_time(patient.ring_back_at, now)};
  return out;
}

// What was known before stands as an entry of its own, so that nobody seems to have said it today.
void KeptCall::save(BookEntry entry, std::string const& line,
                    std::vector<SignId> const& from_book) {
  auto& book = *book_.book;
  if (!call_) {
    NewCall anew;
    anew.entry = entry;
    anew.entry.changes = line;
    anew.patient = start_.of;
    anew.origin = origin_;
    anew.follows = start_.follows;
    bool const was_known = !start_.known_from.empty();
    if (was_known)
      anew.entry = {entry.saved, start_.known_from, first_line_};
    else
      first_line_ = line;
    call_ = book.begin(anew);
    if (!call_) throw BookTrouble("the book has this call already");
    (void)book.hold(*call_, desk_.text(), entry.saved, Book::TakeOver::no);
    if (!was_known) return;
  }
  std::vector<std::string> names;
  for (auto const sign : from_book) names.push_back(tables_.pack()[sign].name);
  auto const parts = answers_apart(changes_between(line_, line), names);
  if (parts.of_these != "{}")
    book.save(*call_, {entry.saved, std::string(the_book), parts.of_these});
  entry.changes = parts.rest;
  if (entry.changes != "{}" || entry.tier || entry.ring_back) book.save(*call_, entry);
}

KeptCall::Kept KeptCall::keep(Case const& patient, std::vector<SignId> const& from_book,
                              std::time_t now) {
  auto const line = write_case_line(patient, tables_.pack());
  auto const entry = entry_of(patient, now);
  if (!waiting_ && line == line_) return {};
  if (waiting_ || !book_.book) return wait_in_file(patient, entry, book_.trouble);
  try {
    save(entry, line, from_book);
    line_ = line;
    if (entry.tier) tier_ = *entry.tier;
    ring_back_at_ = patient.ring_back_at;
    Kept out;
    if (entry.ring_back && !entry.ring_back->at && !patient.ring_back_at.empty())
      out.notice =
          "The book cannot tell when that is, and nobody will be reminded: write 15:40, or "
          "2026-11-25 15:40";
    if (auto const other = who_took_it(); !other.empty()) out.notice = other;
    return out;
  } catch (BookTrouble const& trouble) {
    return wait_in_file(patient, entry, trouble.what());
  }
}

std::string KeptCall::who_took_it() {
  auto const holder = book_.book->holder(*call_);
  if (!holder || holder->desk == desk_.text() || holder->desk == told_holder_) return "";
  told_holder_ = holder->desk;
  return fmt::format("{} took this call over at {}. What you record is kept too",
                     DeskName::of(holder->desk).shown(), clock_text(holder->since));
}

KeptCall::Kept KeptCall::wait_in_file(Case const& patient, BookEntry const& entry,
                                      std::string const& why) {
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
    waiting_ = std::make_unique<WaitingCall>(book_.place.identity(), std::move(waited));
  }
  if (auto const trouble = waiting_->write(patient, tables_.pack(), entry)) {
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
  if (waiting_) {
    try {
      Book again(book_.place, Book::Missing::is_trouble);
      call_ = waiting_->take_into(again);
      waiting_.reset();
      book_.book = std::make_unique<Book>(std::move(again));
    } catch (BookTrouble const& trouble) {
      return fmt::format(
          "NOT YET IN THE BOOK: {}. Until it can be taken in, by the next call with this book, the "
          "call is in {}.",
          trouble.what(), waiting_->path());
    }
  }
  release();
  if (!call_) return "";
  return fmt::format("In the book as call {}.", number(*call_));
}

}  // namespace flinch::cli
