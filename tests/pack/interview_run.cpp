#include "pack/interview_run.hpp"

#include <algorithm>

namespace flinch::test {
namespace {

class Run {
 public:
  Run(Tables const& tables, Assessment const& whole, Silence silence)
      : tables_(tables),
        pack_(tables.pack()),
        whole_(whole),
        silence_(silence),
        assessor_(tables),
        result_(assessor_.assess(patient_)) {}

  [[nodiscard]] Assessment const& result() const { return result_; }

  [[nodiscard]] std::vector<SignId> const& places_untold() const { return places_untold_; }

  void answer(std::vector<SignId> const& signs) {
    out_.shown.push_back(signs);
    take_down(signs);
    result_ = assessor_.assess(patient_);
    ++out_.screens;
    out_.questions += signs.size();
    auto const facts = std::count_if(signs.begin(), signs.end(), [&](SignId sign) {
      return pack_[sign].of_the_patient && sign != patient_sign::neutered;
    });
    single_facts_ += facts > 1 ? static_cast<std::size_t>(facts) - 1 : 0;
    take_tier();
  }

  [[nodiscard]] std::optional<TierId> tier() const { return out_.tier; }
  [[nodiscard]] std::size_t screens() const { return out_.screens; }
  [[nodiscard]] bool can_tell(SignId sign) const { return answer_to(sign).has_value(); }

  // What could still come of the next answer.
  void look_at(Outlook const& outlook) {
    if (outlook.one_answer_reaches == TierId{0}) out_.screens_to_no_life_threat = out_.screens + 1;
  }

  void tell(std::span<SignId const> came_for) {
    patient_.came_for.assign(came_for.begin(), came_for.end());
    for (auto const sign : came_for) patient_.answers.emplace_back(sign, whole_.find(sign)->answer);
    result_ = assessor_.assess(patient_);
    out_.screens = 1;
    take_tier();
    if (!came_for.empty()) ++out_.screens;
  }

  // Where, of what was found somewhere: the whole file holds it or nobody can tell.
  void answer_place(SignId sign) {
    places_untold_.push_back(sign);
    ++out_.screens;
    ++out_.questions;
  }

  // Whether so many of the screens could end at the tier.
  [[nodiscard]] bool can_end(std::optional<TierId> tier, std::size_t many,
                             std::span<std::vector<SignId> const> shown) {
    if (many == 0) return as_told(tables_, assessor_.assess(patient_)).judgement.tier == tier;
    auto const before = patient_;
    for (; shown.size() >= many; shown = shown.subspan(1)) {
      take_down(shown.front());
      bool const is_enough = can_end(tier, many - 1, shown.subspan(1));
      patient_ = before;
      if (is_enough) return true;
    }
    return false;
  }

  InterviewRun take() {
    out_.first = first_cause(result_);
    return out_;
  }

 private:
  [[nodiscard]] std::optional<Answer> answer_to(SignId sign) const {
    if (auto const* known = whole_.find(sign)) return known->answer;
    if (silence_ == Silence::cannot_tell || pack_[sign].of_the_patient) return std::nullopt;
    if (pack_[sign].kind == AnswerKind::yes_or_no) return Answer(false);
    if (pack_[sign].kind == AnswerKind::sites) return Answer(Findings{false, true, {}, {}});
    return std::nullopt;
  }

  void take_down(std::vector<SignId> const& signs) {
    for (auto const sign : signs) {
      if (auto answer = answer_to(sign))
        patient_.answers.emplace_back(sign, std::move(*answer));
      else
        patient_.cannot_tell.push_back(sign);
    }
  }

  void take_tier() {
    auto const tier = as_told(tables_, result_).judgement.tier;
    if (tier == out_.tier) return;
    out_.ends_by_fall = out_.tier && (!tier || *out_.tier < *tier);
    out_.tier = tier;
    out_.screens_to_tier = out_.screens;
    out_.questions_to_tier = out_.questions;
    out_.single_facts_to_tier = out_.screens + single_facts_;
  }

  Tables const& tables_;
  Pack const& pack_;
  Assessment const& whole_;
  Silence silence_;
  Assessor assessor_;
  Case patient_;
  Assessment result_;
  std::vector<SignId> places_untold_;
  InterviewRun out_;
  std::size_t single_facts_ = 0;  // screens more, had each fact one of its own
};

}  // namespace

std::optional<CauseId> first_cause(Assessment const& result) {
  for (auto const& ranked : result.ranking)
    if (ranked.cause) return ranked.cause;
  return std::nullopt;
}

InterviewRun run_interview(Tables const& tables, Interview& interview, Assessment const& whole,
                           std::span<SignId const> came_for, Silence silence) {
  Run run(tables, whole, silence);
  run.tell(came_for);
  for (;;) {
    auto const outlook = interview.next(run.result(), run.places_untold(), came_for);
    run.look_at(outlook);
    if (outlook.is_enough) return run.take();
    if (outlook.screen->kind == Screen::Kind::place) {
      run.answer_place(outlook.screen->questions.front().sign);
      continue;
    }
    std::vector<SignId> signs;
    for (auto const& question : outlook.screen->questions) signs.push_back(question.sign);
    run.answer(signs);
  }
}

std::size_t fewest_screens(Tables const& tables, InterviewRun const& run, Assessment const& whole,
                           std::span<SignId const> came_for, Silence silence) {
  constexpr std::size_t tried_at_most = 3;
  Run start(tables, whole, silence);
  start.tell(came_for);
  if (start.tier() == run.tier) return 1;
  std::vector<std::vector<SignId>> telling;
  for (auto const& signs : run.shown)
    if (std::any_of(signs.begin(), signs.end(), [&](SignId sign) { return start.can_tell(sign); }))
      telling.push_back(signs);
  std::size_t many = 1;
  while (many <= tried_at_most && !start.can_end(run.tier, many, telling)) ++many;
  return start.screens() + many;
}

InterviewRun run_in_order(Tables const& tables, std::vector<SignId> const& order,
                          Assessment const& whole) {
  Run run(tables, whole, Silence::cannot_tell);
  for (auto const sign : order)
    if (run.result().find(sign) == nullptr) run.answer({sign});
  return run.take();
}

}  // namespace flinch::test
