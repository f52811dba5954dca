#include "desk/book_desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/call_case.hpp"
#include "book/case_changes.hpp"
#include "book/promised_time.hpp"
#include "book/visits_text.hpp"
#include "book/what_lasts.hpp"
#include "desk/patient_talk.hpp"
#include "files/clock.hpp"
#include "files/read_bytes.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// A caller waits: a book that does not answer must not keep the desk from asking.
constexpr int wait_at_a_desk_s = 5;

// What was answered counts as said just now for so long; and a call is the same trouble for so
// long. Both are judgements.
constexpr std::time_t fresh_for_s = 60 * 60;
constexpr std::time_t same_trouble_for_s = 24 * 60 * 60;

bool is_said_by_the_book(std::string const& who) {
  return who == the_book || who.starts_with(std::string(the_book) + ", call ");
}

using Held = std::vector<std::pair<CallId, Holder>>;

class BookTalk {
 public:
  BookTalk(DeskBook book, DeskName desk, Tables const& tables, std::time_t now, std::istream& in,
           Session const& session)
      : tables_(tables),
        pack_(tables.pack()),
        now_(now),
        in_(in),
        session_(session),
        out_{std::move(book), std::move(desk), {}, {}, {}} {}

  BookDeskStart run(BookWish const& wish) {
    try {
      if (out_.book.book) return talk(wish);
    } catch (BookTrouble const& trouble) {
      out_.book.trouble = trouble.what();
      out_.book.book.reset();
    }
    if (!wish.call.empty() || !wish.ring.empty()) {
      session_.err << fmt::format("flinch: error: {}\n", out_.book.trouble);
      return {std::nullopt, Status::bad, {}};
    }
    remark(fmt::format("{}. This call goes on in a case file, and is taken into the book later.",
                       out_.book.trouble));
    return {std::move(out_), Status::fine, {}};
  }

 private:
  Book& book() { return *out_.book.book; }

  void remark(std::string const& text) {
    Page page(session_.look);
    page.paragraph(text, 0);
    session_.out << page.take() << std::flush;
  }

  std::optional<std::string> read_line() {
    session_.out << "> " << std::flush;
    auto line = read_typed_line(in_);
    if (!line) session_.out << '\n';
    return line;
  }

  BookDeskStart talk(BookWish const& wish) {
    auto const waited = take_in_waiting(book(), tables_);
    if (waited.taken_in > 0)
      remark(fmt::format("{} that waited in case files {} in the book now.",
                         count_text(static_cast<long long>(waited.taken_in), "call"),
                         waited.taken_in == 1 ? "is" : "are"));
    for (auto const& told : waited.told) remark(told);
    if (waited.left > 0)
      remark(fmt::format("Case files that wait for the book and that this pack cannot read: {}.",
                         waited.left));
    auto const& number_named = wish.ring.empty() ? wish.call : wish.ring;
    if (!number_named.empty()) {
      auto const found = call_numbered(book(), number_named, session_);
      if (!found) return {std::nullopt, Status::bad, {}};
      return wish.ring.empty() ? go_on_with(*found) : ring_back_for(*found);
    }
    if (auto broken_off = ask_of_broken_off()) return std::move(*broken_off);
    auto const about = PatientTalk(book(), pack_, in_, session_).ask();
    if (!about) return {std::nullopt, Status::fine, {}};
    // Another desk may have rung back since the list was shown.
    if (about->call && about->rings && about->call->ring_back)
      if (auto const as_it_is = book().call(about->call->call); as_it_is && !as_it_is->ring_back) {
        remark(fmt::format("Call {} was rung back meanwhile, at another desk: it is no longer due.",
                           number(as_it_is->call)));
        return go_on_with(*as_it_is);
      }
    if (about->call) return about->rings ? ring_back_for(*about->call) : go_on_with(*about->call);
    if (about->patient) begin_for(about->patient->patient);
    return {std::move(out_), Status::fine, {}};
  }

  void begin_for(PatientId patient) {
    out_.visits = book().visits(patient);
    auto lasting = what_lasts(out_.visits, pack_, now_);
    out_.start.of = patient;
    out_.start.patient = std::move(lasting.patient);
    out_.from_book = std::move(lasting.signs);
    if (!out_.visits.empty())
      out_.start.known_from =
          fmt::format("{}, call {}", the_book,
                      number(out_.from_book.empty() ? out_.visits.back().call : lasting.from));
    if (out_.from_book.empty()) return;
    std::string known;
    for (auto const& [sign, answer] : out_.start.patient.answers)
      known += fmt::format("{}{}: {}", known.empty() ? "" : "; ", (pack_)[sign].label,
                           answer_text(pack_, sign, answer));
    remark(fmt::format("Known from the book: {}. Whatever is otherwise now, answer anew.", known));
  }

  // A call that was only rung back for, by another one of that run or by one that was never begun:
  // what it says is of another day, and it was not broken off.
  bool was_rung_back_for(CallLine const& call, Holder const& holder, Held const& held) {
    if (holder.since > call.saved) return true;
    return std::any_of(held.begin(), held.end(), [&](auto const& other) {
      if (other.first == call.call || other.second.desk != holder.desk) return false;
      auto const its_line = book().call(other.first);
      return its_line && its_line->follows == call.call;
    });
  }

  // What a run at this machine that is over had open.
  std::optional<BookDeskStart> ask_of_broken_off() {
    auto const held = book().held();
    for (auto const& [call, holder] : held) {
      auto const desk = DeskName::of(holder.desk);
      if (!desk.is_gone() || desk.person != out_.desk.person) continue;
      auto const found = book().call(call);
      if (!found) continue;
      if (was_rung_back_for(*found, holder, held)) {
        book().release(call, holder.desk);
        continue;
      }
      remark(fmt::format(
          "Call {} was broken off at this desk: {}; begun {}, last saved {}. Go on with it? (yes; "
          "no: it stays in the book, open)",
          number(call), who_text(*found), clock_text(found->begun), clock_text(found->saved)));
      for (;;) {
        auto const line = read_line();
        if (!line) return BookDeskStart{std::nullopt, Status::fine, {}};
        auto const yes = read_yes_or_no(*line);
        if (!yes) {
          remark("Type yes or no.");
          continue;
        }
        if (*yes) return go_on_with(*found, BrokenOff::yes);
        book().release(call, holder.desk);
        break;
      }
    }
    return std::nullopt;
  }

  enum class Older : unsigned char { anew, ring, go_on };
  // A no of weeks ago is no answer of today; nothing when the input ended.
  std::optional<Older> ask_of_older(CallLine const& call) {
    bool const is_same_trouble =
        !call.closed && (call.ring_back || now_ - call.begun < same_trouble_for_s);
    remark(fmt::format(
        "Call {} was begun {}{}: what was said then may be otherwise now. {}, or on to go on with "
        "it all the same.",
        number(call.call), clock_text(call.begun),
        call.closed ? " and closed " + clock_text(*call.closed) : "",
        is_same_trouble ? "Press Enter to ring back for it: what it had then is asked first, and "
                          "whether it is worse. Or type new for a new call of this patient"
                        : "Press Enter for a new call of this patient, or type ring to ring back "
                          "for that one"));
    while (auto const line = read_line()) {
      if (line->empty()) return is_same_trouble ? Older::ring : Older::anew;
      if (*line == "new") return Older::anew;
      if (*line == "ring") return Older::ring;
      if (*line == "on") return Older::go_on;
      remark("Type new, ring, on, or press Enter.");
    }
    return std::nullopt;
  }

  // When a person last spoke of the patient at a desk: that it was rung back, or that a file was
  // taken in once more, makes no older answer newer.
  std::time_t last_answered(CallLine const& call) {
    auto last = call.begun;
    for (auto const& entry : book().history(call.call))
      if (!is_said_by_the_book(entry.said_by) && !taken_in_mark(entry.changes) &&
          !answered_in(entry.changes, pack_.patient_key()).empty())
        last = std::max(last, entry.saved);
    return last;
  }

  // A claim of this desk, or of a run that is over, holds nobody up.
  void leave(CallId call) {
    auto const holder = book().holder(call);
    if (holder && (holder->desk == out_.desk.text() || DeskName::of(holder->desk).is_gone()))
      book().release(call, holder->desk);
  }

  // Who broke off a moment ago goes on; who comes back at the time that was agreed is asked anew.
  enum class BrokenOff : bool { no, yes };
  BookDeskStart go_on_with(CallLine const& call, BrokenOff broken_off = BrokenOff::no) {
    auto read = CallReader(pack_).read(call);
    if (!read) return unreadable(call);
    bool const is_agreed = call.ring_back && broken_off == BrokenOff::no;
    if (call.closed || is_agreed || now_ - last_answered(call) >= fresh_for_s) {
      auto const older = ask_of_older(call);
      if (!older) return {std::nullopt, Status::fine, {}};
      if (*older == Older::ring) return ring_back_for(call);
      if (*older == Older::anew) {
        leave(call.call);
        begin_for(call.patient);
        return {std::move(out_), Status::fine, {}};
      }
    }
    add_words(call, read->patient);
    auto const holder = book().hold(call.call, out_.desk.text(), now_, Book::TakeOver::no);
    if (holder)
      if (auto ends = left_to(call, *holder, read->patient)) return std::move(*ends);
    // What was saved while that was asked is part of it.
    auto const as_it_is = holder ? book().call(call.call) : std::optional(call);
    if (as_it_is)
      if (auto again = CallReader(pack_).read(*as_it_is)) {
        add_words(*as_it_is, again->patient);
        // A time that is no longer due is not agreed any more, and may be agreed once more.
        auto& agreed = again->patient.ring_back_at;
        if (!as_it_is->ring_back && promised_time(agreed, now_)) agreed.clear();
        out_.start.patient = std::move(again->patient);
      }
    out_.start.call = call;
    out_.start.of = call.patient;
    out_.start.follows = call.follows;
    out_.from_book = still_from_book(call.call);
    out_.visits = book().visits(call.patient);
    std::erase_if(out_.visits, [&](CallLine const& one) {
      return one.begun > call.begun || one.call == call.call;
    });
    if (!read->unknown_names.empty())
      remark(
          fmt::format("{} of its answers are unknown to this pack: they stay in the book, and "
                      "are not shown.",
                      read->unknown_names.size()));
    return {std::move(out_), Status::fine, {}};
  }

  // What entries of the book say and nobody said anything of since.
  std::vector<SignId> still_from_book(CallId call) {
    std::vector<SignId> out;
    for (auto const& entry : book().history(call)) {
      bool const is_of_the_book = is_said_by_the_book(entry.said_by);
      for (auto const& name : answered_in(entry.changes, pack_.patient_key())) {
        auto const sign = pack_.find_sign(name);
        if (!sign) continue;
        std::erase(out, *sign);
        if (is_of_the_book) out.push_back(*sign);
      }
    }
    // Taken back since, by the book itself.
    std::erase_if(out, [&](SignId sign) {
      auto const& answers = out_.start.patient.answers;
      return std::none_of(answers.begin(), answers.end(),
                          [&](auto const& one) { return one.first == sign; });
    });
    return out;
  }

  // A call of its own, so that what was said then stays as it was said: nothing of it is today's.
  BookDeskStart ring_back_for(CallLine const& named) {
    auto visits = book().visits(named.patient);
    // It may have been rung back for already: the last of these is compared with.
    auto last = named;
    for (auto const& visit : visits)
      if (visit.follows == last.call) last = visit;
    auto read = CallReader(pack_).read(last);
    if (!read) return unreadable(last);
    if (auto const holder = book().hold(last.call, out_.desk.text(), now_, Book::TakeOver::no)) {
      add_words(last, read->patient);
      if (auto ends = left_to(last, *holder, read->patient)) return std::move(*ends);
    }
    begin_for(last.patient);
    out_.start.follows = last.call;
    return {std::move(out_), Status::fine, {}};
  }

  BookDeskStart unreadable(CallLine const& call) {
    session_.err << unreadable_call(call);
    return {std::nullopt, Status::bad, {}};
  }

  // What becomes of a call that another desk has; nothing when it is taken over.
  std::optional<BookDeskStart> left_to(CallLine const& call, Holder const& holder,
                                       Case const& patient) {
    switch (wish_for(call, holder)) {
      case Wish::leave:
        return BookDeskStart{std::nullopt, Status::fine, {}};
      case Wish::look:
        return BookDeskStart{std::nullopt, Status::fine, patient};
      case Wish::take_over:
        (void)book().hold(call.call, out_.desk.text(), now_, Book::TakeOver::yes);
    }
    return std::nullopt;
  }

  enum class Wish : unsigned char { leave, look, take_over };
  Wish wish_for(CallLine const& call, Holder const& holder) {
    auto const other = DeskName::of(holder.desk);
    if (other.is_gone()) return Wish::take_over;
    remark(fmt::format(
        "{} has call {} open since {}. Type look to see it as it stands, take to take it over, or "
        "press Enter to leave it.",
        other.shown(), number(call.call), clock_text(holder.since)));
    while (auto const line = read_line()) {
      if (line->empty()) break;
      if (*line == "look" || *line == "l") return Wish::look;
      if (*line == "take" || *line == "t") return Wish::take_over;
      remark("Type look, take, or press Enter.");
    }
    return Wish::leave;
  }

  Tables const& tables_;
  Pack const& pack_;
  std::time_t now_;
  std::istream& in_;
  Session const& session_;
  BookDesk out_;
};

}  // namespace

std::vector<Option> book_wish_options(BookWish& wish) {
  return {
      book_option(wish.book),
      {"--no-book", &wish.none, "Keep nothing in the book, where there is one"},
      {"--call", &wish.call, "Go on with this call of the book, by its number", {.shown = "CALL"}},
      by_option(wish.by)};
}

std::optional<DeskBook> desk_book(BookWish const& wish, Talks talks) {
  bool const is_named = !wish.book.empty();
  if (wish.none || (!is_named && talks == Talks::no && wish.call.empty() && wish.ring.empty()))
    return std::nullopt;
  DeskBook out;
  try {
    if (is_named || !wish.call.empty() || !wish.ring.empty()) {
      out.place = book_place(wish.book);
    } else {
      auto const in_use = book_in_use();
      if (!in_use) return std::nullopt;
      out.place = *in_use;
    }
    out.place.wait_s = wait_at_a_desk_s;
    out.book = std::make_unique<Book>(
        out.place, is_named ? Book::Missing::is_made : Book::Missing::is_trouble);
  } catch (BookTrouble const& trouble) {
    out.trouble = trouble.what();
  }
  return out;
}

BookDeskStart begin_at_book(DeskBook book, BookWish const& wish, Tables const& tables,
                            std::time_t now, std::istream& in, Session const& session) {
  return BookTalk(std::move(book), DeskName::here(who_does_it(wish.by)), tables, now, in, session)
      .run(wish);
}

}  // namespace flinch::cli
