#include "book/book_cases.hpp"

#include <fmt/format.h>

#include <ostream>
#include <set>

#include "book/book_parts.hpp"
#include "book/call_case.hpp"
#include "files/case_files.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"
#include "look/headway.hpp"

namespace flinch::cli {
namespace {

using Sets = std::vector<std::vector<NamedCase>>;

std::optional<Sets> from_files(CasesChosen const& chosen, std::vector<CasesFor> const& packs,
                               Session const& session) {
  if (!chosen.book.empty() || !chosen.since.empty() || !chosen.until.empty()) {
    session.err
        << "flinch: error: --book, --since and --until are for calls of the book: name no case "
           "files beside them\n";
    return std::nullopt;
  }
  auto const files = case_files(chosen.places, session.err);
  if (!files) return std::nullopt;
  Sets out;
  for (auto const& [pack, outcomes] : packs) {
    auto cases = read_cases(*files, *pack, session, outcomes);
    if (!cases) return std::nullopt;
    out.push_back(std::move(*cases));
  }
  return out;
}

// What was left out of the calls of a book, to be told once.
struct LeftOut {
  std::set<std::string> names;
  long long calls_with_names = 0;
  long long calls = 0;

  void tell(std::ostream& err) const {
    constexpr std::size_t shown = 5;
    if (calls_with_names > 0) {
      std::vector<std::string> some;
      for (auto const& name : names)
        if (some.size() < shown) some.push_back('`' + inert(name) + '`');
      err << fmt::format(
          "flinch: note: {} of names that a pack does not have ({}{}): what these say is left out, "
          "as unknown\n",
          count_text(calls_with_names, "call"), fmt::join(some, ", "),
          names.size() > shown ? ", ..." : "");
    }
    if (calls > 0)
      err << fmt::format(
          "flinch: note: {} left out, with answers that a pack cannot take: give theirs with "
          "--pack\n",
          count_text(calls, "call"));
  }
};

std::optional<Sets> from_book(CasesChosen const& chosen, Calls::Which which,
                              std::vector<CasesFor> const& packs, Session const& session,
                              std::vector<std::string>* months) {
  std::vector<CallReader> readers;
  for (auto const& [pack, outcomes] : packs) readers.emplace_back(*pack, outcomes);
  Sets out(packs.size());
  LeftOut left_out;
  Headway headway(session.err, session.look, "reading calls");
  std::uint64_t seen = 0;
  try {
    Book book(book_place(chosen.book), Book::Missing::is_trouble);
    book.each_call({which, day_of(chosen.since), day_of(chosen.until)}, [&](CallLine const& call) {
      headway.reach(++seen);
      std::vector<CallCase> read;
      bool has_unknown = false;
      for (auto& reader : readers) {
        auto one = reader.read(call);
        if (!one) break;
        has_unknown = has_unknown || !one->unknown_names.empty();
        left_out.names.insert(one->unknown_names.begin(), one->unknown_names.end());
        read.push_back(std::move(*one));
      }
      if (has_unknown) ++left_out.calls_with_names;
      if (read.size() < readers.size()) {
        ++left_out.calls;
        return;
      }
      constexpr std::size_t year_and_month = 7;
      if (months != nullptr) months->push_back(clock_text(call.begun).substr(0, year_and_month));
      for (std::size_t i = 0; i < read.size(); ++i)
        out[i].push_back({fmt::format("call {}", number(call.call)), std::move(read[i].patient)});
    });
  } catch (BookTrouble const& trouble) {
    headway.hide();
    session.err << fmt::format("flinch: error: {}\n", trouble.what());
    return std::nullopt;
  }
  headway.hide();
  left_out.tell(session.err);
  return out;
}

}  // namespace

CommandUse with_case_options(CommandUse use, CasesChosen& chosen) {
  use.options.push_back({"cases",
                         &chosen.places,
                         "Case files in YAML, or folders of them (all *.yaml in each); none: the "
                         "calls of the book",
                         {.shown = "CASES", .is_path = true}});
  use.options.push_back(book_option(chosen.book));
  use.options.push_back({"--since",
                         &chosen.since,
                         "Of the book, calls begun on this day or later",
                         {.shown = "DAY", .refusal = no_day}});
  use.options.push_back({"--until",
                         &chosen.until,
                         "Of the book, calls begun before this day",
                         {.shown = "DAY", .refusal = no_day}});
  return use;
}

std::optional<Sets> read_chosen(CasesChosen const& chosen, Calls::Which which,
                                std::vector<CasesFor> const& packs, Session const& session,
                                std::vector<std::string>* months) {
  return chosen.are_of_the_book() ? from_book(chosen, which, packs, session, months)
                                  : from_files(chosen, packs, session);
}

}  // namespace flinch::cli
