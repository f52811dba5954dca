// `flinch book due`, `today` and `open`: what is to be done.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book_parts.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "look/json_text.hpp"
#include "look/schema.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t most_shown = 200;
constexpr std::time_t day_s = 24 * 60 * 60;

struct ListOptions {
  std::string book;
  std::string pack;
  std::size_t days = 7;
  bool json = false;
  bool with_names = false;
};

std::time_t midnight(std::time_t now, int days_later) {
  std::tm day{};
  localtime_r(&now, &day);
  day.tm_hour = day.tm_min = day.tm_sec = 0;
  day.tm_mday += days_later;
  day.tm_isdst = -1;
  return std::mktime(&day);
}

// What a list is, and how a call's first line in it reads.
struct List {
  std::string heading;
  std::string when_empty;
  std::vector<CallLine> calls;
  std::function<std::string(CallLine const&)> first_line;
};

void show(List const& list, Pack const& pack, Session const& session) {
  Page page(session.look);
  page.heading(list.heading);
  if (list.calls.empty()) page.paragraph(list.when_empty);
  CallReader reader(pack);
  for (auto const& call : list.calls) {
    auto const words = words_of_call(call, pack, reader);
    page.paragraph(list.first_line(call));
    page.paragraph(who_text(call), 4);
    bool const is_remark = words.complaint.starts_with('(');
    page.paragraph(fmt::format("{}{}{}", words.tier.empty() ? "no tier told" : words.tier,
                               words.complaint.empty() ? ""
                               : is_remark             ? " "
                                                       : ": ",
                               words.complaint),
                   4);
    if (!words.outcome.empty()) page.paragraph(words.outcome, 4, "outcome: ");
  }
  if (list.calls.size() == most_shown)
    page.paragraph(fmt::format("The first {} are shown.", most_shown));
  session.out << page.take();
}

Status write(List const& list, ListOptions const& options, Session const& session) {
  if (options.json) {
    auto all = nlohmann::ordered_json::array();
    for (auto const& call : list.calls)
      all.push_back(call_json(call, options.with_names ? WithNames::yes : WithNames::no));
    session.out << json_text({{"schema", schema_json(book_schema)}, {"calls", std::move(all)}});
    return Status::fine;
  }
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  show(list, *opened->pack, session);
  return Status::fine;
}

std::string standing(CallLine const& call) {
  if (call.closed) return "closed";
  return call.ring_back ? "ring back " + clock_text(*call.ring_back) : "open";
}

CommandUse use_list(std::function<List(Book&, ListOptions const&, std::time_t now)> const& list,
                    bool has_days) {
  auto const options = std::make_shared<ListOptions>();
  CommandUse out{{book_option(options->book),
                  pack_option(options->pack),
                  {"--json", &options->json, "For programs: docs/book.schema.json"},
                  {"--with-names", &options->with_names, with_names_help}},
                 [options, list](Session const& session) {
                   return with_book(
                       options->book, Book::Missing::is_trouble, session, [&](Book& book) {
                         return write(list(book, *options, now_or_fixed()), *options, session);
                       });
                 }};
  if (has_days)
    out.options.insert(out.options.begin(), {"--days",
                                             &options->days,
                                             "Begun in so many days up to now",
                                             {.shown = "N", .range = std::pair{1, 100000}}});
  return out;
}

}  // namespace

Command const due_part{
    "due", "Who is to be rung back: the longest overdue first, with number and reason", [] {
      return use_list(
          [](Book& book, ListOptions const&, std::time_t now) {
            return List{"RING BACK", "Nobody is to be rung back.", book.ring_backs(most_shown),
                        [now](CallLine const& call) {
                          return fmt::format("{}, {}; call {}", clock_text(*call.ring_back),
                                             until_text(*call.ring_back, now), number(call.call));
                        }};
          },
          false);
    }};

Command const today_part{
    "today", "Today's calls", [] {
      return use_list(
          [](Book& book, ListOptions const&, std::time_t now) {
            auto const from = midnight(now, 0);
            return List{"TODAY, " + clock_text(from).substr(0, 10), "No call today.",
                        book.begun(from, midnight(now, 1), most_shown), [](CallLine const& call) {
                          return fmt::format("{}; call {}; {}", clock_text(call.begun),
                                             number(call.call), standing(call));
                        }};
          },
          false);
    }};

Command const open_part{
    "open", "Calls of the last week that have no outcome yet", [] {
      return use_list(
          [](Book& book, ListOptions const& options, std::time_t now) {
            auto const from = now - static_cast<std::time_t>(options.days) * day_s;
            return List{fmt::format("OPEN, BEGUN SINCE {}", clock_text(from)), "None is open.",
                        book.open(from, now + 1, most_shown), [](CallLine const& call) {
                          return fmt::format("{}; call {}; {}", clock_text(call.begun),
                                             number(call.call), standing(call));
                        }};
          },
          true);
    }};

}  // namespace flinch::cli
