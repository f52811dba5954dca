#include "book/waiting_calls.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <sstream>
#include <utility>

#include "book/urgency_of_all.hpp"
#include "files/case_source.hpp"
#include "files/read_bytes.hpp"
#include "flinch/casefile/write_case.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view waiting_files = "waiting";
constexpr std::string_view waiting_mark = "not yet in the book: ";
constexpr int most_waiting = 1000;

template <class Id>
Json number_or_null(std::optional<Id> const& id) {
  return id ? Json(number(*id)) : Json();
}

// In letters of ASCII alone: one line, whatever was said.
std::string comment_of(std::string const& book, WaitedCall const& waited) {
  auto const& entry = waited.call.entry;
  Json out = {{"book", book},
              {"origin", waited.call.origin},
              {"file", entry.waited_in},
              {"call", number_or_null(waited.known)},
              {"patient", number_or_null(waited.call.patient)},
              {"follows", number_or_null(waited.call.follows)},
              {"begun", waited.begun},
              {"saved", entry.saved},
              {"by", entry.said_by},
              {"before", waited.before},
              {"known from", waited.known_from},
              {"known", waited.known_line},
              {"from the book", waited.from_book},
              {"ended by", waited.ended_by}};
  if (entry.tier) out["tier"] = *entry.tier;
  if (entry.ring_back) out["ring back"] = entry.ring_back->at ? Json(*entry.ring_back->at) : Json();
  return std::string(waiting_mark) + out.dump(-1, ' ', true, Json::error_handler_t::replace);
}

struct WaitingFile {
  std::string book;
  WaitedCall waited;
};

// What is no such comment, whoever wrote it, waits for nothing.
std::optional<WaitingFile> read_comment(std::string const& path) {
  auto const bytes = read_file(path);
  if (!bytes) return std::nullopt;
  auto const line = bytes->substr(0, bytes->find('\n'));
  auto const head = "# " + std::string(waiting_mark);
  if (!line.starts_with(head)) return std::nullopt;
  auto const tree = Json::parse(line.substr(head.size()), nullptr, false);
  if (!tree.is_object()) return std::nullopt;
  auto const text = [&](char const* key) {
    auto const found = tree.find(key);
    return found != tree.end() && found->is_string() ? found->get<std::string>() : "";
  };
  auto const whole = [&](char const* key) -> std::optional<long long> {
    auto const found = tree.find(key);
    if (found == tree.end() || !found->is_number_integer()) return std::nullopt;
    return found->get<long long>();
  };
  WaitingFile out;
  out.book = text("book");
  auto& waited = out.waited;
  waited.call.origin = text("origin");
  waited.call.entry.waited_in = text("file");
  if (auto const id = whole("call")) waited.known = CallId{*id};
  if (auto const id = whole("patient")) waited.call.patient = PatientId{*id};
  if (auto const id = whole("follows")) waited.call.follows = CallId{*id};
  waited.begun = whole("begun").value_or(0);
  waited.call.entry.saved = whole("saved").value_or(waited.begun);
  waited.call.entry.said_by = text("by");
  waited.before = text("before");
  waited.known_from = text("known from");
  waited.known_line = text("known");
  waited.ended_by = text("ended by");
  if (auto const names = tree.find("from the book"); names != tree.end() && names->is_array())
    for (auto const& name : *names)
      if (name.is_string()) waited.from_book.push_back(name.get<std::string>());
  if (tree.contains("tier")) waited.call.entry.tier = text("tier");
  if (tree.contains("ring back")) waited.call.entry.ring_back = RingBack{whole("ring back")};
  bool const is_whole = !out.book.empty() && !waited.call.origin.empty() &&
                        Json::accept(waited.before) &&
                        (waited.known_line.empty() || Json::accept(waited.known_line));
  return is_whole ? std::optional(std::move(out)) : std::nullopt;
}

TakenInCall take_in(Book& book, WaitedCall const& waited, Assessor& assessor, Pack const& pack,
                    std::string const& own) {
  return book.take_in(waited, [&](CallLine const& together) {
    return urgency_of_all(assessor, pack, own, together);
  });
}

}  // namespace

WaitingCall::WaitingCall(std::string book, WaitedCall waited)
    : book_(std::move(book)),
      waited_(std::move(waited)),
      journal_(Journal::recovery(
          waiting_files, [](std::string const&) { return false; }, most_waiting)) {}

std::optional<std::string> WaitingCall::write(Case const& patient, Pack const& pack,
                                              BookEntry const& told,
                                              std::vector<std::string> from_book) {
  waited_.from_book = std::move(from_book);
  auto& entry = waited_.call.entry;
  entry.saved = told.saved;
  entry.changes = write_case_line(patient, pack);
  if (told.tier) entry.tier = told.tier;
  if (told.ring_back) entry.ring_back = told.ring_back;
  patient_ = patient;
  return journal_->write(comment_of(book_, waited_), patient, pack);
}

void WaitingCall::end(Pack const& pack, std::string const& desk) {
  waited_.ended_by = desk;
  // Without this line whoever sits there next is asked whether to go on with the call: no more.
  (void)journal_->write(comment_of(book_, waited_), patient_, pack);
}

WaitingCall::Taken WaitingCall::take_into(Book& book, Assessor& assessor, Pack const& pack,
                                          std::string const& own) {
  auto const taken = take_in(book, waited_, assessor, pack, own);
  journal_->remove();
  return {taken.call, told_otherwise(pack, taken, own)};
}

WaitedCalls take_in_waiting(Book& book, Tables const& tables) {
  auto const& pack = tables.pack();
  std::optional<Assessor> assessor;
  WaitedCalls out;
  for (;;) {
    std::optional<WaitingFile> found;
    std::string own;
    std::size_t left = 0;
    auto const journal = Journal::recovery(
        waiting_files,
        [&](std::string const& path) {
          auto read = read_comment(path);
          if (!read || read->book != book.place().identity()) return false;
          SourceSet sources;
          std::ostringstream unheard;
          auto const its_case = open_case(path, sources, pack, unheard);
          if (!its_case) {
            ++left;
            return false;
          }
          read->waited.call.entry.changes = write_case_line(its_case->patient, pack);
          read->waited.call.species = pack.patient_key();
          read->waited.call.pack = pack.name;
          if (!assessor) assessor.emplace(tables);
          // What was told at the desk counts, whatever this pack says of it.
          own = read->waited.call.entry.tier.value_or(
              name_of_tier(pack, assessor->judge(its_case->patient).tier));
          found = std::move(read);
          return true;
        },
        most_waiting);
    if (!found) {
      out.left = left;
      return out;
    }
    auto const taken = take_in(book, found->waited, *assessor, pack, own);
    journal->remove();
    if (auto told = told_otherwise(pack, taken, own); !told.empty())
      out.told.push_back(std::move(told));
    ++out.taken_in;
  }
}

}  // namespace flinch::cli
