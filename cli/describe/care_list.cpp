// The care of a pack as a list in Markdown.
#include <fmt/format.h>

#include <array>

#include "describe/pack_lists.hpp"
#include "flinch/explain/condition.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/statements.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

enum class CareKind : std::uint8_t {
  first_aid,
  fasting,
  home,
  home_dose,
  avoid,
  watch,
  taken,
  clinician,
  count
};
constexpr std::array headings = {"First aid",
                                 "Food and water before a visit",
                                 "What may be done at home",
                                 "Doses at home",
                                 "What not to do",
                                 "What means \"ring again\"",
                                 "What it has taken",
                                 "For the clinician"};
static_assert(headings.size() == static_cast<std::size_t>(CareKind::count));

CareKind kind_of(Care const& care) {
  if (care.for_clinician) return CareKind::clinician;
  if (care.is_fasting) return CareKind::fasting;
  if (care.taken) return CareKind::taken;
  if (care.first_aid) return CareKind::first_aid;
  if (!care.avoid.empty()) return CareKind::avoid;
  if (!care.watch.empty()) return CareKind::watch;
  return care.give ? CareKind::home_dose : CareKind::home;
}

// A bar or a line break would end a cell.
std::string in_cell(std::string_view text) {
  std::string out;
  for (char const c : inert(text)) out += c == '|' ? std::string("\\|") : std::string(1, c);
  return out;
}

void add(std::string& out, std::string const& more) {
  if (!more.empty()) out += (out.empty() ? "" : " ") + more;
}

std::string what_is_told(Pack const& pack, Care const& care) {
  std::string out;
  if (care.give) add(out, syntax::print(*care.give) + ".");
  if (care.at_most)
    add(out, fmt::format("At most {} {}.", syntax::print_number(care.at_most->value),
                         care.at_most->unit));
  for (auto const& form : care.forms) add(out, capitalised(syntax::print(form)) + ".");
  for (auto const* text : {&care.how, &care.avoid, &care.watch}) add(out, *text);
  if (!care.otherwise.empty()) add(out, "Where nothing fasts: " + care.otherwise);
  for (auto const& level : care.levels)
    add(out, fmt::format("From {:g} mg per kg: {}{}.", level.mg_per_kg, level.harm,
                         level.see ? " (" + pack[*level.see].title + ")" : ""));
  return out;
}

std::string gates(Pack const& pack, std::string_view label, std::vector<CareGate> const& all) {
  std::string out;
  for (auto const& gate : all)
    out += (out.empty() ? "" : "; ") + condition_text(pack, gate.condition);
  return out.empty() ? out : fmt::format("**{}** {}.", label, out);
}

std::string what_bars(Pack const& pack, Care const& care) {
  std::string out;
  if (auto const where = told_where_text(pack, care); !where.empty())
    add(out, capitalised(where) + ".");
  if (care.fit_if) add(out, "**Fits if** " + condition_text(pack, *care.fit_if) + ".");
  add(out, gates(pack, "Never if", care.never_if));
  add(out, gates(pack, "Ask the vet if", care.ask_vet_if));
  add(out, gates(pack, "Stop if", care.stop_if));
  return out;
}

}  // namespace

std::string care_list_page(Pack const& pack) {
  auto out = fmt::format(
      "# Care in the pack {} {}\n\n{} measures. One is offered only where each bar is known not to "
      "hold. {}\n",
      pack.name, pack.version, pack.care.size(), read_sentence(pack));
  std::array<std::string, headings.size()> rows;
  for (auto const& care : pack.care) {
    std::string cites;
    for (auto const source : care.cites) cites += (cites.empty() ? "" : ", ") + pack[source].name;
    rows.at(static_cast<std::size_t>(kind_of(care))) +=
        fmt::format("| **{}** `{}`{} | {} | {} | {}. {} ({}) |\n", in_cell(care.title), care.name,
                    care.problem.empty() ? "" : ", " + in_cell(care.problem),
                    in_cell(what_is_told(pack, care)), in_cell(what_bars(pack, care)),
                    in_cell(grade_words(care.grade)), in_cell(care.because), cites);
  }
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (!rows.at(i).empty())
      out += fmt::format(
          "\n## {}\n\n| measure | what is told | for whom, and what bars it | grade "
          "and why |\n|---|---|---|---|\n{}",
          headings.at(i), rows.at(i));
  return out;
}

}  // namespace flinch::cli
