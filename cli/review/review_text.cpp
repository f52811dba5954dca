#include "review/review_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "flinch/telling/caution.hpp"
#include "flinch/text/display.hpp"
#include "look/chance_words.hpp"
#include "review/review_page.hpp"

namespace flinch::cli {
namespace {

// Who can find out, where that is not anyone.
std::string_view seen_text(SeenBy seen_by) {
  return seen_by == SeenBy::hands    ? " (by hands)"
         : seen_by == SeenBy::clinic ? " (in the clinic)"
                                     : "";
}

}  // namespace

std::string_view ReviewPage::bullet() const { return page_.look().has_unicode ? "\u2022 " : "* "; }

std::string ReviewPage::answers(std::vector<SignId> const& signs) const {
  std::string out;
  for (auto const sign : signs)
    out += (out.empty() ? "" : "; ") + known_text(pack_, reviewed_.result, sign);
  return out;
}

std::string ReviewPage::labels(std::vector<SignId> const& signs) const {
  constexpr std::size_t shown = 4;
  std::string out;
  for (std::size_t i = 0; i < std::min(signs.size(), shown); ++i)
    out += fmt::format("{}{}{}", out.empty() ? "" : ", ", pack_[signs[i]].label,
                       seen_text(pack_[signs[i]].seen_by));
  if (signs.size() > shown) out += fmt::format(", {} more", signs.size() - shown);
  return out;
}

std::string ReviewPage::outcome_text(RuleId rule, Truth truth, std::uint32_t band) const {
  return reason_text(pack_, {rule, truth, band, 0, 1});
}

std::string ReviewPage::changes_text(std::span<Change const> changes) const {
  std::string out;
  for (auto const& change : changes) {
    auto const* now = reviewed_.result.find(change.sign);
    out += out.empty() ? "" : " and ";
    auto const* before = now == nullptr ? nullptr : std::get_if<Findings>(&now->answer);
    auto const* after = change.answer ? std::get_if<Findings>(&*change.answer) : nullptr;
    auto const sites_before = before == nullptr ? 0 : before->found.size();
    bool const is_more =
        sites_before > 0 && after != nullptr && after->found.size() > sites_before &&
        std::equal(before->found.begin(), before->found.end(), after->found.begin());
    if (is_more) {
      std::string more;
      for (auto i = sites_before; i < after->found.size(); ++i)
        more += (more.empty() ? "" : " and ") + site_text(pack_, after->found[i]);
      out += fmt::format("{}: at {} as well", pack_[change.sign].label, more);
    } else {
      out +=
          fmt::format("{} (now {})", change_text(pack_, change),
                      now == nullptr ? "not known" : answer_text(pack_, change.sign, now->answer));
    }
  }
  return out;
}

void ReviewPage::tier_line(std::optional<TierId> tier) {
  auto const tiers = pack_.tiers.size();
  page_.line(fmt::format("  {}  {}", page_.marks(tier ? tiers - index(*tier) : 0, tiers),
                         page_.strong(" " + inert(title_of(pack_, tier)) + " ")));
}

// In one sentence: which of the two ways asks for the tier.
void ReviewPage::tier_reasons(TierExplanation const& why) {
  if (!why.tier) return;
  std::string alarms;
  std::size_t count = 0;
  for (auto const& fired : why.fired) {
    if (pack_[fired.alarm].see != *why.tier) continue;
    alarms += fmt::format("{}\"{}\"", alarms.empty() ? "" : ", ", pack_[fired.alarm].title);
    ++count;
  }
  std::string taken;
  for (auto const i : why.taken) {
    auto const& exposure = reviewed_.result.judgement.exposures[i];
    if (exposure.see == why.tier)
      taken += (taken.empty() ? "" : ", ") + pack_.care[exposure.care].title;
  }
  auto by_alarm =
      count == 0 ? std::string() : fmt::format("the alarm{} {}", count == 1 ? "" : "s", alarms);
  if (!taken.empty())
    by_alarm += fmt::format("{}what it has taken: {}", count == 0 ? "" : ", and ", taken);
  auto const& chance = why.tiers[index(*why.tier)].chance;
  auto const by_ranking =
      chance.threshold ? fmt::format("the ranking: {} where {} is enough",
                                     per_cent(chance.probability), per_cent(*chance.threshold))
                       : std::string("the ranking, which reaches no more urgent one");
  if (why.is_by_alarm && why.is_by_ranking)
    page_.paragraph(fmt::format("By both: {}; and by {}.", by_alarm, by_ranking));
  else if (why.is_by_alarm)
    page_.paragraph(fmt::format("By {}.", by_alarm));
  else if (why.is_by_ranking)
    page_.paragraph(fmt::format("By {}.", by_ranking));
}

void ReviewPage::alarms(TierExplanation const& why) {
  page_.heading("BY ALARMS");
  for (auto const i : why.taken) {
    auto const& exposure = reviewed_.result.judgement.exposures[i];
    auto const& care = pack_.care[exposure.care];
    page_.paragraph(fmt::format("{}: {} ({})", pack_[*exposure.see].title,
                                taken_text(pack_, exposure), care.name),
                    2, bullet());
    page_.paragraph(harm_text(pack_, reviewed_.result, exposure) + ".", 6);
    rationale(care.because, care.cites);
  }
  for (auto const& fired : why.fired) {
    auto const& alarm = pack_[fired.alarm];
    page_.paragraph(fmt::format("{}: {} ({})", pack_[alarm.see].title, alarm.title, alarm.name), 2,
                    bullet());
    page_.paragraph("Answered: " + answers(fired.behind), 6);
    rationale(alarm.because, alarm.cites);
  }
  if (why.fired.empty() && why.taken.empty()) page_.paragraph("No alarm has fired.");
  for (auto const& held : why.held_back) {
    auto const& alarm = pack_[held.alarm];
    page_.paragraph(
        fmt::format("Held back: {} ({}) would ask for \"{}\", but this is known: {}", alarm.title,
                    alarm.name, pack_[alarm.see].title, answers(held.behind)),
        2, bullet());
    rationale(alarm.because, alarm.cites);
  }
  if (why.open_alarms > 0)
    page_.paragraph(fmt::format("{} alarm{} for more may still fire, up to \"{}\".",
                                why.open_alarms, why.open_alarms == 1 ? "" : "s",
                                title_of(pack_, why.ceiling)));
  page_.blank();
}

void ReviewPage::tier_by_ranking(TierReason const& reason) {
  constexpr std::size_t causes_shown = 3;
  bool const counts = !reviewed_.result.judgement.nothing_told;
  bool const is_reached = counts && reason.chance.is_reached;
  page_.line(fmt::format("  {}  chance that it is needed {:>10}, enough from {:>5}{}",
                         fitted(pack_[reason.tier].name, 8), per_cent(reason.chance.probability),
                         per_cent(*reason.chance.threshold), is_reached ? "  reached" : ""));
  if (counts && uncertainty_.is_only_just(reason.tier)) {
    page_.paragraph(fmt::format("{}, but only just: the figures allow {}",
                                is_reached ? "Reached" : "Not reached",
                                chance_range(uncertainty_.tier_chance(reason.tier))),
                    12);
  }
  for (std::size_t i = 0; i < std::min(reason.causes.size(), causes_shown); ++i)
    page_.paragraph(fmt::format("{} {}", per_cent(reason.causes[i].posterior),
                                pack_[reason.causes[i].cause].title),
                    12);
}

void ReviewPage::contradictions() {
  auto const& clashes = reviewed_.result.judgement.contradictions;
  if (clashes.empty()) return;
  page_.heading("ANSWERS THAT CLASH (the more dangerous one was counted)");
  for (auto const& clash : clashes) page_.paragraph(contradiction_text(pack_, clash), 2, bullet());
  page_.blank();
}

void ReviewPage::tier() {
  auto const why = explain_tier(reviewed_.tables, reviewed_.result);
  page_.heading("WHY SO SOON");
  tier_line(why.tier);
  tier_reasons(why);
  page_.blank();
  contradictions();
  alarms(why);
  page_.heading("BY THE RANKING");
  if (reviewed_.result.judgement.nothing_told)
    page_.paragraph("It sets no tier: no sign was told.");
  for (auto const& reason : why.tiers)
    if (reason.chance.threshold) tier_by_ranking(reason);
  page_.blank();
}

void ReviewPage::change_sets(std::string_view heading, std::vector<ChangeSet> const& sets,
                             bool is_first_told) {
  page_.heading(heading);
  if (sets.empty()) page_.paragraph("No change of one or two answers does.");
  for (auto const& set : sets) {
    page_.paragraph(changes_text(set.changes), 2, bullet());
    page_.paragraph(is_first_told ? fmt::format("first: {}, {}", title_of(pack_, set.first),
                                                per_cent(set.first_posterior))
                                  : title_of(pack_, set.tier),
                    4, "-> ");
  }
  page_.blank();
}

void ReviewPage::changes() {
  auto const found = smallest_changes(reviewed_.tables, reviewed_.assessor, reviewed_.patient);
  page_.heading("NOW");
  tier_line(reviewed_.result.judgement.tier);
  page_.blank();
  if (!reviewed_.result.judgement.tier || index(*reviewed_.result.judgement.tier) > 0)
    change_sets("WOULD MAKE IT MORE URGENT", found.higher_tier, false);
  change_sets("WOULD MAKE IT LESS URGENT", found.lower_tier, false);
  if (!reviewed_.result.judgement.nothing_told)
    change_sets("WOULD PUT ANOTHER CAUSE FIRST", found.other_first, true);
  page_.paragraph(
      "The easiest to find out stand first. An answer is never changed to get a result: it is "
      "looked at again when much hangs on it.",
      0);
  page_.blank();
}

void ReviewPage::result_line(std::string_view when, Assessment const& result) {
  page_.paragraph(title_of(pack_, result.judgement.tier), 2, fmt::format("{:<8}", when));
  if (result.judgement.nothing_told) {
    page_.paragraph("Nothing was told to rank causes by.", 10);
    return;
  }
  std::string causes;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, result.ranking.size()); ++i)
    causes += (i == 0 ? "" : "; ") + fmt::format("{} {}", title_of(pack_, result.ranking[i].cause),
                                                 per_cent(result.ranking[i].posterior));
  page_.paragraph(causes, 10);
}

void ReviewPage::what_if_result(WhatIf const& what) {
  page_.heading("THE RESULT");
  result_line("before", what.before);
  result_line("after", what.after);
  auto const& told = what.before.judgement.contradictions;
  for (auto const& clash : what.after.judgement.contradictions)
    if (std::find(told.begin(), told.end(), clash) == told.end())
      page_.paragraph("A new clash, of which the more dangerous answer was counted: " +
                      contradiction_text(pack_, clash));
  page_.blank();
}

void ReviewPage::what_if_shifts(WhatIf const& what) {
  page_.heading("ALARMS THAT CHANGED");
  bool is_any = false;
  for (auto const& shift : what.alarms) {
    if (shift.before != Truth::yes && shift.after != Truth::yes) continue;
    is_any = true;
    page_.paragraph(
        fmt::format("{} ({})", pack_[shift.alarm].title, pack_[pack_[shift.alarm].see].title), 2,
        shift.after == Truth::yes ? "fires      " : "falls away ");
  }
  if (!is_any) page_.paragraph("None fires or falls away.");
  page_.blank();
  page_.heading("RULES THAT CHANGED");
  if (what.rules.empty()) page_.paragraph("None.");
  auto const words = [&](RuleId rule, RuleState state) {
    return state.truth == Truth::unknown ? std::string("not known")
                                         : outcome_text(rule, state.truth, state.band);
  };
  for (auto const& shift : what.rules) {
    page_.paragraph(fmt::format("{}: {}", pack_[shift.rule].name, words(shift.rule, shift.before)),
                    2, bullet());
    page_.paragraph(words(shift.rule, shift.after), 4, "-> ");
  }
  page_.blank();
}

void ReviewPage::what_if(std::vector<Change> const& changes) {
  auto const what = flinch::what_if(reviewed_.assessor, reviewed_.patient, changes);
  page_.heading("WHAT IF");
  for (auto const& change : changes) page_.paragraph(changes_text({&change, 1}), 2, bullet());
  page_.blank();
  what_if_result(what);
  what_if_shifts(what);
}

void ReviewPage::look_closer() {
  page_.heading("LOOK CLOSER");
  for (auto const* line : {"--cause NAME        all that speaks for and against a cause, or none",
                           "--rule NAME         a rule or alarm, part by part",
                           "--tier              the alarms and thresholds",
                           "--between A B       what separates two causes",
                           "--what-if \"s=yes\"   the result with other answers",
                           "--changes           the smallest changes that would matter"})
    page_.line(fmt::format("  {}", line));
  page_.blank();
}

void ReviewPage::overview() {
  constexpr std::size_t causes_shown = 3;
  constexpr std::size_t open_shown = 4;
  tier();
  first_causes(causes_shown);
  auto const& ranking = reviewed_.result.ranking;
  if (!reviewed_.result.judgement.nothing_told && ranking.size() > 1) {
    page_.heading("NOT KNOWN, AND EXPECTED TO SEPARATE THE FIRST TWO MOST");
    contrast_open(contrast(reviewed_.tables, reviewed_.result, ranking[0].cause, ranking[1].cause),
                  open_shown);
    page_.blank();
  }
  look_closer();
}

std::string ReviewPage::take() {
  page_.paragraph(caution, 0);
  return page_.take();
}

std::string review_text(Reviewed const& reviewed, ReviewRequest const& request, Look const& look) {
  ReviewPage page(reviewed, look);
  if (request.is_overview()) page.overview();
  if (request.tier) page.tier();
  if (request.cause) page.cause(request.cause->cause);
  if (request.rule) page.rule(*request.rule);
  if (request.alarm) page.alarm(*request.alarm);
  if (request.between) page.between(request.between->first.cause, request.between->second.cause);
  if (request.what_if) page.what_if(*request.what_if);
  if (request.changes) page.changes();
  return page.take();
}

}  // namespace flinch::cli
