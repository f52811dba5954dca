#include "report_causes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chance_words.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/ladder.hpp"
#include "flinch/explain/reasons.hpp"
#include "nomogram.hpp"
#include "pictures.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t causes_in_detail = 3;

std::string title_of(Pack const& pack, Ranked const& ranked) {
  if (!ranked.cause) return "None of the listed causes";
  return pack[*ranked.cause].title + (pack[*ranked.cause].not_pain ? " (not pain)" : "");
}

bool is_counted(Pack const& pack, RuleId rule, CauseId cause) {
  auto const& entries = pack[rule].entries;
  return std::any_of(entries.begin(), entries.end(), [&](RuleEntry const& e) {
    return e.cause == cause && e.sample_size.has_value();
  });
}

std::string answers(Reviewed const& reviewed, std::vector<SignId> const& signs) {
  std::string out;
  for (auto const sign : signs)
    out += (out.empty() ? "" : "; ") + known_text(reviewed.tables.pack(), reviewed.result, sign);
  return out;
}

std::string weights_table(Reviewed const& reviewed, CauseExplanation const& why) {
  auto const& pack = reviewed.tables.pack();
  auto out = fmt::format(
      "<section class=\"table\" tabindex=\"0\" aria-label=\"Reasons for {0}\">"
      "<table>\n<caption>Reasons, strongest first</caption>\n"
      "<thead><tr><th scope=\"col\">what was found</th><th scope=\"col\">speaks</th>"
      "<th scope=\"col\" class=\"number\">decibans</th><th scope=\"col\">why, and from where</th>"
      "</tr></thead>\n<tbody>\n",
      escaped(title_of(pack, why.cause)));
  for (auto const& w : why.weights) {
    auto const& rule = pack[w.rule];
    std::string sources;
    for (auto const source : rule.cites) sources += " [" + pack[source].name + "]";
    auto overlap = std::string();
    if (w.stronger)
      overlap = fmt::format(" Counted at {:.3g}%: overlaps with \"{}\".", 100 * w.share,
                            pack[*w.stronger].title);
    out += fmt::format(
        "<tr><td>{}<br><small>{}</small></td><td>{}</td><td class=\"number\">{:+.1f}</td>"
        "<td>{}<small>{}{}</small></td></tr>\n",
        escaped(reason_text(pack, {w.rule, w.truth, w.band, 0, 1})),
        escaped(answers(reviewed, w.behind)), escaped(weight_in_words(w.counted)),
        decibans(w.counted), escaped(rule.because), escaped(sources), escaped(overlap));
  }
  return out + "</tbody></table></section>\n";
}

std::vector<std::string> rung_titles(Pack const& pack, std::vector<Rung> const& rungs) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    auto const& rung = rungs[i];
    if (rung.rule)
      out.push_back(reason_text(pack, {*rung.rule, rung.truth, rung.band, 0, 1}));
    else
      out.emplace_back(i == 0 ? "Base rate" : "All that speaks only of other causes");
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
  return fmt::format(
      "<figure>\n{}<figcaption>How the answers moved it, one after the other: the chance after "
      "each. An answer that helps another cause more lowers this "
      "one.</figcaption>\n</figure>\n<ol>\n{}</ol>\n",
      ladder_picture(pack[cause].title, rungs, titles), list);
}

std::string nomogram_of(Reviewed const& reviewed, CauseId cause, Ranked const& ranked) {
  auto const ratio =
      ranked.posterior / (1 - ranked.posterior) / (ranked.prior / (1 - ranked.prior));
  auto const& title = reviewed.tables.pack()[cause].title;
  return fmt::format(
      "<figure>\n{}<figcaption>{}: from {} before the answers to {} after them; all answers "
      "together weigh like one test with a likelihood ratio of {:.4g}. Form of the picture: Fagan "
      "TJ "
      "(1975) Nomogram for Bayes&#39;s theorem. N Engl J Med 293:257.</figcaption>\n</figure>\n",
      nomogram_picture(title, ranked.prior, ranked.posterior), escaped(title),
      per_cent(ranked.prior), per_cent(ranked.posterior), ratio);
}

// What its figures rest on.
std::string sureness_in_words(Reviewed const& reviewed, CauseId cause) {
  auto const why = explain_cause(reviewed.tables, reviewed.result, cause);
  auto const counted = std::count_if(why.weights.begin(), why.weights.end(), [&](auto const& w) {
    return is_counted(reviewed.tables.pack(), w.rule, cause);
  });
  return counted == 0
             ? std::string(" All its figures are judgements.")
             : fmt::format(" {} of its {} figures were counted, the others are judgements.",
                           counted, why.weights.size());
}

}  // namespace

std::string likelihood_in_words(Reviewed const& reviewed, std::size_t place) {
  constexpr double far_enough = 3;  // judgement: a ratio of three is worth calling a difference
  auto const& ranking = reviewed.result.ranking;
  auto out = std::string(chance_in_words(ranking[place].posterior));
  constexpr double worth_telling = 0.1;
  if (ranking[place].posterior >= worth_telling && place + 1 < ranking.size() &&
      ranking[place].posterior < far_enough * ranking[place + 1].posterior)
    out += ", not to be told from the next";
  return out;
}

std::string causes_in_short(Reviewed const& reviewed, Reader reader, std::size_t shown) {
  if (reviewed.result.too_few_answers) return "<p>Too few answers to say what it may be.</p>\n";
  auto const& pack = reviewed.tables.pack();
  std::vector<CauseBar> bars;
  std::string list;
  for (std::size_t i = 0; i < std::min(shown, reviewed.result.ranking.size()); ++i) {
    auto const& ranked = reviewed.result.ranking[i];
    bars.push_back({title_of(pack, ranked), likelihood_in_words(reviewed, i), ranked.posterior});
    auto const sureness = reader == Reader::clinic && ranked.cause
                              ? sureness_in_words(reviewed, *ranked.cause)
                              : std::string();
    list += fmt::format("<li>{}: {}.{}</li>\n", escaped(bars.back().title),
                        escaped(bars.back().words), escaped(sureness));
  }
  return fmt::format("<figure>\n{}</figure>\n<ol>\n{}</ol>\n", bars_picture(bars), list);
}

std::string causes_in_full(Reviewed const& reviewed) {
  if (reviewed.result.too_few_answers) return {};
  auto const& pack = reviewed.tables.pack();
  std::string out;
  std::size_t shown = 0;
  for (auto const& ranked : reviewed.result.ranking) {
    if (!ranked.cause) continue;
    if (++shown > causes_in_detail) break;
    auto const why = explain_cause(reviewed.tables, reviewed.result, *ranked.cause);
    out += fmt::format("<h3>{}: {}, from a base of {}</h3>\n<p>{}</p>\n",
                       escaped(pack[*ranked.cause].title), per_cent(ranked.posterior),
                       per_cent(ranked.prior), escaped(pack[*ranked.cause].because));
    out += weights_table(reviewed, why) + ladder_of(reviewed, *ranked.cause);
    if (shown == 1) out += nomogram_of(reviewed, *ranked.cause, ranked);
  }
  return out;
}

}  // namespace flinch::cli
