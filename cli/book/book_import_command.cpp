// `flinch book import`: case files into the book.
#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/origin.hpp"
#include "book/promised_time.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/read_bytes.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/casefile/write_case.hpp"
#include "look/headway.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ImportOptions {
  std::vector<std::string> cases;
  std::string by;
  std::string book;
  std::string pack;
};

std::time_t written_at(std::string const& file) {
  struct stat found {};
  return ::stat(file.c_str(), &found) == 0 ? found.st_mtime : now_or_fixed();
}

// A time that passed more than a day ago rings nobody.
std::optional<RingBack> ring_back_of(Case const& patient, std::time_t written, std::time_t now) {
  auto const time = promised_time(patient.ring_back_at, written);
  constexpr std::time_t a_day_s = 24 * 60 * 60;
  if (!time || *time + a_day_s < now) return std::nullopt;
  return RingBack{*time};
}

Status import_cases(ImportOptions const& options, Session const& session) {
  auto const files = case_files(options.cases, session.err);
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!files || !opened) return Status::bad;
  auto const& pack = opened->pack;
  auto const cases = read_cases(*files, *pack, session);
  if (!cases) return Status::bad;
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const now = now_or_fixed();
  std::vector<NewCall> calls;
  Headway headway(session.err, session.look, "assessing cases", cases->size());
  for (auto const& [file, patient] : *cases) {
    headway.reach(calls.size());
    NewCall call;
    call.entry = {written_at(file), who_does_it(options.by), write_case_line(patient, *pack)};
    call.species = pack->patient_key();
    call.pack = pack->name;
    if (auto const tier = assessor.judge(patient).tier) call.entry.tier = (*pack)[*tier].name;
    if (!patient.outcome) call.entry.ring_back = ring_back_of(patient, call.entry.saved, now);
    call.origin = origin_of_file(file);
    call.older_origin = hash_of(read_file(file).value_or(""));
    calls.push_back(std::move(call));
  }
  headway.hide();
  std::stable_sort(calls.begin(), calls.end(), [](NewCall const& a, NewCall const& b) {
    return a.entry.saved < b.entry.saved;
  });
  return with_book(options.book, Book::Missing::is_made, session, [&](Book& book) {
    auto const taken = book.take_in(calls);
    session.out << fmt::format(
        "{} taken into {}{}{}.\n", count_text(static_cast<long long>(taken.begun), "call"),
        book.place().shown,
        taken.changed > 0 ? fmt::format("; {} in it brought up to date", taken.changed) : "",
        taken.known > 0 ? fmt::format("; {} in it already", taken.known) : "");
    return Status::fine;
  });
}

CommandUse use_import() {
  auto const options = std::make_shared<ImportOptions>();
  return {
      {{"cases",
        &options->cases,
        cases_help,
        {.shown = "CASES", .is_path = true, .is_required = true}},
       by_option(options->by),
       book_option(options->book),
       pack_option(options->pack)},
      [options](Session const& session) { return import_cases(*options, session); },
      {},
      "All or none. A file counts as of the day on which it was written, a tier as what the pack "
      "gives it now. A file that was taken in before is not taken in again: what it says otherwise "
      "now is saved into its call."};
}

}  // namespace

Command const import_part{"import", "Take case files into the book, which is begun if need be",
                          use_import};

}  // namespace flinch::cli
