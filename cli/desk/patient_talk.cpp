#include "desk/patient_talk.hpp"

#include <fmt/format.h>

#include <charconv>
#include <ostream>

#include "book/call_text.hpp"
#include "book/visits_text.hpp"
#include "files/clock.hpp"
#include "files/read_bytes.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t most_found = 9;
constexpr std::size_t visits_shown = 5;

std::optional<long long> whole_number(std::string_view text) {
  long long value = 0;
  auto const* const end = text.data() + text.size();
  auto const read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc{} || read.ptr != end || value < 1) return std::nullopt;
  return value;
}

std::string trimmed(std::string const& line) {
  auto const first = line.find_first_not_of(" \t");
  if (first == std::string::npos) return "";
  return line.substr(first, line.find_last_not_of(" \t") - first + 1);
}

}  // namespace

void PatientTalk::remark(std::string const& text) {
  Page page(session_.look);
  page.paragraph(text, 0);
  session_.out << page.take() << std::flush;
}

std::optional<PatientTalk::About> PatientTalk::ask() {
  remark(
      "Who is it about? Type a few letters of its name or the caller's, or digits of the number. "
      "Enter alone: nobody that the book knows. \"call 17\" goes on with that call.");
  for (;;) {
    session_.out << "> " << std::flush;
    auto const typed = read_typed_line(in_);
    if (!typed) {
      session_.out << '\n';
      return std::nullopt;
    }
    auto const line = trimmed(*typed);
    if (line.empty() && waits_) return About{{}, waits_, true};
    if (line.empty() || (line == "fresh" && shown_)) return About{shown_};
    if (line == "new") return About{};
    bool const rings = line.starts_with("ring ");
    if (rings || line.starts_with("call ")) {
      if (auto call = call_named(line)) return About{{}, std::move(call), rings};
      continue;
    }
    auto const number = whole_number(line);
    if (number && found_.size() > 1 && static_cast<std::size_t>(*number) <= found_.size() &&
        line.size() == 1)
      show(found_[static_cast<std::size_t>(*number) - 1]);
    else
      search(line);
  }
}

std::optional<CallLine> PatientTalk::call_named(std::string const& line) {
  auto const number = whole_number(trimmed(line.substr(4)));
  auto found = number ? book_.call(CallId{*number}) : std::nullopt;
  if (!found) remark("There is no such call in the book.");
  return found;
}

void PatientTalk::search(std::string const& words) {
  found_ = book_.find(words, most_found);
  shown_.reset();
  waits_.reset();
  if (found_.empty())
    return remark("Nobody in the book has that. Other letters, or Enter for somebody new.");
  if (found_.size() == 1) return show(found_.front());
  Page page(session_.look);
  std::size_t place = 0;
  for (auto const& patient : found_)
    page.paragraph(fmt::format("{}; {}, last {}", who_text(patient),
                               count_text(patient.calls, "call"), clock_text(patient.last)),
                   0, fmt::format("{:>3}  ", ++place));
  session_.out << page.take();
  remark("Its number; other letters; or Enter for somebody new.");
}

// The last visits, latest last: that line stays on the screen.
void PatientTalk::show(PatientFound const& patient) {
  shown_ = patient;
  found_ = {patient};
  auto visits = book_.visits(patient.patient);
  waits_.reset();
  for (auto const& visit : visits)
    if (visit.ring_back && !visit.closed) waits_ = visit;
  if (visits.size() > visits_shown)
    visits.erase(visits.begin(), visits.end() - static_cast<std::ptrdiff_t>(visits_shown));
  Page page(session_.look);
  page.heading(fmt::format("{}: {}", who_text(patient), count_text(patient.calls, "call")));
  write_visits(visits, pack_, page);
  session_.out << page.take();
  constexpr std::string_view rest =
      "\"call\" or \"ring\" and its number: go on with one of these, or ring back for it. "
      "\"new\": somebody that the book does not know. Or other letters.";
  remark(waits_ ? fmt::format("Enter: ring back for call {}, as was agreed for {}: what it had "
                              "then is asked first, and whether it is worse. \"fresh\": a new call "
                              "about something else. {}",
                              number(waits_->call), clock_text(*waits_->ring_back), rest)
                : fmt::format("Enter: a new call about it. {}", rest));
}

}  // namespace flinch::cli
