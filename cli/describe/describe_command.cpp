// `flinch describe NAME`, `flinch describe --html FOLDER`
#include "describe/describe_command.hpp"

#include <fmt/format.h>

#include <array>
#include <memory>
#include <ostream>

#include "describe/describe_pages.hpp"
#include "files/pack_source.hpp"
#include "flinch/explain/description.hpp"
#include "flinch/telling/caution.hpp"
#include "flinch/text/display.hpp"
#include "look/name_help.hpp"
#include "options.hpp"
#include "review/review_text.hpp"

namespace flinch::cli {
namespace {

struct DescribeOptions {
  std::string pack;
  std::string name;    ///< of a cause, sign, rule, alarm, measure of care or source; or
  std::string folder;  ///< where pages of the whole pack go
};

constexpr std::array all_kinds = {NamedKind::cause, NamedKind::sign,   NamedKind::rule,
                                  NamedKind::alarm, NamedKind::source, NamedKind::family,
                                  NamedKind::care};

std::string text_of(DescribedLine const& line) {
  std::string out;
  for (auto const& piece : line.pieces) out += piece.text;
  return out;
}

void write(Pack const& pack, Description const& described, Page& page) {
  auto const kind = kind_text(described.thing.kind);
  std::string title;
  for (char const c : kind) title += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  page.heading(fmt::format("{}: {} ({})", title, described.title, name_of(pack, described.thing)));
  for (auto const& section : described.sections) {
    page.blank();
    page.heading(section.heading);
    for (auto const& line : section.lines)
      page.paragraph(text_of(line), 2 + 2 * line.depth,
                     line.depth == 0           ? ""
                     : page.look().has_unicode ? "\u2022 "
                                               : "* ");
  }
  page.blank();
}

Status describe_one(std::string const& called, Tables const& tables, std::string const& pack_path,
                    Session const& session) {
  auto const& pack = tables.pack();
  auto const search = find_named(pack, called, all_kinds);
  auto found = search.by_name;
  found.insert(found.end(), search.by_words.begin(), search.by_words.end());
  if (found.empty()) {
    session.err << fmt::format("flinch: error: nothing in the pack is called `{}`\n",
                               inert(called));
    for (auto const& remedy : name_help(pack, called, all_kinds, search, pack_path))
      session.err << fmt::format("  note: {}\n", remedy);
    return Status::bad;
  }
  Page page(session.look);
  for (auto const thing : found) write(pack, describe(tables, thing), page);
  page.paragraph(caution, 0);
  session.out << page.take();
  return Status::fine;
}

Status describe_pack(DescribeOptions const& options, Session const& session) {
  if (options.name.empty() == options.folder.empty()) {
    session.err << "flinch: describe one NAME, or the whole pack with --html FOLDER\n";
    return Status::bad;
  }
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  if (!options.name.empty()) return describe_one(options.name, tables, options.pack, session);
  auto const written = write_pack_pages(tables, options.folder);
  if (!written.failure.empty()) {
    session.err << fmt::format("{}: error: {}\n", inert(written.place), written.failure);
    return Status::bad;
  }
  session.out << fmt::format("written: {} pages; start at {}\n", written.pages,
                             inert(options.folder + "/index.html"));
  if (written.removed > 0)
    session.out << fmt::format("removed: {} of what the pack no longer has\n", written.removed);
  return Status::fine;
}

CommandUse use_describe() {
  auto const options = std::make_shared<DescribeOptions>();
  return {{{"name",
            &options->name,
            "Its name or title",
            {.shown = "NAME", .names = {all_kinds.begin(), all_kinds.end()}}},
           {"--html",
            &options->folder,
            "Write pages of the whole pack to browse",
            {.shown = "FOLDER", .is_path = true, .refusal = unnamed_file}},
           pack_option(options->pack)},
          [options](Session const& session) { return describe_pack(*options, session); },
          {{"flinch describe elbow_arthritis", "What the pack knows of a cause"},
           {"flinch describe cold_pack", "A measure: what is done or given, and what bars it"},
           {"flinch describe --html pages", "The whole pack to browse, from pages/index.html"}}};
}

}  // namespace

Command const describe_command{
    "describe", "A cause, sign, rule, alarm, measure of care or source, or all as pages",
    use_describe};

}  // namespace flinch::cli
