// `flinch book close` and `rung`: what a patient turned out to have and to need, who was rung back.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/call_case.hpp"
#include "book/call_text.hpp"
#include "book/urgency_of_all.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "look/name_help.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct CloseOptions {
  std::string call;
  std::string cause;
  std::string needed;
  std::string by;
  std::string book;
  std::string pack;
};

bool is_known_tier(std::string const& name, Pack const& pack, Session const& session) {
  if (name.empty()) return true;
  std::vector<std::string_view> names;
  for (auto const& tier : pack.tiers) names.push_back(tier.name);
  if (std::find(names.begin(), names.end(), name) != names.end()) return true;
  auto const near = nearest(name, names);
  session.err << fmt::format("flinch: error: unknown tier `{}`\n", inert(name));
  session.err << (near ? fmt::format("  note: did you mean `{}`?\n", *near)
                       : fmt::format("  note: {} are those of the pack\n", fmt::join(names, ", ")));
  return false;
}

bool is_known_cause(std::string const& name, Pack const& pack, std::string const& pack_path,
                    Session const& session) {
  if (name.empty() || name == "none") return true;
  constexpr std::array kinds = {NamedKind::cause};
  auto const search = find_named(pack, name, kinds);
  auto const is_it = [&](Named const& thing) { return name_of(pack, thing) == name; };
  if (std::any_of(search.by_name.begin(), search.by_name.end(), is_it)) return true;
  session.err << fmt::format("flinch: error: unknown cause `{}`\n", inert(name));
  // Called so by its title, or nearly by its name.
  for (auto const& thing : search.best())
    session.err << fmt::format("  note: did you mean `{}`?\n", name_of(pack, thing));
  if (search.best().empty())
    for (auto const& remedy : name_help(pack, name, kinds, search, pack_path))
      session.err << fmt::format("  note: {}\n", remedy);
  return false;
}

Status close_call(CloseOptions const& options, Session const& session) {
  if (options.cause.empty() && options.needed.empty()) {
    session.err << "flinch: error: an outcome is expected: --cause, --needed or both\n";
    return Status::bad;
  }
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = *opened->pack;
  return with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    auto const call = call_numbered(book, options.call, session);
    if (!call) return Status::bad;
    if (!is_of_pack(*call, pack)) {
      // Whom it is about stands in no error text.
      session.err << fmt::format(
          "flinch: error: call {} is of {}, and not of the pack {}\n"
          "  note: check the number; give the pack of the call with --pack\n",
          number(call->call),
          call->pack.empty() ? inert(call->species) : "the pack " + inert(call->pack), pack.name);
      return Status::bad;
    }
    if (!is_known_cause(options.cause, pack, options.pack, session) ||
        !is_known_tier(options.needed, pack, session))
      return Status::bad;
    // A cause of another species would be counted by every audit of this call.
    CallReader reader(pack);
    if (!reader.read(*call)) {
      session.err << unreadable_call(*call);
      return Status::bad;
    }
    nlohmann::ordered_json outcome;
    if (!options.cause.empty()) outcome["cause"] = options.cause;
    if (!options.needed.empty()) outcome["needed"] = options.needed;
    nlohmann::ordered_json const changes = {{"outcome", outcome}};
    book.close(call->call, {now_or_fixed(), options.by, changes.dump()});
    // Whose call it was is told by what it was about: no name stands in what may be kept as a log.
    auto const about = words_of_call(*call, pack, reader).complaint;
    session.out << fmt::format("Call {} is closed{}{}{}.\n", number(call->call),
                               call->closed ? ", its outcome corrected" : "",
                               about.empty() ? "" : ": ", about);
    // A closed call is no longer among those that are due.
    if (call->ring_back && !call->closed)
      session.out << fmt::format("The caller was to be rung back at {}: that is no longer due.\n",
                                 clock_text(*call->ring_back));
    return Status::fine;
  });
}

CommandUse use_close() {
  auto const options = std::make_shared<CloseOptions>();
  return {
      {{"call", &options->call, "The number of the call", {.shown = "CALL", .is_required = true}},
       {"--cause",
        &options->cause,
        "What it turned out to have, by its name in the pack; none: none of its causes",
        {.shown = "CAUSE", .names = {NamedKind::cause}}},
       {"--needed",
        &options->needed,
        "How urgent it really was: a tier by its name",
        {.shown = "TIER"}},
       {"--by",
        &options->by,
        "Who says so",
        {.shown = "WHO", .is_required = true, .refusal = no_name_of_a_person}},
       book_option(options->book),
       pack_option(options->pack)},
      [options](Session const& session) { return close_call(*options, session); }};
}

struct RungOptions {
  std::string call;
  std::string by;
  std::string book;
};

Status ring_no_more(RungOptions const& options, Session const& session) {
  return with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    auto const call = call_numbered(book, options.call, session);
    if (!call) return Status::bad;
    if (!call->ring_back) {
      session.out << fmt::format("Call {} had no ring-back due.\n", number(call->call));
      return Status::no;
    }
    book.save(call->call, {now_or_fixed(), who_does_it(options.by), "{}", {}, RingBack{}});
    session.out << fmt::format("Call {} is rung back, and stays open until its outcome is known.\n",
                               number(call->call));
    return Status::fine;
  });
}

CommandUse use_rung() {
  auto const options = std::make_shared<RungOptions>();
  return {
      {{"call", &options->call, "The number of the call", {.shown = "CALL", .is_required = true}},
       by_option(options->by),
       book_option(options->book)},
      [options](Session const& session) { return ring_no_more(*options, session); }};
}

}  // namespace

Command const rung_part{"rung", "The caller was rung back: it is no longer due", use_rung};

Command const close_part{"close", "Close a call with its outcome; again, to correct it", use_close};

}  // namespace flinch::cli
