#include "ask/standing_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ask/question_text.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "look/urgency_text.hpp"

namespace flinch::cli {
namespace {

// How much is left, in what is seen of it: lists while dangers are open, and no number that would
// frighten. Each can still grow, by a yes or by what could not be told.
std::string left_text(Pack const& pack, Outlook const& outlook, Outlook const& with_skipped,
                      bool is_top) {
  constexpr std::size_t lists_at_most = 12;
  constexpr std::size_t questions_at_most = 20;
  auto const about = [](std::size_t count, std::string_view what) {
    return fmt::format("about {} {}{}", count, what, count == 1 ? "" : "s");
  };
  if (outlook.danger_left > 0)
    return outlook.danger_screens > lists_at_most
               ? std::string(
                     "Dangers are still to be asked for, in short lists; q stops at any time.")
               : fmt::format("Dangers still to be asked for: {}.",
                             about(std::max<std::size_t>(1, outlook.danger_screens), "short list"));
  auto const rest = outlook.telling_left + outlook.place_left;
  auto const left = with_skipped.danger_left > 0 ? "No danger is left but those you skipped"
                                                 : "No danger is left to ask for";
  if (is_top && rest > 0) return "Nothing can make it more urgent; the rest tells the vet more.";
  if (rest == 0)
    return outlook.patient_left > 0 ? fmt::format("Only facts of the {} are left.", pack.words.one)
                                    : "No question left is worth asking.";
  return rest > questions_at_most
             ? fmt::format("{}; the rest only tells causes apart.", left)
             : fmt::format("{}; {} would tell causes apart.", left, about(rest, "question"));
}

bool is_top(Assessment const& result) { return result.judgement.tier == TierId{0}; }

std::string so_far_text(Pack const& pack, Assessment const& result, Outlook const& with_skipped) {
  return fmt::format("So far: {}{}.", may_rise(result, with_skipped) ? "at least " : "",
                     result.judgement.tier ? pack[*result.judgement.tier].title
                                           : "nothing told that says how soon");
}

// The urgency, and how far it is from what it could become.
std::string urgency_so_far(Pack const& pack, Assessment const& result, Outlook const& outlook,
                           Outlook const& with_skipped) {
  auto text = so_far_text(pack, result, with_skipped);
  auto const& one = outlook.one_answer_reaches;
  auto const& several = outlook.several_answers_reach;
  if (one) text += fmt::format(" One answer could make it: {}.", pack[*one].title);
  if (several && (!one || *several < *one))
    text += fmt::format(" {} together could make it: {}.", one ? "Several" : "Only several answers",
                        pack[*several].title);
  return text;
}

std::string_view before_tier(Assessment const& result, Outlook const& with_skipped) {
  return may_rise(result, with_skipped) ? "At least:" : "";
}

}  // namespace

bool may_rise(Assessment const& result, Outlook const& with_skipped) {
  return result.judgement.tier && !is_top(result) && with_skipped.danger_left > 0;
}

std::string standing_text(Pack const& pack, Assessment const& result, Outlook const& outlook,
                          Outlook const& with_skipped, Look const& look) {
  Page page(look);
  // Lists of the opening fill a screen.
  if (outlook.is_opening)
    page.paragraph(so_far_text(pack, result, with_skipped), 0, "-- ");
  else
    page.paragraph(left_text(pack, outlook, with_skipped, is_top(result)) + " " +
                       urgency_so_far(pack, result, outlook, with_skipped),
                   0, "-- ");
  return page.take();
}

std::string tier_text(Tables const& tables, Assessment const& result, Outlook const& with_skipped,
                      Reader reader, Setting const& setting, Look const& look) {
  auto const told = tell(tables, result, reader, setting);
  Page page(look);
  write_tier(tables.pack(), told.urgency, before_tier(result, with_skipped), page);
  if (may_rise(result, with_skipped))
    page.paragraph("Dangers have not all been asked for yet: go on, it may be more urgent.");
  // Until the dangers are asked for, base rates alone would be named.
  write_reasons(
      told.urgency, is_top(result) ? Wording::in_brief : Wording::in_full,
      may_rise(result, with_skipped) || with_skipped.is_opening ? Causes::left_out : Causes::named,
      page);
  write_script(told, page);
  if (auto const first = ask_us_first_words(told); !first.empty())
    page.paragraph(first, 2, page.bullet());
  page.paragraph(std::string(short_caution_text));
  return page.take();
}

std::string alarms_text(Tables const& tables, Assessment const& result,
                        std::vector<AlarmId> const& fired, Script const& told_before, Reader reader,
                        Look const& look) {
  auto const& pack = tables.pack();
  Page page(look);
  for (auto const id : fired)
    page.paragraph(fmt::format("{}. {}", pack[id].title, pack[id].because), 2, page.bullet());
  auto const told = tell(tables, result, reader);
  if (told.script != told_before) write_script(told, page);
  return page.take();
}

std::string fall_text(Pack const& pack, ToldTier const& before, Assessment const& result,
                      Outlook const& with_skipped, Look const& look) {
  Page page(look);
  auto const now = result.judgement.tier ? pack[*result.judgement.tier].title
                                         : "nothing told that says how soon";
  auto const& title = pack[before.tier].title;
  auto const by =
      before.lowered_by.empty() ? std::string() : " Because: " + before.lowered_by + ".";
  page.paragraph(may_rise(result, with_skipped) || !result.judgement.tier
                     ? fmt::format("Not settled any more, it was \"{}\".{} For now: {}{}; dangers "
                                   "have not all been asked for.",
                                   title, by, result.judgement.tier ? "at least " : "", now)
                     : fmt::format("It is less urgent than it looked, it was \"{}\".{} Now: {}.",
                                   title, by, now));
  return page.take();
}

std::vector<OpenQuestion> open_to(Tables const& tables, Assessment const& result, Reader reader) {
  auto open = open_questions(tables, result);
  std::erase_if(open, [&](OpenQuestion const& one) {
    auto const* known = result.find(one.sign);
    return !can_see(reader, tables.pack()[one.sign].seen_by) ||
           (known != nullptr && says_no(known->answer));
  });
  return open;
}

std::string untold_text(Pack const& pack, std::vector<OpenQuestion> const& open) {
  constexpr std::size_t named = 3;
  std::string labels;
  for (std::size_t i = 0; i < std::min(named, open.size()); ++i)
    labels += (i == 0 ? "" : "; ") + pack[open[i].sign].label;
  if (open.size() > named) labels += fmt::format("; and {} more", open.size() - named);
  return fmt::format("Look out for what could not be told ({}): it could make it \"{}\".", labels,
                     pack[open.front().could_reach].title);
}

std::string last_word_text(Tables const& tables, Assessment const& result,
                           Outlook const& with_skipped, Reader reader, Setting const& setting,
                           Look const& look) {
  auto const& pack = tables.pack();
  auto const told = tell(tables, result, reader, setting);
  Page page(look);
  if (result.judgement.tier)
    write_tier(pack, told.urgency, before_tier(result, with_skipped), page);
  else
    page.paragraph("Nothing was told that says how soon.");
  auto const open = open_to(tables, result, reader);
  if (open.empty()) return page.take();
  page.paragraph(with_skipped.danger_left > 0
                     ? fmt::format("Dangers have not all been asked for: it could be \"{}\".",
                                   pack[open.front().could_reach].title)
                     : untold_text(pack, open));
  return page.take();
}

}  // namespace flinch::cli
