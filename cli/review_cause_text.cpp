// Causes in a review: all that speaks for and against one, and what separates two.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "review_page.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t open_shown = 6;

std::string per_cent(double share) {
  auto const hundred = 100 * share;
  return hundred < 0.095 ? "under 0.1%" : fmt::format("{:.1f}%", hundred);
}

}  // namespace

void ReviewPage::weighed(double nats, std::string_view text) {
  auto const words = weight_in_words(nats);
  page_.paragraph(std::string(text), 2, fmt::format("{:+6.1f} dB  {:<21} ", decibans(nats), words));
}

void ReviewPage::rationale(std::string const& because, std::vector<SourceId> const& cites) {
  page_.paragraph("Because: " + because, 6);
  for (auto const source : cites) page_.paragraph("Source: " + pack_[source].text, 6);
}

void ReviewPage::rule_weight(RuleWeight const& weight, bool is_full) {
  weighed(weight.counted, outcome_text(weight.rule, weight.truth, weight.band));
  if (weight.share < 1 && weight.stronger)
    page_.paragraph(
        fmt::format("Alone {:+.1f} dB; {:.3g}% of it counts, because it overlaps with "
                    "\"{}\".",
                    decibans(weight.weight), 100 * weight.share, pack_[*weight.stronger].title),
        6);
  if (!is_full) return;
  page_.paragraph("Answered: " + answers(weight.behind), 6);
  rationale(pack_[weight.rule].because, pack_[weight.rule].cites);
  page_.paragraph("Rule: " + pack_[weight.rule].name, 6);
}

void ReviewPage::cause_weights(CauseExplanation const& why) {
  for (bool const is_for : {true, false}) {
    page_.heading(is_for ? "FOR" : "AGAINST");
    bool is_any = false;
    for (auto const& weight : why.weights) {
      if ((weight.counted >= 0) != is_for) continue;
      rule_weight(weight, true);
      is_any = true;
    }
    if (!is_any) page_.paragraph("Nothing that is known.");
    page_.blank();
  }
}

void ReviewPage::added_up(CauseExplanation const& why) {
  auto const base = decibans(why.log_prior);
  auto const evidence = decibans(why.numbers.evidence);
  page_.heading("ADDED UP");
  page_.line(fmt::format("  {:+6.1f} dB  base: {} of dogs like any other", base,
                         per_cent(why.numbers.prior)));
  page_.line(fmt::format("  {:+6.1f} dB  all weights above", evidence));
  page_.line(fmt::format("  {:+6.1f} dB  together", base + evidence));
  page_.line(fmt::format("  {:+6.1f} dB  all causes together, this one included",
                         decibans(why.log_scale)));
  page_.line(fmt::format("  {:+6.1f} dB  the difference: {}",
                         decibans(std::log(why.numbers.posterior)),
                         per_cent(why.numbers.posterior)));
  page_.blank();
}

void ReviewPage::open_rules(std::vector<OpenRule> const& open) {
  page_.heading("NOT KNOWN, AND WOULD MATTER MOST");
  if (open.empty()) page_.paragraph("Nothing: every rule that names this cause is settled.");
  for (std::size_t i = 0; i < std::min(open.size(), open_shown); ++i) {
    auto const& one = open[i];
    page_.paragraph(
        fmt::format("{}: at most {:+.1f} dB, at least {:+.1f} dB. Ask: {}", pack_[one.rule].title,
                    decibans(one.most_for), decibans(one.most_against), labels(one.signs)),
        2, bullet());
  }
  if (open.size() > open_shown)
    page_.paragraph(fmt::format("... and {} more rules", open.size() - open_shown));
  page_.blank();
}

void ReviewPage::cause(CauseId id) {
  auto const why = explain_cause(reviewed_.tables, reviewed_.result, id);
  auto const& cause = pack_[id];
  page_.heading(fmt::format("CAUSE: {} ({})", cause.title, cause.name));
  page_.paragraph(fmt::format(
      "Ranked {} of {}. Chance {}, from a base of {}. Needs: {}.{}", why.rank,
      reviewed_.result.ranking.size(), per_cent(why.numbers.posterior), per_cent(why.numbers.prior),
      pack_[cause.see].title, cause.not_pain ? " Not pain, though it may look like it." : ""));
  if (reviewed_.result.too_few_answers)
    page_.paragraph("Too few answers yet for the ranking to say anything about this dog.");
  rationale(cause.because, cause.cites);
  page_.blank();
  cause_weights(why);
  added_up(why);
  open_rules(why.open);
}

void ReviewPage::contrast_rules(Contrast const& c) {
  weighed(c.base_difference, "base rates");
  for (auto const& rule : c.rules) {
    weighed(rule.difference(), outcome_text(rule.rule, rule.truth, rule.band));
    page_.paragraph(
        fmt::format("{:+.1f} dB against {:+.1f} dB. Answered: {}", decibans(rule.for_first),
                    decibans(rule.for_second), answers(rule.behind)),
        6);
  }
  page_.line(fmt::format("  {:+6.1f} dB  together", decibans(c.total)));
}

void ReviewPage::contrast_open(Contrast const& c, std::size_t shown) {
  if (c.open.empty()) page_.paragraph("Nothing.");
  for (std::size_t i = 0; i < std::min(c.open.size(), shown); ++i) {
    auto const& one = c.open[i];
    page_.paragraph(
        fmt::format("{}: up to {:.1f} dB for the first, {:.1f} dB for the second. Ask: {}",
                    pack_[one.rule].title, decibans(one.most_for_first),
                    decibans(one.most_for_second), labels(one.signs)),
        2, bullet());
  }
}

void ReviewPage::between(CauseId first, CauseId second) {
  auto const c = contrast(reviewed_.tables, reviewed_.result, first, second);
  page_.heading(fmt::format("BETWEEN {} AND {}", pack_[first].title, pack_[second].title));
  page_.paragraph(fmt::format("For (+) speaks for {}, against (-) for {}.", pack_[first].title,
                              pack_[second].title));
  page_.blank();
  contrast_rules(c);
  auto const ratio = std::exp(std::abs(c.total));
  auto const& likelier = pack_[c.total >= 0 ? first : second].title;
  page_.paragraph(ratio >= 1.05 ? fmt::format("So {} is {:.3g} times as likely.", likelier, ratio)
                                : std::string("So far nothing separates them."));
  page_.blank();
  page_.heading("NOT KNOWN, AND WOULD SEPARATE THEM MOST");
  contrast_open(c, open_shown);
  page_.blank();
}

void ReviewPage::first_causes(std::size_t shown) {
  constexpr std::size_t reasons_each = 5;
  page_.heading("THE FIRST CAUSES");
  if (reviewed_.result.too_few_answers) {
    page_.paragraph("Too few answers to rank causes.");
    page_.blank();
    return;
  }
  for (std::size_t i = 0; i < std::min(shown, reviewed_.result.ranking.size()); ++i) {
    auto const& ranked = reviewed_.result.ranking[i];
    auto const title = ranked.cause ? pack_[*ranked.cause].title : "None of the listed causes";
    page_.line(fmt::format("{:>2}  {} {}  {} from {}", i + 1, page_.bold(fitted(title, 36)),
                           page_.bar(ranked.posterior, 10), per_cent(ranked.posterior),
                           per_cent(ranked.prior)));
    if (!ranked.cause) continue;
    auto const why = explain_cause(reviewed_.tables, reviewed_.result, *ranked.cause);
    for (std::size_t r = 0; r < std::min(why.weights.size(), reasons_each); ++r)
      rule_weight(why.weights[r], false);
    if (why.weights.size() > reasons_each)
      page_.paragraph(fmt::format("... and {} more rules: --cause {}",
                                  why.weights.size() - reasons_each, pack_[*ranked.cause].name),
                      4);
  }
  page_.blank();
}

}  // namespace flinch::cli
