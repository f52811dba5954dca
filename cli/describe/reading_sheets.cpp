#include "describe/reading_sheets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "describe/statement_words.hpp"
#include "files/replace_file.hpp"
#include "flinch/syntax/reading.hpp"
#include "flinch/telling/caution.hpp"
#include "look/html.hpp"
#include "look/named_command.hpp"

namespace flinch::cli {
namespace {

constexpr char const* sheets_made_by = "flinch read";

// "Front leg" for people, `front_leg` for files and the command line.
std::string file_name(std::string_view region) {
  std::string out;
  for (char const c : region) {
    auto const small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    bool const fits = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (fits)
      out += small;
    else if (!out.empty() && out.back() != '_')
      out += '_';
  }
  while (!out.empty() && out.back() == '_') out.pop_back();
  return out.empty() ? "region" : out;
}

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

class SheetPage {
 public:
  SheetPage(Pack const& pack, ReadingSheet const& sheet, std::string const& pack_path)
      : pack_(pack), sheet_(sheet), pack_path_(pack_path) {}

  std::string write() const {
    auto const head = fmt::format("{} {}: {}", pack_.title, pack_.version, sheet_.title);
    auto body = fmt::format(
        "<header>\n<p><a href=\"../index.html\">All sheets</a></p>\n<h1>{}</h1>\n<p>{} {}. Sheet "
        "<strong>{}</strong>, mark <strong>{}</strong>, {} statements, the heaviest first.</p>\n"
        "<p>Tick what you would sign, and write below what you would not.</p>\n"
        "<p class=\"remarks\">Reader, licence, date:</p>\n</header>\n<main>\n",
        escaped(sheet_.title), escaped(pack_.title), escaped(pack_.version), escaped(sheet_.name),
        sheet_.mark, sheet_.items.size());
    for (std::size_t i = 0; i < sheet_.items.size(); ++i) body += item_of(i);
    body += fmt::format(
        "</main>\n<footer>\n<p>{}</p>\n<p>What was ticked is recorded by {}, with --except before "
        "the name of each that was not.</p>\n</footer>\n",
        escaped(caution), escaped(command()));
    return html_page({head, Paper::a4, sheets_made_by, head}, body);
  }

 private:
  [[nodiscard]] std::string command() const {
    return named_command("read",
                         {"--sheet", sheet_.name, "--mark", sheet_.mark, "--by", "NAME, LICENCE"},
                         {pack_path_, ""});
  }

  [[nodiscard]] std::string item_of(std::size_t i) const {
    auto const& statement = sheet_.items[i];
    std::string out;
    if (i == 0 || statement.weight != sheet_.items[i - 1].weight)
      out += fmt::format("<h2>{}</h2>\n", heading(statement.weight));
    out += fmt::format(
        "<section class=\"to-read\">\n<h3><span aria-hidden=\"true\">\u2610</span> {}. {}</h3>\n"
        "<p class=\"small\">{} <strong>{}</strong>, mark {}{}</p>\n<ul>\n",
        i + 1, escaped(statement.title), keyword(statement.kind), escaped(statement.name),
        sheet_.marks[i], escaped(changed_since(statement)));
    for (auto const& [label, words] : statement_words(pack_, statement))
      out += fmt::format("<li><strong>{}:</strong> {}</li>\n", escaped(label), escaped(words));
    return out + "</ul>\n<p class=\"remarks\">Remarks:</p>\n</section>\n";
  }

  [[nodiscard]] static std::string changed_since(PackStatement const& statement) {
    if (statement.stale == nullptr || statement.stale->state != ReadingState::changed) return "";
    return fmt::format("; changed since {} read it on {}", statement.stale->reader,
                       statement.stale->on);
  }

  Pack const& pack_;
  ReadingSheet const& sheet_;
  std::string const& pack_path_;
};

std::string index_of(Pack const& pack, std::vector<ReadingSheet> const& sheets) {
  std::string items;
  for (auto const& sheet : sheets)
    if (!sheet.items.empty())
      items += fmt::format("<li><a href=\"sheet/{}.html\">{}</a>: {} statements</li>\n", sheet.name,
                           escaped(sheet.title), sheet.items.size());
  auto const title = "Sheets to read " + pack.title;
  return html_page(
      {title, Paper::a4, sheets_made_by},
      fmt::format("<header>\n<h1>{}</h1>\n<p>Version {}. {}</p>\n</header>\n<main>\n"
                  "<ul>\n{}</ul>\n</main>\n<footer>\n<p>{}</p>\n</footer>\n",
                  escaped(title), escaped(pack.version), escaped(read_sentence(pack)),
                  items.empty() ? "<li>Nothing is left to read.</li>\n" : items, escaped(caution)));
}

}  // namespace

WrittenStatements::WrittenStatements(SourceSet const& sources) {
  for (std::size_t i = 0; i < sources.size(); ++i) {
    auto const id = static_cast<FileId>(i);
    if (!sources[id].name().ends_with(".flinch")) continue;  // data of the pack
    Report ignored;                                          // the pack was loaded from the same
    auto& file = files_[id] = syntax::parse(sources, id, {}, ignored);
    for (std::size_t s = 0; s < file.statements.size(); ++s)
      if (auto const* name = syntax::name_of(file.statements[s]))
        places_.emplace(std::tuple(id, name->at.span.begin), Where{id, s});
  }
}

WrittenStatements::Where WrittenStatements::where(Place name) const {
  return places_.at({name.file, name.span.begin});
}

std::string WrittenStatements::mark(Place name) const {
  auto const at = where(name);
  return syntax::mark_of(file(at.file).statements[at.statement]);
}

std::vector<ReadingSheet> reading_sheets(Tables const& tables, WrittenStatements const& written) {
  std::map<std::string, std::vector<PackStatement>> by_region;
  for (auto& statement : statements_by_weight(tables)) {
    auto& list = by_region[statement.region];
    list.push_back(std::move(statement));
  }
  std::vector<ReadingSheet> out;
  for (auto const& [region, statements] : by_region) {
    auto const title = region.empty() ? "The pack as a whole" : capital(region);
    auto const sheets = (statements.size() + statements_on_a_sheet - 1) / statements_on_a_sheet;
    for (std::size_t i = 0; i < sheets; ++i) {
      ReadingSheet sheet;
      sheet.name = fmt::format("{}_{}", file_name(title), i + 1);
      sheet.title = fmt::format("{}, sheet {} of {}", title, i + 1, sheets);
      std::string said;
      auto const end = std::min(statements.size(), (i + 1) * statements_on_a_sheet);
      for (auto s = i * statements_on_a_sheet; s < end; ++s) {
        if (statements[s].read != nullptr) continue;
        sheet.items.push_back(statements[s]);
        sheet.marks.push_back(written.mark(statements[s].at));
        said += fmt::format("{} {} {}\n", keyword(statements[s].kind), statements[s].name,
                            sheet.marks.back());
      }
      sheet.mark = syntax::mark_of_text(said);
      out.push_back(std::move(sheet));
    }
  }
  return out;
}

WrittenSheets write_sheets(Tables const& tables, std::vector<ReadingSheet> const& sheets,
                           std::string const& folder, std::string const& pack_path) {
  WrittenSheets out;
  auto const root = std::filesystem::path(folder);
  std::error_code failed;
  std::filesystem::create_directories(root / "sheet", failed);
  if (failed) return {0, (root / "sheet").string(), "cannot make this folder: " + failed.message()};
  auto const write = [&](std::filesystem::path const& place, std::string const& page) {
    auto const failure = replace_file(place.string(), page, ForceFolder::later, Access::as_usual);
    if (failure) {
      out.place = place.string();
      out.failure = "cannot write this page: " + *failure;
    }
    return !failure;
  };
  for (auto const& sheet : sheets) {
    if (sheet.items.empty()) continue;
    auto const page = SheetPage(tables.pack(), sheet, pack_path).write();
    if (!write(root / "sheet" / (sheet.name + ".html"), page)) return out;
    ++out.sheets;
  }
  force_folder((root / "sheet" / "").string());
  (void)write(root / "index.html", index_of(tables.pack(), sheets));
  force_folder((root / "").string());
  return out;
}

}  // namespace flinch::cli
