// `flinch book patient` and `history`: one patient over time, and one call as it was said.
#include <fmt/format.h>

#include <charconv>
#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/changes_text.hpp"
#include "book/urgency_of_all.hpp"
#include "book/visits_text.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "flinch/text/display.hpp"
#include "look/json_text.hpp"
#include "look/schema.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t most_found = 20;

struct PatientOptions {
  std::vector<std::string> words;
  std::string book;
  std::string pack;
  bool json = false;
  bool with_names = false;
};

std::string joined(std::vector<std::string> const& words) {
  return fmt::format("{}", fmt::join(words, " "));
}

// A whole number that is a patient's in this book is that patient; any other text is searched for.
std::vector<PatientFound> patients_meant(Book& book, std::string const& text) {
  long long value = 0;
  auto const* const end = text.data() + text.size();
  auto const [read_to, error] = std::from_chars(text.data(), end, value);
  if (error == std::errc{} && read_to == end && value > 0 && text.front() != '0')
    if (auto found = book.patient(PatientId{value})) return {std::move(*found)};
  return book.find(text, most_found);
}

void show_patients(std::vector<PatientFound> const& patients, Page& page) {
  page.heading("SEVERAL PATIENTS FIT: NAME ONE BY ITS NUMBER");
  for (auto const& patient : patients)
    page.paragraph(fmt::format("patient {}: {}; {}, last {}", number(patient.patient),
                               who_text(patient), count_text(patient.calls, "call"),
                               clock_text(patient.last)));
}

Status show_patient(Book& book, PatientOptions const& options, Session const& session) {
  auto const patients = patients_meant(book, joined(options.words));
  auto const with_names = options.with_names ? WithNames::yes : WithNames::no;
  if (options.json) {
    auto all = nlohmann::ordered_json::array();
    for (auto const& patient : patients) {
      auto calls = nlohmann::ordered_json::array();
      for (auto const& call : book.visits(patient.patient))
        calls.push_back(call_json(call, with_names));
      all.push_back({{"patient", number(patient.patient)}, {"calls", std::move(calls)}});
    }
    session.out << json_text({{"schema", schema_json(book_schema)}, {"patients", std::move(all)}});
    return patients.size() == 1 ? Status::fine : Status::no;
  }
  Page page(session.look);
  if (patients.empty())
    page.paragraph("No patient of this name, caller or number is in the book.", 0);
  if (patients.size() > 1) show_patients(patients, page);
  if (patients.size() == 1) {
    auto const opened = open_sound_pack(options.pack, session.err);
    if (!opened) return Status::bad;
    page.heading(fmt::format("PATIENT {}: {}", number(patients.front().patient),
                             who_text(patients.front())));
    write_visits(book.visits(patients.front().patient), *opened->pack, page);
  }
  session.out << page.take();
  return patients.size() == 1 ? Status::fine : Status::no;
}

CommandUse use_patient() {
  auto const options = std::make_shared<PatientOptions>();
  return {{{"patient",
            &options->words,
            "Its number in the book, or beginnings of its name, its caller's, or first or last "
            "digits of the telephone number",
            {.shown = "NAME-OR-NUMBER", .is_required = true}},
           book_option(options->book),
           pack_option(options->pack),
           {"--json", &options->json, "For programs: docs/book.schema.json"},
           {"--with-names", &options->with_names, with_names_help}},
          [options](Session const& session) {
            return with_book(options->book, Book::Missing::is_trouble, session,
                             [&](Book& book) { return show_patient(book, *options, session); });
          }};
}

struct HistoryOptions {
  std::string call;
  std::string book;
  std::string pack;
  bool with_names = false;
};

Status show_history(Book& book, HistoryOptions const& options, Session const& session) {
  auto const call = call_numbered(book, options.call, session);
  if (!call) return Status::bad;
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const* pack = opened->pack.get();
  Page page(session.look);
  page.heading(fmt::format("CALL {}, AS IT WAS SAID", number(call->call)));
  if (!is_of_pack(*call, *pack)) {
    page.paragraph(
        fmt::format("(in the names of the pack {}: give it with --pack)",
                    call->pack.empty() ? "for " + inert(call->species) : inert(call->pack)));
    pack = nullptr;
  }
  for (auto const& entry : book.history(call->call)) {
    page.paragraph(fmt::format("{}, {}", clock_text(entry.saved), inert(entry.said_by)));
    for (auto const& line : changes_in_words(entry.changes, pack)) page.paragraph(line, 4);
    if (options.with_names)
      for (auto const& line : changes_in_words(entry.wordings, pack)) page.paragraph(line, 4);
  }
  session.out << page.take();
  return Status::fine;
}

CommandUse use_history() {
  auto const options = std::make_shared<HistoryOptions>();
  return {
      {{"call", &options->call, "The number of the call", {.shown = "CALL", .is_required = true}},
       book_option(options->book),
       pack_option(options->pack),
       {"--with-names", &options->with_names, with_names_help}},
      [options](Session const& session) {
        return with_book(options->book, Book::Missing::is_trouble, session,
                         [&](Book& book) { return show_history(book, *options, session); });
      }};
}

}  // namespace

Command const patient_part{"patient", "One patient over time: a line a visit", use_patient};
Command const history_part{"history", "One call as it was said: who recorded what, and when",
                           use_history};

}  // namespace flinch::cli
