// Causes in a review: all that speaks for and against one, and what separates two.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "flinch/explain/source_subjects.hpp"
#include "look/chance_words.hpp"
#include "review/review_page.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t telling_shown = 6;

std::string bits_text(double bits) {
  constexpr double least_shown = 0.0001;  // less reads as a power of ten
  return bits < least_shown ? "under 0.0001 bits" : fmt::format("{:.2g} bits", bits);
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

void ReviewPage::rule_weight(RuleWeight const& weight, CauseId cause, bool is_full) {
  weighed(weight.counted, outcome_text(weight.rule, weight.truth, weight.band));
  if (weight.share < 1 && weight.stronger)
    page_.paragraph(
        fmt::format("Alone {:+.1f} dB; {:.3g}% of it counts, because it overlaps with "
                    "\"{}\".",
                    decibans(weight.weight), 100 * weight.share, pack_[*weight.stronger].title),
        6);
  if (auto const family = family_of(pack_, weight.rule, cause))
    page_.paragraph("As one of: " + pack_[*family].title, 6);
  if (!is_full) return;
  page_.paragraph("Answered: " + answers(weight.behind), 6);
  auto const sources = SourceSubjects(pack_).at(weight.rule, cause);
  rationale(pack_[weight.rule].because, sources);
  if (sources.empty()) page_.paragraph("Source: none for this cause, judged.", 6);
  page_.paragraph("Rule: " + pack_[weight.rule].name, 6);
}

void ReviewPage::cause_weights(CauseExplanation const& why) {
  for (bool const is_for : {true, false}) {
    page_.heading(is_for ? "FOR" : "AGAINST");
    bool is_any = false;
    for (auto const& weight : why.weights) {
      if (is_for ? weight.counted <= 0 : weight.counted >= 0) continue;
      rule_weight(weight, *why.cause, true);
      is_any = true;
    }
    if (!is_any) page_.paragraph("Nothing that is known.");
    page_.blank();
  }
  auto const is_neither = [](RuleWeight const& weight) { return weight.counted == 0; };
  if (std::none_of(why.weights.begin(), why.weights.end(), is_neither)) return;
  page_.heading("KNOWN, AND NEITHER WAY");
  for (auto const& weight : why.weights)
    if (is_neither(weight)) rule_weight(weight, *why.cause, true);
  page_.blank();
}

void ReviewPage::added_up(CauseExplanation const& why) {
  auto const base = decibans(why.log_prior);
  auto const evidence = decibans(why.numbers.evidence);
  page_.heading("ADDED UP");
  page_.line(fmt::format("  {:+6.1f} dB  base: {} of {} like any other", base,
                         per_cent(why.numbers.prior), pack_.words.many));
  page_.line(fmt::format("  {:+6.1f} dB  {}", evidence,
                         why.cause ? "all weights above" : "no weights: the usual in everything"));
  page_.line(fmt::format("  {:+6.1f} dB  together", base + evidence));
  page_.line(fmt::format("  {:+6.1f} dB  all causes together, this one included",
                         decibans(why.log_scale)));
  page_.line(fmt::format("  {:+6.1f} dB  the difference: {}",
                         decibans(std::log(why.numbers.posterior)),
                         per_cent(why.numbers.posterior)));
  page_.blank();
}

void ReviewPage::open_rules(std::vector<OpenRule> const& open) {
  page_.heading("NOT KNOWN, AND EXPECTED TO TELL MOST ABOUT IT");
  if (open.empty()) page_.paragraph("Nothing: every rule that names this cause is settled.");
  for (std::size_t i = 0; i < std::min(open.size(), telling_shown); ++i) {
    auto const& one = open[i];
    auto const reach = one.most_for == 0 && one.most_against == 0
                           ? std::string()
                           : fmt::format("; {:+.1f} to {:+.1f} dB", decibans(one.most_against),
                                         decibans(one.most_for));
    page_.paragraph(fmt::format("{}: {} expected{}. Ask: {}", pack_[one.rule].title,
                                bits_text(one.bits), reach, labels(one.signs)),
                    2, bullet());
  }
  if (open.size() > telling_shown)
    page_.paragraph(fmt::format("... and {} more rules", open.size() - telling_shown));
  page_.blank();
}

void ReviewPage::cause(std::optional<CauseId> id) {
  auto const why = explain_cause(reviewed_.tables, reviewed_.result, id);
  page_.heading(
      fmt::format("CAUSE: {} ({})", clinical_title(pack_, id), id ? pack_[*id].name : "none"));
  auto text = fmt::format("Ranked {} of {}. Chance {}, from a base of {}.", why.rank,
                          reviewed_.result.ranking.size(), per_cent(why.numbers.posterior),
                          per_cent(why.numbers.prior));
  if (id)
    text += fmt::format(" Needs: {}.{}", pack_[pack_[*id].see].title,
                        pack_[*id].not_pain ? " Not pain, though it may look like it." : "");
  page_.paragraph(text);
  page_.paragraph(
      fmt::format("The figures behind it allow {}.", chance_range(uncertainty_.chance(id))));
  if (reviewed_.result.judgement.nothing_told)
    page_.paragraph(fmt::format("Nothing was told yet, so the ranking says nothing about this {}.",
                                pack_.words.one));
  if (id) {
    rationale(pack_[*id].because, pack_[*id].cites);
    page_.blank();
    cause_weights(why);
  } else {
    page_.paragraph(
        "Everything is as often with it as usually, so no answer speaks for or against it: it "
        "rises as the listed causes fall, and falls as they rise.");
    page_.blank();
  }
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
  auto const interval = uncertainty_.difference(c.first, c.second);
  page_.line(fmt::format("  {:+6.1f} dB  together; the figures allow {:+.1f} to {:+.1f}",
                         decibans(c.total), decibans(interval.low), decibans(interval.high)));
}

void ReviewPage::contrast_open(Contrast const& c, std::size_t shown) {
  if (c.open.empty()) page_.paragraph("Nothing.");
  for (std::size_t i = 0; i < std::min(c.open.size(), shown); ++i) {
    auto const& one = c.open[i];
    page_.paragraph(
        fmt::format(
            "{}: {} expected; up to {:.1f} dB for the first, {:.1f} dB for the second. Ask: {}",
            pack_[one.rule].title, bits_text(one.bits), decibans(one.most_for_first),
            decibans(one.most_for_second), labels(one.signs)),
        2, bullet());
  }
}

// What comes of a contrast, and how sure that is.
std::string ReviewPage::verdict(Contrast const& c) const {
  auto const first = title_of(pack_, c.first);
  auto const second = title_of(pack_, c.second);
  auto const interval = uncertainty_.difference(c.first, c.second);
  auto const times = [](double nats) { return ratio_in_words(std::exp(std::abs(nats))); };
  if (!interval.holds(0)) {
    bool const is_first = c.total > 0;
    auto const [low, high] = is_first ? std::pair(interval.low, interval.high)
                                      : std::pair(-interval.high, -interval.low);
    return fmt::format("So {} is {} times as likely; the figures allow {} to {} times.",
                       is_first ? first : second, times(c.total), times(low), times(high));
  }
  auto const said =
      times(c.total) == times(0)
          ? std::string("both are as likely")
          : fmt::format("{} is {} times as likely", c.total > 0 ? first : second, times(c.total));
  return fmt::format(
      "So {}, but the two cannot be told apart: the figures allow anything from {} times for {} "
      "to {} times for {}.",
      said, times(interval.low), second, times(interval.high), first);
}

void ReviewPage::between(std::optional<CauseId> first, std::optional<CauseId> second) {
  auto const c = contrast(reviewed_.tables, reviewed_.result, first, second);
  auto const one = title_of(pack_, first);
  auto const other = title_of(pack_, second);
  page_.heading(fmt::format("BETWEEN {} AND {}", one, other));
  page_.paragraph(fmt::format("For (+) speaks for {}, against (-) for {}.", one, other));
  if (reviewed_.result.judgement.nothing_told)
    page_.paragraph(fmt::format("Nothing was told yet, so the ranking says nothing about this {}.",
                                pack_.words.one));
  page_.blank();
  contrast_rules(c);
  page_.paragraph(verdict(c));
  page_.blank();
  page_.heading("NOT KNOWN, AND EXPECTED TO SEPARATE THEM MOST");
  contrast_open(c, telling_shown);
  page_.blank();
}

// Those that the figures cannot place behind the first.
void ReviewPage::alike_causes() {
  constexpr std::size_t shown = 4;
  auto const alike = uncertainty_.alike_with_first();
  auto const first = title_of(pack_, reviewed_.result.ranking.front().cause);
  if (alike.empty()) {
    page_.paragraph(fmt::format("{} can be told apart from all others.", first));
    return;
  }
  std::string names;
  for (std::size_t i = 0; i < std::min(shown, alike.size()); ++i)
    names += (names.empty() ? "" : "; ") + title_of(pack_, alike[i]);
  if (alike.size() > shown) names += fmt::format("; {} more", alike.size() - shown);
  page_.paragraph(fmt::format(
      "{} cannot be told apart from: {}. The figures are not known well enough.", first, names));
}

void ReviewPage::first_causes(std::size_t shown) {
  constexpr std::size_t reasons_each = 5;
  page_.heading("THE FIRST CAUSES");
  if (reviewed_.result.judgement.nothing_told) {
    page_.paragraph("Nothing was told to rank causes by.");
    page_.blank();
    return;
  }
  for (std::size_t i = 0; i < std::min(shown, reviewed_.result.ranking.size()); ++i) {
    auto const& ranked = reviewed_.result.ranking[i];
    page_.line(fmt::format(
        "{:>2}  {} {}  {} from {}", i + 1, page_.bold(fitted(title_of(pack_, ranked.cause), 36)),
        page_.bar(ranked.posterior, 10), per_cent(ranked.posterior), per_cent(ranked.prior)));
    page_.paragraph("the figures allow " + chance_range(uncertainty_.chance(ranked.cause)), 4);
    if (!ranked.cause) continue;
    auto const why = explain_cause(reviewed_.tables, reviewed_.result, *ranked.cause);
    for (std::size_t r = 0; r < std::min(why.weights.size(), reasons_each); ++r)
      rule_weight(why.weights[r], *ranked.cause, false);
    if (why.weights.size() > reasons_each)
      page_.paragraph(fmt::format("... and {} more rules: --cause {}",
                                  why.weights.size() - reasons_each, pack_[*ranked.cause].name),
                      4);
  }
  page_.blank();
  alike_causes();
  page_.blank();
}

}  // namespace flinch::cli
