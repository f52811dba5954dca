#include "describe/pack_lists.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "flinch/explain/condition.hpp"
#include "flinch/explain/figures.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/statements.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// One cell of a table: a bar or a line break would end it.
std::string cell(std::string_view text) {
  std::string out;
  for (char const c : inert(text)) out += c == '|' ? std::string("\\|") : std::string(1, c);
  return out;
}

std::string names_of(Pack const& pack, std::vector<SourceId> const& cites) {
  std::string out;
  for (auto const source : cites) out += (out.empty() ? "" : ", ") + pack[source].name;
  return out;
}

std::string sites_of(Pack const& pack, Cause const& cause) {
  std::string out;
  for (auto const site : cause.affects) out += (out.empty() ? "" : ", ") + pack[site].title;
  return out.empty() ? "the whole " + pack.words.one : out;
}

// "58 % of 70 (hess1998)", "45 % (derived from oneill2020)", "30 %".
std::string frequency_text(Pack const& pack, RuleEntry const& entry) {
  std::string out;
  for (auto const share : entry.frequencies)
    out += fmt::format("{}{:.4g}", out.empty() ? "" : " / ", 100 * share);
  out += " %";
  if (entry.sample_size)
    return out + fmt::format(" of {:.0f} ({})", *entry.sample_size, pack[*entry.source].name);
  return entry.source ? out + fmt::format(" (derived from {})", pack[*entry.source].name) : out;
}

std::string usual_text(Rule const& rule) {
  std::string out;
  for (auto const share : rule.usual)
    out += fmt::format("{}{:.4g}", out.empty() ? "" : " / ", 100 * share);
  return out + " %";
}

void rule_section(Pack const& pack, Rule const& rule, std::string& out) {
  out += fmt::format("### {}\n\n`{}`. {} ({})\n\n", inert(rule.title), rule.name,
                     inert(rule.because), names_of(pack, rule.cites));
  if (!rule.bands.empty()) {
    std::string bands;
    for (auto const& band : rule.bands) bands += (bands.empty() ? "" : " / ") + band.text;
    out += fmt::format("Bands: {}.\n\n", bands);
  }
  out += "| with | frequency |\n|---|---|\n";
  out += fmt::format("| none of these (usual) | {} |\n", usual_text(rule));
  for (auto const& entry : rule.entries)
    out += fmt::format(
        "| {}{} | {} |\n", cell(pack[entry.cause].title),
        entry.family ? fmt::format(" (as one of: {})", cell(pack[*entry.family].title)) : "",
        frequency_text(pack, entry));
  out += '\n';
}

// Each cited source, and how often the pack leans on it.
std::vector<std::size_t> citations(Pack const& pack) {
  std::vector<std::size_t> times(pack.sources.size());
  auto const count = [&](std::vector<SourceId> const& cites) {
    for (auto const source : cites) ++times[index(source)];
  };
  for (auto const& cause : pack.causes) count(cause.cites);
  for (auto const& rule : pack.rules) count(rule.cites);
  for (auto const& alarm : pack.alarms) count(alarm.cites);
  for (auto const& care : pack.care) count(care.cites);
  return times;
}

std::string read_text(Reference const& source) {
  constexpr std::array words = {"in full", "abstract", "quoted", "from memory"};
  return source.read ? words.at(static_cast<std::size_t>(*source.read)) : source.grade;
}

void backing_table(Pack const& pack, std::string& out) {
  BackingCounts all;
  out += "| body region of the cause | counted | derived | judged |\n|---|---|---|---|\n";
  for (auto const& [region, counts] : count_figures(pack)) {
    out += fmt::format("| {} | {} | {} | {} |\n", cell(region), counts.counted, counts.derived,
                       counts.judged);
    all.counted += counts.counted;
    all.derived += counts.derived;
    all.judged += counts.judged;
  }
  out += fmt::format("| **all** | {} | {} | {} |\n\n", all.counted, all.derived, all.judged);
}

void backed_figures(Pack const& pack, Backing kind, std::string& out) {
  out += "| clue | cause | figure |\n|---|---|---|\n";
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries)
      if (backing(entry) == kind)
        out += fmt::format("| {} | {} | {} |\n", cell(rule.title), cell(pack[entry.cause].title),
                           frequency_text(pack, entry));
  out += '\n';
}

void strong_table(Pack const& pack, std::string& out) {
  // One row a rule: its strongest causes, and the reason that the rule gives.
  std::map<RuleId, std::string> causes;
  std::vector<RuleId> order;
  for (auto const& clue : strong_clues(pack)) {
    auto& text = causes[clue.rule];
    if (text.empty()) order.push_back(clue.rule);
    text +=
        fmt::format("{}{} {:.0f}", text.empty() ? "" : ", ", pack[clue.cause].title, clue.ratio);
  }
  out += "| clue | cause and ratio | why |\n|---|---|---|\n";
  for (auto const rule : order)
    out += fmt::format("| {} | {} | {} |\n", cell(pack[rule].title), cell(causes[rule]),
                       cell(pack[rule].because));
}

}  // namespace

std::string causes_page(Pack const& pack) {
  auto out = fmt::format("# Causes in the pack {} {}\n\n{} causes. {}\n\n", pack.name, pack.version,
                         pack.causes.size(), read_sentence(pack));
  std::map<std::string, std::vector<CauseId>> by_region;
  for (std::uint32_t i = 0; i < pack.causes.size(); ++i)
    by_region[body_region(pack, pack.causes[i])].push_back(CauseId{i});
  for (auto const& [region, causes] : by_region) {
    out += fmt::format("## {}\n\n", inert(region));
    out += "| cause | where | needs | base per 1000 | why it is here | sources |\n";
    out += "|---|---|---|---|---|---|\n";
    for (auto const id : causes) {
      auto const& cause = pack[id];
      out += fmt::format("| **{}**{} `{}` | {} | {} | {:.4g} | {} | {} |\n", cell(cause.title),
                         not_pain_mark(pack, id), cause.name, cell(sites_of(pack, cause)),
                         pack[cause.see].name, 1000 * cause.base, cell(cause.because),
                         names_of(pack, cause.cites));
    }
    out += '\n';
  }
  if (pack.families.empty()) return out;
  out += "## Families: causes that look alike\n\n| family | causes |\n|---|---|\n";
  for (auto const& family : pack.families) {
    std::string members;
    for (auto const member : family.members)
      members += (members.empty() ? "" : ", ") + pack[member].title;
    out += fmt::format("| **{}** `{}` | {} |\n", cell(family.title), family.name, cell(members));
  }
  return out + '\n';
}

std::string rules_page(Pack const& pack) {
  auto out = fmt::format(
      "# Rules in the pack {} {}\n\n{} rules. A frequency without a sample or a source is a "
      "judgement. {}\n\n",
      pack.name, pack.version, pack.rules.size(), read_sentence(pack));
  for (auto const& rule : pack.rules) rule_section(pack, rule, out);
  return out;
}

// What holds the alarm back, as the end of a cell; empty: nothing.
std::string unless_words(Pack const& pack, Alarm const& alarm) {
  auto const* unless = alarm.unless();
  return unless == nullptr ? std::string()
                           : cell(", unless it is known that " + condition_text(pack, *unless));
}

std::string alarms_page(Pack const& pack) {
  auto const floors = std::count_if(pack.alarms.begin(), pack.alarms.end(),
                                    [](Alarm const& alarm) { return alarm.floor_of.has_value(); });
  auto out =
      fmt::format("# Alarms in the pack {} {}\n\n{} alarms. {}\n\n", pack.name, pack.version,
                  pack.alarms.size() - static_cast<std::size_t>(floors), read_sentence(pack));
  for (auto const& tier : pack.tiers) {
    std::string rows;
    for (auto const& alarm : pack.alarms)
      if (pack[alarm.see].name == tier.name && !alarm.floor_of)
        rows += fmt::format("| **{}** `{}`{} | {} | {} | {} |\n", cell(alarm.title), alarm.name,
                            unless_words(pack, alarm), cell(alarm.say), cell(alarm.because),
                            names_of(pack, alarm.cites));
    if (rows.empty()) continue;
    out += fmt::format("## {}\n\n| alarm | what to do | why | sources |\n|---|---|---|---|\n{}\n",
                       inert(tier.title), rows);
  }
  return out;
}

std::string floors_page(Pack const& pack) {
  std::string rows;
  std::size_t count = 0;
  for (auto const& alarm : pack.alarms) {
    if (!alarm.floor_of) continue;
    ++count;
    auto const& sign = pack[*alarm.floor_of];
    bool const is_plain = alarm.trigger().test.kind == Test::Kind::holds;
    auto when = is_plain ? "yes" : cell(node_text(pack, alarm.trigger()));
    when += unless_words(pack, alarm);
    rows += fmt::format("| **{}** `{}` | {} | {} | {} | {} |\n", cell(sign.label), sign.name, when,
                        pack[alarm.see].name, cell(alarm.because), names_of(pack, alarm.cites));
  }
  auto out = fmt::format(
      "# Floors in the pack {} {}\n\nHow soon {} with one sign and nothing else is seen at the "
      "latest. {} floors; a sign without one is seen as soon as the alarms and the ranking say. "
      "{}\n",
      pack.name, pack.version, with_article(pack.words.one), count, read_sentence(pack));
  if (count > 0) out += "\n| sign | when | see | why | sources |\n|---|---|---|---|---|\n" + rows;
  return out;
}

std::string sources_page(Pack const& pack) {
  auto out = fmt::format(
      "# Sources of the pack {} {}\n\n{} sources, how much of each was read, and how many causes, "
      "rules, alarms and measures cite it. {}\n\n| name | source | read | cited "
      "|\n|---|---|---|---|\n",
      pack.name, pack.version, pack.sources.size(), read_sentence(pack));
  auto const times = citations(pack);
  for (std::size_t i = 0; i < pack.sources.size(); ++i) {
    auto const& source = pack.sources[i];
    auto const link = !source.doi.empty()   ? " doi:" + source.doi
                      : !source.url.empty() ? " " + source.url
                                            : std::string();
    out += fmt::format("| {} | {}{} | {} | {} |\n", source.name, cell(source.text), cell(link),
                       cell(read_text(source)), times[i]);
  }
  return out;
}

std::string figures_page(Pack const& pack) {
  auto out =
      fmt::format("# Where the figures of the pack {} {} come from\n\n", pack.name, pack.version);
  out += fmt::format(
      "A figure is **counted** when a source prints it and the number of {} it was counted in; "
      "**derived** when it was worked out from a source, such as odds turned into shares or a "
      "percentage printed without its sample; **judged** when nothing published stands behind "
      "it. ",
      pack.words.many);
  out += read_sentence(pack) + "\n\n";
  backing_table(pack, out);
  out += "## Counted\n\n";
  backed_figures(pack, Backing::counted, out);
  out += "## Derived\n\n";
  backed_figures(pack, Backing::derived, out);
  out +=
      "## Judged clues that weigh more than most\n\nA judged answer that anyone can give should "
      "speak at most fivefold for a cause, a finding of hands at most twentyfold. These speak "
      "louder; the reason is the rule's own.\n\n";
  strong_table(pack, out);
  return out;
}

std::string unread_page(Tables const& tables) {
  auto const& pack = tables.pack();
  auto out = fmt::format("# What no licensed vet has read in the pack {} {}\n\n{}\n\n", pack.name,
                         pack.version, read_sentence(pack));
  std::array<std::size_t, statement_weights> all{};
  std::array<std::size_t, statement_weights> unread{};
  std::array<std::string, statement_weights> lists;
  for (auto const& statement : statements_by_weight(tables)) {
    auto const weight = static_cast<std::size_t>(statement.weight);
    ++all.at(weight);
    if (statement.read != nullptr) continue;
    ++unread.at(weight);
    auto& list = lists.at(weight);
    list += fmt::format("- {} `{}`: {}", keyword(statement.kind), statement.name,
                        cell(statement.title));
    if (auto const* stale = statement.stale)
      list += fmt::format(" ({} {} on {})",
                          stale->state == ReadingState::changed ? "**changed** since it was read by"
                                                                : "without a mark: read by",
                          cell(stale->reader), stale->on);
    list += '\n';
  }
  out += "| what | statements | unread |\n|---|---|---|\n";
  for (std::size_t i = 0; i < statement_weights; ++i)
    out += fmt::format("| {} | {} | {} |\n", heading(static_cast<StatementWeight>(i)), all.at(i),
                       unread.at(i));
  for (std::size_t i = 0; i < statement_weights; ++i)
    if (!lists.at(i).empty())
      out += fmt::format("\n## {}\n\n{}", heading(static_cast<StatementWeight>(i)), lists.at(i));
  return out;
}

}  // namespace flinch::cli
