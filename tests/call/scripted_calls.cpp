#include "call/scripted_calls.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "call/call_desk.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using cli::Activity;

constexpr std::size_t keys_at_most = 600;

Answer default_answer(Sign const& sign) {
  switch (sign.kind) {
    case AnswerKind::yes_or_no:
      return false;
    case AnswerKind::sites:
      return Findings{false, true, {}, {}};
    default:
      return Choice{0};
  }
}

class Nurse {
 public:
  Nurse(Tables const& tables, Case truth, std::vector<ScriptedCall::Said> said, Desk desk)
      : tables_(tables),
        pack_(tables.pack()),
        truth_(std::move(truth)),
        said_(std::move(said)),
        desk_(desk),
        call_(tables, {}, cli::Keeping::in_memory, desk_clock) {
    taken_.tier = final_tier();
  }

  Taken take() {
    look();
    if (desk_ == Desk::search)
      for (auto const& said : said_) search(said);
    while (!taken_.to_safe && call_.state().outlook.screen && effort_.keys < keys_at_most)
      answer_screen();
    return taken_;
  }

 private:
  // Of the truth about everything that a caller can see.
  [[nodiscard]] TierId final_tier() const {
    Case all = truth_;
    for (std::uint32_t i = patient_sign::count; i < pack_.signs.size(); ++i) {
      auto const& sign = pack_.signs[i];
      if (known(SignId{i}) || sign.kind == AnswerKind::number || sign.kind == AnswerKind::breed ||
          !can_see(Reader::nurse, sign.seen_by))
        continue;
      all.answers.emplace_back(SignId{i}, default_answer(sign));
    }
    std::sort(all.answers.begin(), all.answers.end(),
              [](auto const& a, auto const& b) { return a.first < b.first; });
    auto const result = Assessor(tables_).assess(all);
    if (!result.judgement.tier) throw std::runtime_error("no tier: " + truth_.name);
    return *result.judgement.tier;
  }
  [[nodiscard]] std::optional<Answer> known(SignId sign) const {
    for (auto const& [id, answer] : truth_.answers)
      if (id == sign) return answer;
    return std::nullopt;
  }

  // A part that is there makes its whole a yes.
  [[nodiscard]] bool is_yes(SignId sign) const {
    if (auto const answer = known(sign)) return says_yes(*answer);
    auto const parts = tables_.parts_of(sign);
    return std::any_of(parts.begin(), parts.end(), [&](auto part) { return is_yes(SignId{part}); });
  }

  void press(std::string_view keys) {
    test::press(call_, keys);
    effort_.keys += keys.size();
  }
  // After an answer: a place that is asked for is left open, and the urgency is read.
  void look() {
    if (call_.state().activity == Activity::typing) press("\n");
    auto const& tier = call_.state().result.judgement.tier;
    if (tier != taken_.tier) return;
    if (!taken_.to_tier) taken_.to_tier = effort_;
    bool const is_safe = index(*tier) == 0 || call_.urgency() != cli::Urgency::one_answer_away;
    if (is_safe && !taken_.to_safe) taken_.to_safe = effort_;
  }

  void search(ScriptedCall::Said const& said) {
    auto const wanted = *pack_.find_sign(said.sign);
    ++effort_.screens;
    for (char const letter : said.words) {
      press(std::string_view(&letter, 1));
      auto const& found = call_.state().found;
      if (call_.state().typed.size() < 2) continue;  // a letter begins anything
      auto const at = std::find_if(found.begin(), found.end(),
                                   [&](FoundSign const& one) { return one.sign == wanted; });
      // The eye finds it once it is among the first three.
      if (at >= found.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(3, found.size())))
        continue;
      press(std::to_string(at - found.begin() + 1));
      if (call_.state().activity == Activity::choosing) choose(wanted);
      return look();
    }
    throw std::runtime_error("not found: " + said.words);
  }

  void choose(SignId sign) {
    auto const answer = known(sign);
    auto const* choice = answer ? std::get_if<Choice>(&*answer) : nullptr;
    press(std::to_string((choice == nullptr ? 0 : choice->index) + 1));
  }

  void answer_screen() {
    ++effort_.screens;
    auto const questions = call_.state().outlook.screen->questions;
    auto const kind = pack_[questions[0].sign].kind;
    if (kind == AnswerKind::steps || kind == AnswerKind::one_of)
      choose(questions[0].sign);
    else if (kind == AnswerKind::number || kind == AnswerKind::breed)
      press("?");
    else if (desk_ == Desk::one_by_one)
      press(is_yes(*call_.focus()) ? "y\n" : "n\n");
    else
      answer_list(questions);
    look();
  }
  void answer_list(std::vector<Question> const& questions) {
    auto const yes = std::find_if(questions.begin(), questions.end(), [&](Question const& q) {
      return is_yes(q.sign) && !call_.is_settled(q.sign);
    });
    if (yes != questions.end()) return press(std::to_string(yes - questions.begin() + 1));
    press("0");
    if (call_.state().is_trouble) press("0");  // a new list has been read out
  }

  Tables const& tables_;
  Pack const& pack_;
  Case truth_;
  std::vector<ScriptedCall::Said> said_;
  Desk desk_;
  cli::CallModel call_;
  Effort effort_;
  Taken taken_;
};

std::string cell(std::optional<Effort> const& effort) {
  return effort ? fmt::format("{} / {}", effort->keys, effort->screens) : "never";
}

}  // namespace

std::vector<ScriptedCall> const& scripted_calls() {
  static std::vector<ScriptedCall> const calls = {
      {"Bracken, swollen and retching",
       {{"bloated", "belly_swollen"}, {"trying to be sick", "retching_dry"}},
       "belly_swollen: yes, retching_dry: yes, restless: yes, drools: yes"},
      {"Tansy, hit by a car and up again",
       {{"hit by a car", "road_accident"}},
       "trauma: yes, road_accident: yes, lame: yes"},
      {"Moss, collapsed on the lawn",
       {{"collapsed", "collapsed"}},
       "collapsed: yes, trembling: yes"},
      {"Fern, cannot pass water",
       {{"straining to wee", "no_urine"}},
       "no_urine: yes, restless: yes"},
      {"Pip, back legs gone",
       {{"back legs not working", "cannot_walk"}},
       "cannot_walk: yes, hunched_back: yes, cries_out: yes"},
      {"Juniper, one eye shut", {{"squinting", "squinting"}}, "squinting: yes"},
      {"Clover, ate chocolate",
       {{"ate chocolate", "ate_poison"}},
       "ate_poison: yes, restless: yes"},
      {"Heath, on three legs since the park",
       {{"three legs", "carries_leg"}},
       "carries_leg: yes, cries_out: yes"},
      {"Sorrel, stiff in the mornings",
       {{"stiff in the morning", "stiff_after_rest"}, {"won't jump", "reluctant_to_jump"}},
       "stiff_after_rest: yes, reluctant_to_jump: yes, slow_to_rise: yes"},
      {"Teasel, shakes her head", {{"head shaking", "shakes_head"}}, "shakes_head: yes"},
  };
  return calls;
}

Taken take_call(Tables const& tables, ScriptedCall const& script, Desk desk) {
  return Nurse(tables, case_of(tables.pack(), "answers: {" + script.answers + "}\n"), script.said,
               desk)
      .take();
}

Taken take_call(Tables const& tables, Case const& patient) {
  auto const& pack = tables.pack();
  std::vector<ScriptedCall::Said> said;
  for (auto const sign : patient.came_for) said.push_back({pack[sign].label, pack[sign].name});
  return Nurse(tables, patient, std::move(said), Desk::search).take();
}

std::string effort_table(Tables const& tables) {
  std::string out =
      "| call | urgency | shown after | safe: one by one | safe: lists | safe: search, then lists "
      "|\n"
      "|---|---|---|---|---|---|\n";
  std::vector<std::vector<std::size_t>> keys(4);
  for (auto const& script : scripted_calls()) {
    auto const search = take_call(tables, script, Desk::search);
    std::vector<std::optional<Effort>> const row = {
        search.to_tier, take_call(tables, script, Desk::one_by_one).to_safe,
        take_call(tables, script, Desk::lists).to_safe, search.to_safe};
    out += fmt::format("| {} | {} |", script.title, tables.pack()[search.tier].title);
    for (std::size_t i = 0; i < row.size(); ++i) {
      out += fmt::format(" {} |", cell(row[i]));
      keys[i].push_back(row[i].value_or(Effort{keys_at_most, 0}).keys);
    }
    out += '\n';
  }
  out += "| median of the keys | |";
  for (auto& column : keys) {
    std::sort(column.begin(), column.end());
    out += fmt::format(" {} |", (column[4] + column[5]) / 2);
  }
  return out + '\n';
}

}  // namespace flinch::test
