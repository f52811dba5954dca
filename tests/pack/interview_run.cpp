#include "pack/interview_run.hpp"

namespace flinch::test {
namespace {

class Run {
 public:
  Run(Tables const& tables, Assessment const& whole)
      : assessor_(tables), answer_of_(answers_of(whole)), result_(assessor_.assess(dog_)) {}

  [[nodiscard]] Assessment const& result() const { return result_; }

  void answer(std::vector<SignId> const& signs) {
    for (auto const sign : signs) {
      if (auto const* answer = answer_of_(sign))
        dog_.answers.emplace_back(sign, *answer);
      else
        dog_.cannot_tell.push_back(sign);
    }
    result_ = assessor_.assess(dog_);
    ++out_.screens;
    out_.questions += signs.size();
    if (result_.tier == out_.tier) return;
    out_.tier = result_.tier;
    out_.screens_to_tier = out_.screens;
    out_.questions_to_tier = out_.questions;
  }

  InterviewRun take() {
    out_.first = first_cause(result_);
    return out_;
  }

 private:
  Assessor assessor_;
  Case dog_;
  Answers answer_of_;
  Assessment result_;
  InterviewRun out_;
};

}  // namespace

Answers answers_of(Assessment const& whole) {
  return [&whole](SignId sign) -> Answer const* {
    auto const* known = whole.find(sign);
    return known == nullptr ? nullptr : &known->answer;
  };
}

std::optional<CauseId> first_cause(Assessment const& result) {
  for (auto const& ranked : result.ranking)
    if (ranked.cause) return ranked.cause;
  return std::nullopt;
}

InterviewRun run_interview(Tables const& tables, Interview& interview, Assessment const& whole) {
  Run run(tables, whole);
  for (;;) {
    auto const outlook = interview.next(run.result());
    if (outlook.is_enough) return run.take();
    std::vector<SignId> signs;
    for (auto const& question : outlook.screen->questions) signs.push_back(question.sign);
    run.answer(signs);
  }
}

InterviewRun run_in_order(Tables const& tables, std::vector<SignId> const& order,
                          Assessment const& whole) {
  Run run(tables, whole);
  for (auto const sign : order)
    if (run.result().find(sign) == nullptr) run.answer({sign});
  return run.take();
}

}  // namespace flinch::test
