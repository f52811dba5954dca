#include "report/report_causes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/cause.hpp"
#include "flinch/explain/figures.hpp"
#include "flinch/explain/ladder.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/source_subjects.hpp"
#include "look/chance_words.hpp"
#include "look/html.hpp"
#include "report/nomogram.hpp"
#include "report/pictures.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t causes_in_detail = 3;

std::string answers(Reviewed const& reviewed, std::vector<SignId> const& signs) {
  std::string out;
  for (auto const sign : signs)
    out += (out.empty() ? "" : "; ") + known_text(reviewed.tables.pack(), reviewed.result, sign);
  return out;
}

std::string const nothing_known = "Nothing that is known speaks for or against it.";

std::string weights_table(Reviewed const& reviewed, CauseExplanation const& why) {
  if (why.weights.empty()) return paragraph(nothing_known);
  auto const& pack = reviewed.tables.pack();
  SourceSubjects const subjects(pack);
  std::vector<std::vector<std::string>> rows;
  for (auto const& w : why.weights) {
    auto const& rule = pack[w.rule];
    std::string sources;
    if (why.cause)
      for (auto const source : subjects.at(w.rule, *why.cause))
        sources += " [" + pack[source].name + "]";
    if (sources.empty()) sources = " [judged]";
    auto overlap = std::string();
    if (w.stronger)
      overlap = fmt::format(" Counted at {:.3g}%: overlaps with \"{}\".", 100 * w.share,
                            pack[*w.stronger].title);
    if (auto const family = why.cause ? family_of(pack, w.rule, *why.cause) : std::nullopt)
      overlap += fmt::format(" As one of: {}.", pack[*family].title);
    rows.push_back({fmt::format("{}<br><small>{}</small>",
                                escaped(reason_text(pack, {w.rule, w.truth, w.band, 0, 1})),
                                escaped(answers(reviewed, w.behind))),
                    escaped(weight_in_words(w.counted)),
                    fmt::format("{:+.1f}", decibans(w.counted)),
                    fmt::format("{}<small>{}{}</small>", escaped(rule.because), escaped(sources),
                                escaped(overlap))});
  }
  return table(fmt::format("Reasons for \"{}\", strongest first", title_of(pack, why.cause)),
               {{"what was found"}, {"speaks"}, {"decibans", true}, {"why, and from where"}}, rows,
               Narrow::stacks);
}

std::string others_in_words(Pack const& pack, Rung const& rung) {
  std::string strongest;
  for (auto const& outcome : rung.strongest)
    strongest += (strongest.empty() ? "" : "; ") +
                 reason_text(pack, {outcome.rule, outcome.truth, outcome.band, 0, 1});
  return "All that speaks only of other causes, most of all " + strongest;
}

std::vector<std::string> rung_titles(Pack const& pack, std::vector<Rung> const& rungs) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    auto const& rung = rungs[i];
    if (rung.rule)
      out.push_back(reason_text(pack, {*rung.rule, rung.truth, rung.band, 0, 1}));
    else
      out.push_back(i == 0 ? std::string("Base rate") : others_in_words(pack, rung));
  }
  return out;
}

std::string ladder_of(Reviewed const& reviewed, CauseId cause) {
  auto const& pack = reviewed.tables.pack();
  auto const rungs = ladder(reviewed.tables, reviewed.result, cause);
  auto const titles = rung_titles(pack, rungs);
  std::string list;
  for (std::size_t i = 0; i < rungs.size(); ++i)
    list += fmt::format("<li>{}: {}</li>\n", escaped(titles[i]), per_cent(rungs[i].probability));
  return figure(ladder_picture(pack[cause].title, rungs, titles),
                "How the answers moved it, one after the other: the chance after each. An answer "
                "that helps another cause more lowers this one.") +
         numbered_list(list);
}

std::string nomogram_of(Reviewed const& reviewed, CauseId cause, Ranked const& ranked) {
  auto const& title = reviewed.tables.pack()[cause].title;
  return figure(
      nomogram_picture(title, ranked.prior, ranked.posterior),
      fmt::format("{}. {} Form of the picture: Fagan TJ (1975) Nomogram for Bayes&#39;s "
                  "theorem. N Engl J Med 293:257.",
                  escaped(title), escaped(nomogram_words(ranked.prior, ranked.posterior))));
}

// What its figures rest on.
std::string backing_in_words(Reviewed const& reviewed, CauseId cause) {
  auto const& pack = reviewed.tables.pack();
  BackingCounts counts;
  for (auto const& reason : reasons(reviewed.result, cause))
    for (auto const& entry : pack[reason.rule].entries)
      if (entry.cause == cause) counts.add(backing(entry));
  auto const all = counts.counted + counts.derived + counts.judged;
  if (all == 0) return " " + nothing_known;
  if (all == counts.judged)
    return all == 1 ? " Its one figure is a judgement."
                    : fmt::format(" Its {} figures are all judgements.", all);
  return fmt::format(
      " Of its {} figures {} were counted, {} derived from what is published, {} "
      "judged.",
      all, counts.counted, counts.derived, counts.judged);
}

// Those that the ranking cannot place behind the first, though they are not among those shown.
std::string alike_unseen(Pack const& pack, std::vector<std::optional<CauseId>> const& alike,
                         std::size_t seen, Reader reader) {
  if (alike.size() == seen) return {};
  if (reader == Reader::keeper)
    return paragraph(fmt::format("{} that {} not shown cannot be told apart from the first either.",
                                 alike.size() - seen == 1
                                     ? std::string("One more cause")
                                     : fmt::format("{} more causes", alike.size() - seen),
                                 alike.size() - seen == 1 ? "is" : "are"));
  constexpr std::size_t named = 4;
  std::string names;
  for (std::size_t i = seen; i < std::min(alike.size(), seen + named); ++i)
    names += (names.empty() ? "" : "; ") + title_of(pack, alike[i]) + not_pain_mark(pack, alike[i]);
  if (alike.size() > seen + named) names += fmt::format("; {} more", alike.size() - seen - named);
  return paragraph("Not shown, and not to be told apart from the first either: " + names + ".");
}

}  // namespace

std::string causes_in_short(Reviewed const& reviewed, Reader reader, std::size_t shown,
                            Extent extent) {
  if (reviewed.result.judgement.nothing_told)
    return "<p>Nothing was told to say by what it may be.</p>\n";
  auto const& pack = reviewed.tables.pack();
  auto const& ranking = reviewed.result.ranking;
  Uncertainty const uncertainty(reviewed.tables, reviewed.result);
  auto const alike = uncertainty.alike_with_first();
  std::size_t alike_seen = 0;
  std::vector<CauseBar> bars;
  std::string items;
  for (std::size_t i = 0; i < std::min(shown, ranking.size()); ++i) {
    auto const& ranked = ranking[i];
    CauseBar bar;
    bar.title = title_of(pack, ranked.cause) + not_pain_mark(pack, ranked.cause);
    bar.share = ranked.posterior;
    bar.allowed = uncertainty.chance(ranked.cause);
    bar.words = fmt::format("{} ({})", chance_in_words(ranked.posterior),
                            chance_range_in_words(bar.allowed));
    auto text = fmt::format("{}{}: {}", clinical_title(pack, ranked.cause),
                            not_pain_mark(pack, ranked.cause), bar.words);
    if (reader == Reader::clinician) {
      bar.numbers = fmt::format("{} ({})", per_cent(ranked.posterior), chance_range(bar.allowed));
      text += ", " + bar.numbers;
    }
    if (std::find(alike.begin(), alike.end(), ranked.cause) != alike.end()) {
      ++alike_seen;
      bar.standing = "not to be told apart from the first";
      text += ", " + bar.standing;
    }
    text += ".";
    if (reader == Reader::clinician && ranked.cause)
      text += backing_in_words(reviewed, *ranked.cause);
    items += item(text);
    bars.push_back(std::move(bar));
  }
  auto out = numbered_list(items) + alike_unseen(pack, alike, alike_seen, reader);
  if (extent == Extent::in_short) return out;
  return figure(
             bars_picture(bars),
             "A bar says how likely. The thin line below it, and what stands in brackets, say how "
             "far that may be off, because the figures behind it are not known exactly.") +
         out;
}

std::string causes_in_full(Reviewed const& reviewed) {
  if (reviewed.result.judgement.nothing_told) return {};
  auto const& pack = reviewed.tables.pack();
  Uncertainty const uncertainty(reviewed.tables, reviewed.result);
  std::string out;
  std::size_t shown = 0;
  for (auto const& ranked : reviewed.result.ranking) {
    if (!ranked.cause) continue;
    if (++shown > causes_in_detail) break;
    auto const why = explain_cause(reviewed.tables, reviewed.result, *ranked.cause);
    out += fmt::format("<h3>{}: {} ({}), from a base of {}</h3>\n<p>{}</p>\n",
                       escaped(pack[*ranked.cause].title), per_cent(ranked.posterior),
                       chance_range(uncertainty.chance(ranked.cause)), per_cent(ranked.prior),
                       escaped(pack[*ranked.cause].because));
    out += weights_table(reviewed, why) + ladder_of(reviewed, *ranked.cause);
    if (shown == 1) out += nomogram_of(reviewed, *ranked.cause, ranked);
  }
  return out;
}

}  // namespace flinch::cli
