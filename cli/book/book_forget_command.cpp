// `flinch book forget`: what tells who somebody is, out of the book.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iterator>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/search_words.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ForgetOptions {
  std::vector<std::string> words;
  double years = 0;
  bool yes = false;
  std::string book;
};

Status tell(Forgotten const& forgotten, Session const& session) {
  session.out << fmt::format(
      "Forgotten: {}, {}, what {} said in words. The medical entries stay. Backups "
      "still hold all of it.\n",
      count_text(forgotten.clients, "client"), count_text(forgotten.patients, "patient"),
      count_text(forgotten.calls, "call"));
  if (forgotten.are_traces_gone) return Status::fine;
  session.err
      << "flinch: warning: another program was reading the book, so that the forgotten words "
         "still stand in the log beside it: end that program, and say the same again with the "
         "client's number\n";
  return Status::no;
}

// A client and its patients, as a list shows them.
struct Client {
  ClientId id{};
  std::vector<PatientFound> patients;

  [[nodiscard]] std::string text() const {
    auto const& one = patients.front();
    std::string out = fmt::format("client {}", number(id));
    auto mark = ": ";
    for (auto const* part : {&one.client_name, &one.telephone}) {
      if (part->empty()) continue;
      out += mark + inert(*part);
      mark = ", ";
    }
    mark = "; with ";
    for (auto const& patient : patients) {
      out += mark + (patient.name.empty() ? fmt::format("patient {}", number(patient.patient))
                                          : inert(patient.name));
      mark = ", ";
    }
    return out;
  }
};

std::vector<Client> clients_that_fit(Book& book, std::string const& words) {
  constexpr std::size_t most = 1000;
  std::vector<Client> out;
  for (auto const& patient : book.find(words, most))
    if (std::none_of(out.begin(), out.end(),
                     [&](Client const& client) { return client.id == patient.client; }))
      out.push_back({patient.client, book.patients_of(patient.client)});
  return out;
}

std::optional<Client> client_numbered(Book& book, std::string const& text) {
  long long value = 0;
  auto const* const end = text.data() + text.size();
  auto const [read_to, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || read_to != end || value <= 0 || text.front() == '0')
    return std::nullopt;
  auto patients = book.patients_of(ClientId{value});
  if (patients.empty()) return std::nullopt;
  return Client{ClientId{value}, std::move(patients)};
}

// Its whole name, or its whole telephone number.
bool is_named(Client const& client, std::string const& text) {
  auto const& one = client.patients.front();
  auto const name = words_in(text);
  auto const digits = digits_in(text);
  return (!name.empty() && words_in(one.client_name) == name) ||
         (!digits.empty() && digits_in(one.telephone) == digits);
}

Status forget_client(Book& book, std::string const& text, bool yes, Session const& session) {
  constexpr std::size_t most_shown = 20;
  auto meant = client_numbered(book, text);
  if (!meant) {
    auto const fitting = clients_that_fit(book, text);
    if (fitting.empty()) {
      session.out << "No client of this name or number is in the book.\n";
      return Status::no;
    }
    std::vector<Client> named;
    std::copy_if(fitting.begin(), fitting.end(), std::back_inserter(named),
                 [&](Client const& client) { return is_named(client, text); });
    if (named.size() != 1) {
      auto const& shown = named.empty() ? fitting : named;
      session.out << (named.empty()
                          ? "No client has this for a whole name or telephone number, and "
                            "none was forgotten. Name one by its number:\n"
                          : "Several clients fit, and none was forgotten. Name one by its "
                            "number:\n");
      for (std::size_t i = 0; i < std::min(shown.size(), most_shown); ++i)
        session.out << fmt::format("  {}\n", shown[i].text());
      if (shown.size() > most_shown)
        session.out << fmt::format("The first {} are shown.\n", most_shown);
      return Status::no;
    }
    meant = std::move(named.front());
  }
  if (!yes) {
    session.out << fmt::format(
        "To be forgotten for good: {}.\nNothing is forgotten yet: say it again with --yes.\n",
        meant->text());
    return Status::no;
  }
  session.out << fmt::format("Forgetting {}.\n", meant->text());
  return tell(book.forget(meant->id), session);
}

Status forget(ForgetOptions const& options, Session const& session) {
  if (options.words.empty() == (options.years == 0)) {
    session.err << "flinch: error: name a client, or --older-than YEARS\n";
    return Status::bad;
  }
  return with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    if (!options.words.empty())
      return forget_client(book, fmt::format("{}", fmt::join(options.words, " ")), options.yes,
                           session);
    constexpr double year_s = 365.25 * 24 * 60 * 60;
    auto const before = now_or_fixed() - static_cast<std::time_t>(options.years * year_s);
    if (!options.yes) {
      session.out << fmt::format(
          "To be forgotten for good: who is behind all calls last saved before {}.\nNothing is "
          "forgotten yet: say it again with --yes.\n",
          clock_text(before));
      return Status::no;
    }
    return tell(book.forget_before(before), session);
  });
}

CommandUse use_forget() {
  auto const options = std::make_shared<ForgetOptions>();
  return {{{"client",
            &options->words,
            "The client's number in the book, or a whole name or telephone number that one client "
            "has; anything less lists who fits, and forgets nobody",
            {.shown = "CLIENT"}},
           {"--older-than",
            &options->years,
            "All names, numbers and notes of calls last saved so many years ago, or earlier",
            {.shown = "YEARS", .range = std::pair{0.001, 1000.0}}},
           {"--yes", &options->yes, "Do it; otherwise it is only told what would be forgotten"},
           book_option(options->book)},
          [options](Session const& session) { return forget(*options, session); },
          {},
          "What was answered about the patients stays, without telling whose they were."};
}

}  // namespace

Command const forget_part{"forget", "Remove what tells who a client is, or all that is old",
                          use_forget};

}  // namespace flinch::cli
