#pragma once
// A practice's day book: every call, and what was said in it, in the order in which it was said.
//
//   Book book(book_place(""), Book::Missing::is_made);
//   auto const call = book.begin({.entry = {now, "front desk", line}});
//   book.save(call, {now, "front desk", R"({"answers": {"lame": "yes"}})"});
//   book.call(call).line          // the case as it stands: {"answers": {"lame": "yes"}, ...}
//
// What is said stands as on a line of cases (`write_case_line`); the book knows no pack. Each save
// is one transaction, forced to the disk when the function returns. Everything throws BookTrouble.
#include <ctime>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/database.hpp"
#include "book/trouble.hpp"

namespace flinch::cli {

enum class CallId : long long {};
enum class PatientId : long long {};
enum class ClientId : long long {};

[[nodiscard]] constexpr long long number(CallId id) { return static_cast<long long>(id); }
[[nodiscard]] constexpr long long number(PatientId id) { return static_cast<long long>(id); }
[[nodiscard]] constexpr long long number(ClientId id) { return static_cast<long long>(id); }

/// When the caller is to be rung back; without a time, no more.
struct RingBack {
  std::optional<std::time_t> at;
};

/// Who said what was known before a call: entries of nobody at a desk.
inline constexpr std::string_view the_book = "the book";

/// What one save says.
struct BookEntry {
  std::time_t saved = 0;
  std::string said_by;  ///< a desk or a person of the practice
  /// A merge patch (RFC 7396) of the case's line: what is in it takes the place of what was said,
  /// null takes back. The first entry of a call is the line itself.
  std::string changes = "{}";
  /// The name of the tier that was told, where it changed; empty: none is told any more.
  std::optional<std::string> tier{};
  std::optional<RingBack> ring_back{};  ///< where that changed
  bool is_taken_in = false;             ///< said by a file, not at a desk
  std::string waited_in{};  ///< the case file in which it waited for the book, by a name of its own
};

/// An entry as it was kept.
struct KeptEntry {
  std::time_t saved = 0;
  std::string said_by;
  std::string changes;   ///< without the words below
  std::string wordings;  ///< the changes of name, caller, number and notes; `{}` when forgotten
};

/// Who has a call open, as the desk calls itself.
struct Holder {
  std::string desk;
  std::time_t since = 0;
  friend bool operator==(Holder const&, Holder const&) = default;
};

struct NewCall {
  BookEntry entry;
  std::vector<BookEntry> more{};  ///< entries after it, saved with it
  /// The patient that it is about, when somebody chose it. Otherwise the patient of the same name
  /// at the same telephone number, of no other species, or a new one.
  std::optional<PatientId> patient{};
  /// Where a call that is taken in comes from, so that it is once only.
  std::string origin{};
  /// What an older version of the program called that.
  std::string older_origin{};
  /// The call that this one rings back for, which then is no longer due.
  std::optional<CallId> follows{};
  std::string species{};  ///< the key under which its pack's cases tell of the patient
  std::string pack{};     ///< its name: the tiers of the call are this pack's
};

/// A call that a desk could not save in the book for a while, and kept in a case file.
struct WaitedCall {
  NewCall call;                   ///< the whole of it, to be begun where the book does not have it
  std::string before;             ///< its line as the desk last saved it, or tried to
  std::optional<CallId> known{};  ///< its number, where the book had begun it
  std::time_t begun = 0;
  std::string known_from{};              ///< who says what was known before, `the_book` mostly
  std::string known_line{};              ///< that, as a line; empty: nothing was
  std::vector<std::string> from_book{};  ///< signs of which the book spoke in it, and nobody else
  std::string ended_by{};                ///< the desk that had it and is done with it; empty: none
};

/// What became of it.
struct TakenInCall {
  CallId call{};
  bool others_wrote = false;  ///< into it, while this one waited
  std::string tier_before{};  ///< that stood in the book
  std::string tier{};         ///< that stands there now
};

/// One line of a list.
struct CallLine {
  CallId call{};
  PatientId patient{};
  std::time_t begun = 0;
  std::time_t saved = 0;
  std::string tier;  ///< its name; empty: none was told
  std::optional<std::time_t> ring_back;
  std::optional<std::time_t> closed;
  std::optional<CallId> follows;  ///< the call that it rang back for
  std::string patient_name;       ///< this and the next two empty when never told, or forgotten
  std::string client_name;
  std::string telephone;
  std::string pack;     ///< by which it was begun; empty: an older book does not tell
  std::string species;  ///< empty: not told
  std::string line;     ///< the case without name, caller, number and notes, as JSON
  std::string words;    ///< these, as JSON
};

/// A patient that a search found.
struct PatientFound {
  PatientId patient{};
  ClientId client{};
  std::string name;
  std::string client_name;
  std::string telephone;
  long long calls = 0;
  std::time_t last = 0;  ///< when its last call began
};

/// How many of what was forgotten.
struct Forgotten {
  long long clients = 0;
  long long patients = 0;
  long long calls = 0;
  /// False when another program was reading a book in a file, so that what was forgotten still
  /// stands in its log: to forget the same again empties it.
  bool are_traces_gone = true;
};

/// What became of calls that were taken in.
struct TakenIn {
  std::size_t begun = 0;
  std::size_t changed = 0;  ///< known, and saved with what their file says otherwise now
  std::size_t known = 0;
};

/// Which calls are gone through.
struct Calls {
  enum class Which : unsigned char { all, closed };
  Which which = Which::all;
  std::optional<std::time_t> from{};   ///< begun then or later
  std::optional<std::time_t> until{};  ///< begun before
};

struct BookWords;

class Book {
 public:
  using Missing = Database::Missing;

  /// Opens a book, and brings an older one up to date.
  Book(BookPlace const& place, Missing missing);

  [[nodiscard]] BookPlace const& place() const { return database_.place(); }
  /// False when others than its owner may read the file.
  [[nodiscard]] bool is_private() const { return database_.is_private(); }

  /// A call and its first entry. Nothing when one of this origin is in the book already.
  [[nodiscard]] std::optional<CallId> begin(NewCall const& call);
  /// Several at once, all or none. One that is known, by its origin or as the same patient at the
  /// same number that began at the same second, is not begun again: what its line says otherwise
  /// than when it was last taken in is saved as an entry. Words that were forgotten stay so.
  TakenIn take_in(std::vector<NewCall> const& calls);
  /// The same of one that waited in a case file: begun, or what the file says beyond `before` saved
  /// into it; nothing is saved when that file was taken in already. `judge` is asked for the tier
  /// of a call that the book had, with all that was said in it; it may not use the book.
  using Judge = std::function<std::string(CallLine const& together)>;
  TakenInCall take_in(WaitedCall const& waited, Judge const& judge);
  /// One more entry. Two desks that save in one call both are kept; of two answers to one sign the
  /// later counts. Throws for a call that is not there.
  void save(CallId call, BookEntry const& entry);
  /// Several in one transaction.
  void save_together(CallId call, std::vector<BookEntry> const& entries);
  /// The entry that closes a call, with the outcome in its changes, and the open ones that it rang
  /// back for or that rang back for it; again, to correct it.
  void close(CallId call, BookEntry const& entry);

  /// Takes a call for a desk. Who has it, when that is another and it is not taken over; nothing
  /// when it is now this desk's.
  enum class TakeOver : bool { no, yes };
  [[nodiscard]] std::optional<Holder> hold(CallId call, std::string const& desk, std::time_t now,
                                           TakeOver take_over);
  /// Gives it back; nothing happens when another desk has taken it over.
  void release(CallId call, std::string const& desk);
  [[nodiscard]] std::optional<Holder> holder(CallId call);
  /// All calls that a desk has open.
  [[nodiscard]] std::vector<std::pair<CallId, Holder>> held();

  [[nodiscard]] std::optional<CallLine> call(CallId call);
  [[nodiscard]] std::vector<KeptEntry> history(CallId call);
  /// How many entries that has.
  [[nodiscard]] long long entries(CallId call);

  /// Open calls that somebody is to be rung back for, the longest overdue first, at most so many.
  [[nodiscard]] std::vector<CallLine> ring_backs(std::size_t most);
  /// Calls that began in [from, until), oldest first.
  [[nodiscard]] std::vector<CallLine> begun(std::time_t from, std::time_t until, std::size_t most);
  /// Those of them that are not closed.
  [[nodiscard]] std::vector<CallLine> open(std::time_t from, std::time_t until, std::size_t most);
  /// All calls of a patient, oldest first.
  [[nodiscard]] std::vector<CallLine> visits(PatientId patient);

  /// Patients by the beginnings of words of their name, of their caller's, and by the first or last
  /// digits of the number; every word must fit. Latest first, at most so many.
  [[nodiscard]] std::vector<PatientFound> find(std::string const& words, std::size_t most);
  [[nodiscard]] std::optional<PatientFound> patient(PatientId patient);
  [[nodiscard]] std::vector<PatientFound> patients_of(ClientId client);

  /// Every such call in the order of its number, as the book was when this began.
  void each_call(Calls const& which, std::function<void(CallLine const&)> const& take);

  /// Removes name, number and words of a client and of what was said about all its patients; the
  /// medical entries stay.
  Forgotten forget(ClientId client);
  /// The same of every call that was last saved before this time, and of clients and patients
  /// without a later one.
  Forgotten forget_before(std::time_t time);

  /// Every row into a book that holds none; `to` as it then is. Throws where it holds some.
  void copy_into(Book& to);

 private:
  [[nodiscard]] CallId begin_one(NewCall const& call);
  [[nodiscard]] std::optional<CallId> call_of_origin(std::string const& origin);
  [[nodiscard]] std::vector<CallId> calls_at_same_start(NewCall const& call);
  [[nodiscard]] bool save_news_of(CallId known, NewCall const& call);
  void add_in_step(CallId call, BookEntry const& entry, std::optional<std::time_t> closed);
  void write_entry(CallId call, long long number, BookEntry const& entry,
                   NewCall const* begun_by = nullptr);
  void add_waited(CallId call, std::vector<std::string> const& from_book, BookEntry entry);
  void begin_waited(TakenInCall& taken, WaitedCall const& waited);
  void save_waited(TakenInCall& taken, WaitedCall const& waited, Judge const& judge);
  [[nodiscard]] bool is_patient_of(WaitedCall const& waited);
  [[nodiscard]] PatientId patient_of(BookWords const& words, std::string const& species);
  [[nodiscard]] std::optional<PatientId> known_patient(BookWords const& words,
                                                       std::string const& species);
  [[nodiscard]] std::string species_of(std::string const& calls, Cell const& value);
  [[nodiscard]] PatientId new_patient(BookWords const& words, std::optional<ClientId> client);
  void name_patient(CallId call);
  void write_names(PatientId patient, BookWords const& words);
  [[nodiscard]] std::string words_of(CallId call);
  [[nodiscard]] std::vector<CallLine> lines(std::string const& where,
                                            std::vector<Cell> const& values);
  void forget_patient_names(std::string const& patients, std::vector<Cell> const& values);
  [[nodiscard]] bool remove_traces();

  Database database_;
};

}  // namespace flinch::cli
