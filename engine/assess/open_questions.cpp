#include "flinch/assess/open_questions.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "flinch/assess/evaluator.hpp"

namespace flinch {
namespace {

class Questions {
 public:
  Questions(Tables const& tables, Assessment const& result)
      : tables_(tables),
        pack_(tables.pack()),
        knowledge_(result.knowledge),
        evaluator_(tables, result.knowledge) {}

  // What an alarm that is still unknown hangs on; what its `unless` asks for can only calm.
  void add(AlarmId alarm) {
    for (auto const& step : tables_.trigger_steps(alarm)) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const sign = tables_.leaves()[step.detail].sign;
      auto const* known = knowledge_.find(sign);
      // Findings may know one site and not another.
      if (known != nullptr && !std::holds_alternative<Findings>(known->answer)) continue;
      bool const is_decisive = decides(alarm, sign, Truth::yes) || decides(alarm, sign, Truth::no);
      auto& question = hang_on(sign, pack_[alarm].see, is_decisive);
      if (question.alarms.empty() || question.alarms.back() != alarm)
        question.alarms.push_back(alarm);
    }
  }

  void add(OpenExposure const& open) {
    auto& question = hang_on(open.sign, open.could_reach, open.is_decisive);
    if (question.taken.empty() || question.taken.back() != open.care)
      question.taken.push_back(open.care);
  }

  std::vector<OpenQuestion> take() {
    std::vector<OpenQuestion> out;
    for (auto& [sign, question] : questions_) {
      question.could_not_tell = knowledge_.could_not_be_told(sign);
      out.push_back(std::move(question));
    }
    auto const rank = [&](OpenQuestion const& q) {
      auto const alone = q.alone_reaches ? index(*q.alone_reaches) : pack_.tiers.size();
      return std::tuple(q.could_reach, q.could_not_tell, alone, q.itself_reaches != q.alone_reaches,
                        pack_[q.sign].seen_by,
                        -static_cast<std::int64_t>(q.alarms.size() + q.taken.size()));
    };
    std::stable_sort(out.begin(), out.end(), [&](OpenQuestion const& a, OpenQuestion const& b) {
      return rank(a) < rank(b);
    });
    return out;
  }

 private:
  OpenQuestion& hang_on(SignId sign, TierId see, bool is_decisive) {
    auto const asked = to_ask(sign);
    auto const [at, is_new] = questions_.try_emplace(asked);
    auto& question = at->second;
    question.could_reach = is_new ? see : std::min(question.could_reach, see);
    question.sign = asked;
    if (is_decisive) question.alone_reaches = std::min(question.alone_reaches.value_or(see), see);
    if (is_decisive && asked == sign)
      question.itself_reaches = std::min(question.itself_reaches.value_or(see), see);
    return question;
  }

  // The topmost unknown whole that the sign is a part of, or the sign itself: a no to the whole
  // settles all its parts at once.
  [[nodiscard]] SignId to_ask(SignId sign) const {
    auto asked = sign;
    for (auto whole = pack_[sign].part_of; whole; whole = pack_[*whole].part_of)
      if (knowledge_.find(*whole) == nullptr && !knowledge_.could_not_be_told(*whole))
        asked = *whole;
    return asked;
  }

  // Whether the alarm would fire if each test on the sign came out so, all else as it is.
  [[nodiscard]] bool decides(AlarmId alarm, SignId sign, Truth supposed) const {
    return evaluator_.truth_if(pack_[alarm].condition, sign, supposed) == Truth::yes;
  }

  Tables const& tables_;
  Pack const& pack_;
  Knowledge const& knowledge_;
  Evaluator evaluator_;
  std::map<SignId, OpenQuestion> questions_;
};

}  // namespace

std::vector<OpenQuestion> open_questions(Tables const& tables, Assessment const& result) {
  Questions questions(tables, result);
  for (std::uint32_t i = 0; i < tables.pack().alarms.size(); ++i) {
    AlarmId const id{i};
    bool const would_raise =
        !result.judgement.tier || tables.pack()[id].see < *result.judgement.tier;
    if (result.truth(id) == Truth::unknown && would_raise) questions.add(id);
  }
  for (auto const& open : open_exposures(tables, result.knowledge, result.judgement.tier))
    questions.add(open);
  return questions.take();
}

}  // namespace flinch
