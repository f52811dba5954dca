#include "review_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "flinch/text/display.hpp"
#include "review_page.hpp"

namespace flinch::cli {
namespace {

std::string tier_words(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].title : "Too few answers to say";
}

std::string cause_words(Pack const& pack, std::optional<CauseId> cause) {
  return cause ? pack[*cause].title : "None of the listed causes";
}

}  // namespace

char const* const caution_text =
    "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and local "
    "rules decide. Give no human painkillers. If the dog gets worse, ring again at once.";

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
    out += (out.empty() ? "" : ", ") + pack_[signs[i]].label;
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
    bool const is_one_site_more = before != nullptr && after != nullptr && !before->found.empty() &&
                                  after->found.size() == before->found.size() + 1;
    if (is_one_site_more)
      out += fmt::format("{}: at {} as well", pack_[change.sign].label,
                         site_text(pack_, after->found.back()));
    else
      out +=
          fmt::format("{} (now {})", change_text(pack_, change),
                      now == nullptr ? "not known" : answer_text(pack_, change.sign, now->answer));
  }
  return out;
}

void ReviewPage::tier_line(std::optional<TierId> tier) {
  auto const tiers = pack_.tiers.size();
  page_.line(fmt::format("  {}  {}", page_.marks(tier ? tiers - index(*tier) : 0, tiers),
                         page_.strong(" " + inert(tier_words(pack_, tier)) + " ")));
}

void ReviewPage::tier() {
  constexpr std::size_t causes_shown = 3;
  auto const why = explain_tier(reviewed_.tables, reviewed_.result);
  page_.heading("WHY SO SOON");
  tier_line(why.tier);
  page_.blank();
  page_.heading("BY ALARMS");
  for (auto const& fired : why.fired) {
    auto const& alarm = pack_[fired.alarm];
    page_.paragraph(fmt::format("{}: {} ({})", pack_[alarm.see].title, alarm.title, alarm.name), 2,
                    bullet());
    page_.paragraph("Answered: " + answers(fired.behind), 6);
    rationale(alarm.because, alarm.cites);
  }
  for (auto const i : why.taken) {
    auto const& exposure = reviewed_.result.exposures[i];
    auto const& care = pack_.care[exposure.care];
    page_.paragraph(fmt::format("{}: {} ({})", pack_[*exposure.see].title,
                                taken_text(pack_, exposure), care.name),
                    2, bullet());
    page_.paragraph(harm_text(pack_, reviewed_.result, exposure) + ".", 6);
    rationale(care.because, care.cites);
  }
  if (why.fired.empty() && why.taken.empty()) page_.paragraph("No alarm has fired.");
  if (why.open_alarms > 0)
    page_.paragraph(fmt::format("{} that ask for more may still fire, up to \"{}\".",
                                why.open_alarms, tier_words(pack_, why.ceiling)));
  page_.blank();
  page_.heading("BY THE RANKING");
  if (reviewed_.result.too_few_answers)
    page_.paragraph(fmt::format("Too few answers: {} that count, {} needed.",
                                reviewed_.result.counted_answers, pack_.needs_answers));
  for (auto const& reason : why.tiers) {
    if (!reason.chance.threshold) continue;
    page_.line(fmt::format(
        "  {}  chance of a cause that needs it {:5.1f}%, enough from {:4.1f}%{}",
        fitted(pack_[reason.tier].name, 8), 100 * reason.chance.probability,
        100 * *reason.chance.threshold,
        reason.chance.is_reached && !reviewed_.result.too_few_answers ? "  reached" : ""));
    for (std::size_t i = 0; i < std::min(reason.causes.size(), causes_shown); ++i)
      page_.paragraph(fmt::format("{:.1f}% {}", 100 * reason.causes[i].posterior,
                                  pack_[reason.causes[i].cause].title),
                      12);
  }
  page_.blank();
}

void ReviewPage::change_sets(std::string_view heading, std::vector<ChangeSet> const& sets,
                             bool is_first_told) {
  page_.heading(heading);
  if (sets.empty()) page_.paragraph("No change of one or two answers does.");
  for (auto const& set : sets) {
    page_.paragraph(changes_text(set.changes), 2, bullet());
    page_.paragraph(is_first_told ? fmt::format("first: {}, {:.1f}%", cause_words(pack_, set.first),
                                                100 * set.first_posterior)
                                  : tier_words(pack_, set.tier),
                    4, "-> ");
  }
  page_.blank();
}

void ReviewPage::changes() {
  auto const found = smallest_changes(reviewed_.tables, reviewed_.assessor, reviewed_.dog);
  page_.heading("NOW");
  tier_line(reviewed_.result.tier);
  page_.blank();
  if (!reviewed_.result.tier || index(*reviewed_.result.tier) > 0)
    change_sets("WOULD MAKE IT MORE URGENT", found.higher_tier, false);
  change_sets("WOULD MAKE IT LESS URGENT", found.lower_tier, false);
  if (!reviewed_.result.too_few_answers)
    change_sets("WOULD PUT ANOTHER CAUSE FIRST", found.other_first, true);
  page_.paragraph(
      "The easiest to find out stand first. An answer is never changed to get a result: it is "
      "looked at again when much hangs on it.",
      0);
  page_.blank();
}

void ReviewPage::result_line(std::string_view when, Assessment const& result) {
  page_.paragraph(tier_words(pack_, result.tier), 2, fmt::format("{:<8}", when));
  if (result.too_few_answers) return;
  std::string causes;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, result.ranking.size()); ++i)
    causes += (i == 0 ? "" : "; ") + fmt::format("{} {:.1f}%",
                                                 cause_words(pack_, result.ranking[i].cause),
                                                 100 * result.ranking[i].posterior);
  page_.paragraph(causes, 10);
}

void ReviewPage::what_if(std::vector<Change> const& changes) {
  auto const what = flinch::what_if(reviewed_.assessor, reviewed_.dog, changes);
  page_.heading("WHAT IF");
  for (auto const& change : changes) page_.paragraph(changes_text({&change, 1}), 2, bullet());
  page_.blank();
  page_.heading("THE RESULT");
  result_line("before", what.before);
  result_line("after", what.after);
  if (what.after.contradictions.size() > what.before.contradictions.size())
    page_.paragraph("These answers contradict others; the more dangerous one was counted.");
  page_.blank();
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

void ReviewPage::look_closer() {
  page_.heading("LOOK CLOSER");
  for (auto const* line : {"--cause NAME        all that speaks for and against a cause",
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
  if (!reviewed_.result.too_few_answers && ranking.size() > 2 && ranking[0].cause &&
      ranking[1].cause) {
    page_.heading("NOT KNOWN, AND WOULD SEPARATE THE FIRST TWO MOST");
    contrast_open(
        contrast(reviewed_.tables, reviewed_.result, *ranking[0].cause, *ranking[1].cause),
        open_shown);
    page_.blank();
  }
  look_closer();
}

std::string ReviewPage::take() {
  page_.paragraph(caution_text, 0);
  return page_.take();
}

std::string review_text(Reviewed const& reviewed, ReviewRequest const& request, Look const& look) {
  ReviewPage page(reviewed, look);
  if (request.is_overview()) page.overview();
  if (request.tier) page.tier();
  if (request.cause) page.cause(*request.cause);
  if (request.rule) page.rule(*request.rule);
  if (request.alarm) page.alarm(*request.alarm);
  if (request.between) page.between(request.between->first, request.between->second);
  if (request.what_if) page.what_if(*request.what_if);
  if (request.changes) page.changes();
  return page.take();
}

}  // namespace flinch::cli
