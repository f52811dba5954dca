// A rule or an alarm in a review: its condition part by part, and what would make it fire.
#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/reasons.hpp"
#include "review/review_page.hpp"

namespace flinch::cli {

void ReviewPage::tree(ConditionNode const& node, std::size_t indent) {
  auto const& condition = *node.condition;
  auto text = node_text(pack_, condition);
  if (condition.kind == Condition::Kind::test) {
    auto const sign = condition.test.sign;
    text = fmt::format("{}  [{}]", text, said_text(pack_, reviewed_.result, sign));
  }
  page_.paragraph(text, indent, fmt::format("{:<7}  ", truth_text(node.truth)));
  for (auto const& part : node.parts) tree(part, indent + 2);
}

void ReviewPage::ways(std::vector<WayToFire> const& ways, std::vector<SignId> const& other_facts) {
  page_.heading("WHAT WOULD MAKE IT FIRE");
  if (!other_facts.empty())
    page_.paragraph(
        fmt::format("Only another {} would: by its {}.", pack_.words.one, labels(other_facts)));
  else if (ways.empty())
    page_.paragraph("No answers were found that would, without contradicting what was said.");
  for (auto const& way : ways) page_.paragraph(changes_text(way.changes), 2, bullet());
  page_.blank();
}

void ReviewPage::bands(RuleExplanation const& why) {
  auto const& rule = pack_[why.rule];
  page_.paragraph(known_text(pack_, reviewed_.result, rule.over), 2, "over  ");
  for (std::size_t i = 0; i < why.bands.size(); ++i)
    page_.paragraph(rule.bands[i].text, 2, fmt::format("{:<7}  ", truth_text(why.bands[i])));
  page_.blank();
}

void ReviewPage::rule(RuleId id) {
  auto const why = explain_rule(reviewed_.tables, reviewed_.assessor, reviewed_.patient, id);
  auto const& rule = pack_[id];
  page_.heading(fmt::format("RULE: {} ({})", rule.title, rule.name));
  auto const counted = reviewed_.result.contributions_of(id);
  if (why.truth == Truth::unknown && !counted.empty())
    page_.paragraph("Nobody mentioned it, which counts a little; for alarms it is unknown.");
  else if (why.truth == Truth::unknown)
    page_.paragraph("Not known, so it counts for nothing.");
  else
    page_.paragraph(fmt::format("Counts as \"{}\".",
                                outcome_text(id, why.truth, reviewed_.result.find(id)->band)));
  rationale(rule.because, rule.cites);
  page_.blank();
  page_.heading("CONDITION");
  if (why.condition) {
    tree(*why.condition, 2);
    page_.blank();
    if (why.truth != Truth::yes) ways(why.ways, why.other_facts);
  } else {
    bands(why);
  }
  page_.heading("WHAT IT COUNTED");
  for (auto const& c : counted)
    weighed(c.counted(), pack_[c.cause].title +
                             (c.share < 1 ? fmt::format(" ({:.3g}% of {:+.1f} dB, by overlap)",
                                                        100 * c.share, decibans(c.weight))
                                          : ""));
  if (counted.empty()) page_.paragraph("Nothing.");
  page_.blank();
}

void ReviewPage::alarm(AlarmId id) {
  auto const why = explain_alarm(reviewed_.tables, reviewed_.assessor, reviewed_.patient, id);
  auto const& alarm = pack_[id];
  page_.heading(fmt::format("ALARM: {} ({})", alarm.title, alarm.name));
  page_.paragraph(fmt::format("{} It asks for: {}.",
                              why.truth == Truth::yes ? "Has fired."
                              : why.is_held_back ? "Would fire, but is held back by what is known."
                              : why.truth == Truth::no ? "Cannot fire on what was said."
                                                       : "May still fire: not all is known.",
                              pack_[alarm.see].title));
  if (alarm.floor_of)
    page_.paragraph(
        fmt::format("A floor: how soon {} with this and nothing else is seen at the "
                    "latest.",
                    with_article(pack_.words.one)));
  rationale(alarm.because, alarm.cites);
  page_.blank();
  page_.heading("CONDITION");
  tree(why.condition, 2);
  page_.blank();
  if (why.truth != Truth::yes) ways(why.ways, why.other_facts);
}

}  // namespace flinch::cli
