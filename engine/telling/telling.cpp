#include "flinch/telling/telling.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/likely_dangers.hpp"
#include "flinch/explain/open_count.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/telling/care_words.hpp"
#include "model/leaving_words.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

constexpr std::size_t causes_asked = 3;
constexpr double worth_a_test = 0.05;

class Teller {
 public:
  Teller(Tables const& tables, Assessment const& result, Reader reader, Setting const& setting)
      : tables_(tables), pack_(tables.pack()), result_(result), setting_(setting) {
    told_.reader = reader;
    told_.seen_at = seen_at(pack_, setting);
    told_.plan = plan_care(tables, result, reader);
  }

  Telling tell() {
    urgency();
    told_.script = script_for(pack_, result_, told_.plan, told_.seen_at);
    told_.mouth = mouth_words(pack_, result_, told_.plan);
    if (told_.seen_at == SeenAt::home)
      told_.mouth.food_and_water = without_leaving(told_.mouth.food_and_water);
    ask_us_first();
    warnings();
    open();
    for (auto const& clash : result_.judgement.contradictions)
      told_.clashes.push_back(contradiction_text(pack_, clash));
    ring_again();
    taken_signs_ = signs_of_what_was_taken();
    next();
    return std::move(told_);
  }

 private:
  [[nodiscard]] bool is_top() const { return result_.judgement.tier == TierId{0}; }

  [[nodiscard]] std::string where_examined() const {
    return told_.seen_at == SeenAt::home ? "by the vet" : "at the clinic";
  }

  // Whom to ring: who reads it out at the practice is rung there.
  [[nodiscard]] std::string whom_to_ring() const {
    if (told_.reader == Reader::nurse) return "us";
    return told_.seen_at == SeenAt::home ? "the vet" : "the clinic";
  }

  void urgency() {
    auto& urgency = told_.urgency;
    urgency.tier = result_.judgement.tier;
    urgency.title = title_of(pack_, result_.judgement.tier);
    urgency.say = result_.judgement.tier
                      ? where_to_go(pack_[*result_.judgement.tier], *result_.judgement.tier,
                                    setting_, told_.reader, told_.seen_at)
                      : fmt::format(
                            "No sign was told that says how soon. Unknown is not no: ring {} if "
                            "in doubt, and at once if anything gets worse.",
                            whom_to_ring());
    if (result_.judgement.ceiling && result_.judgement.ceiling != result_.judgement.tier)
      urgency.could_be = result_.judgement.ceiling;
    if (!result_.judgement.tier) return;
    urgency.is_by_likelihood = result_.judgement.alarm_tier != result_.judgement.tier;
    alarms(Sets::tier);
    taken(Sets::tier);
    likelihood();
    alarms(Sets::lesser);
    taken(Sets::lesser);
    held_back_alarms();
  }

  void held_back_alarms() {
    for (auto const& held : held_back(tables_, result_)) {
      auto const& alarm = pack_[held.alarm];
      std::string known;
      for (auto const sign : held.behind)
        known += (known.empty() ? "" : "; ") + known_text(pack_, result_, sign);
      told_.urgency.held_back.push_back(
          fmt::format("Not \"{}\" for \"{}\", since this is known: {}.", pack_[alarm.see].title,
                      alarm.title, known));
    }
  }

  enum class Sets : bool { lesser, tier };

  // Beside an alarm that sets the tier, how soon each single sign is seen by itself tells nothing.
  [[nodiscard]] bool has_alarm_of_tier() const {
    return std::any_of(result_.alarms.begin(), result_.alarms.end(),
                       [&](AlarmOutcome const& outcome) {
                         auto const& alarm = pack_[outcome.alarm];
                         return outcome.truth == Truth::yes &&
                                alarm.see == *result_.judgement.tier && !alarm.floor_of;
                       });
  }

  void alarms(Sets sets) {
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (alarm.floor_of && has_alarm_of_tier()) continue;
      if (outcome.truth == Truth::yes &&
          (alarm.see == *result_.judgement.tier) == (sets == Sets::tier))
        told_.urgency.reasons.push_back(
            {UrgentBy::alarm, sets == Sets::tier, alarm.title + ".", alarm.because});
    }
  }

  void taken(Sets sets) {
    for (auto const& exposure : result_.judgement.exposures)
      if ((exposure.see == result_.judgement.tier) == (sets == Sets::tier))
        told_.urgency.reasons.push_back({UrgentBy::taken,
                                         sets == Sets::tier,
                                         fmt::format("{}; {}.", taken_text(pack_, exposure),
                                                     harm_text(pack_, result_, exposure)),
                                         {}});
  }

  // The causes that make up half of the chance, most of it first.
  void likelihood() {
    if (result_.judgement.ranking_tier != result_.judgement.tier ||
        !pack_[*result_.judgement.tier].harm)
      return;
    std::string names;
    double sum = 0;
    auto const enough = result_.judgement.tiers[index(*result_.judgement.tier)].probability / 2;
    for (auto const& ranked : result_.ranking) {
      if (!ranked.cause || pack_[*ranked.cause].see > *result_.judgement.tier) continue;
      names += (names.empty() ? "" : ", ") + pack_[*ranked.cause].title;
      sum += ranked.posterior;
      if (sum >= enough) break;
    }
    told_.urgency.reasons.push_back(
        {UrgentBy::likelihood,
         true,
         fmt::format("{}ikely enough to matter: {}.",
                     told_.urgency.is_by_likelihood
                         ? "No single sign makes it this urgent, the likely causes do. L"
                         : "L",
                     names),
         {}});
  }

  void ask_us_first() {
    auto const add = [&](bool is_first_aid) {
      for (auto const& measure : told_.plan.measures) {
        auto const& care = pack_.care[measure.care];
        bool const waits = measure.advice == Advice::ask_first || measure.advice == Advice::ask_vet;
        if (waits && measure.fits == Truth::yes && !care.for_clinician && !care.by_mouth &&
            care.first_aid == is_first_aid)
          told_.ask_us_first.push_back(care.title);
      }
    };
    add(true);
    add(false);
  }

  void warnings() {
    auto const warned = warnings_to_tell(pack_, told_.plan);
    for (auto const i : warned.apply) {
      auto const& warning = told_.plan.avoid[i];
      auto const& care = pack_.care[warning.care];
      std::string but_ask;
      for (auto const& gate : warning.gates)
        if (gate.kind == GateKind::ask_vet && gate.truth == Truth::yes)
          but_ask += (but_ask.empty() ? "" : " ") + gate_words(pack_, result_, gate);
      told_.do_not.push_back({care.title, care.avoid, care.because, std::move(but_ask)});
    }
    told_.may_not = may_not_words(pack_, told_.plan, warned);
  }

  void open() {
    auto questions = likely_dangers(tables_, result_);
    told_.open_count = open_count_text(pack_, questions, told_.seen_at);
    for (auto& question : questions) {
      auto const& sign = pack_[question.sign];
      bool const is_told = sign.of_the_patient || sign.seen_by == SeenBy::anyone ||
                           told_.reader == Reader::clinician || told_.reader == Reader::nurse ||
                           (told_.reader == Reader::handler && sign.seen_by == SeenBy::hands);
      if (!is_told) continue;
      std::string who_else = sign.seen_by == SeenBy::clinic  ? where_examined()
                             : sign.seen_by == SeenBy::hands ? "by hands"
                                                             : "";
      if (question.could_not_tell) who_else = "could not be told";
      told_.open.push_back(
          {std::move(question), question_words(pack_, question.sign), std::move(who_else)});
    }
  }

  void ring_again() {
    auto const& plan = told_.plan;
    // On the way to the vet a list with lesser times would only tempt to wait.
    if (is_top()) {
      told_.ring_again.push_back(
          told_.seen_at == SeenAt::home
              ? ToldItem{"Something changes before the vet is there",
                         fmt::format("ring {} again at once.", whom_to_ring())}
              : ToldItem{"Something changes on the way",
                         fmt::format("ring {} while you travel.", whom_to_ring())});
      told_.look_again = "All the time, until it is seen; do not wait for a change.";
      return;
    }
    for (auto const& one : plan.watch)
      if (one.fits == Truth::yes && one.advice != Advice::withheld)
        told_.ring_again.push_back({pack_.care[one.care].title, pack_.care[one.care].watch});
    told_.look_again =
        fmt::format("In {} at the latest, with the same questions; at once if anything gets worse.",
                    time_words(plan.look_again_s));
  }

  // The poison's own treatment, then the tests of the first causes that something told speaks for:
  // of a patient that was well until it ate something, base rates alone prepare nobody.
  void next() {
    if (result_.judgement.nothing_told) return;
    auto const add = [&](std::string const& step) {
      if (std::find(told_.next.begin(), told_.next.end(), step) == told_.next.end())
        told_.next.push_back(step);
    };
    for (auto const& step : poison_treatment()) add(step);
    std::size_t asked = 0;
    for (auto const& ranked : result_.ranking) {
      if (!ranked.cause) continue;
      if (asked++ == causes_asked || ranked.posterior < worth_a_test) break;
      if (!is_spoken_for(*ranked.cause)) continue;
      for (auto const& step : pack_[*ranked.cause].next) add(step);
    }
  }

  // The signs that told what it has taken, and the wholes of these: that a patient was given a
  // painkiller is told by which one it was.
  [[nodiscard]] std::vector<SignId> signs_of_what_was_taken() const {
    std::vector<SignId> out;
    for (auto const& exposure : result_.judgement.exposures)
      if (auto const& fits = pack_.care[exposure.care].fit_if)
        walk_tests(pack_, *fits, [&](Condition const& leaf, Polarity) {
          for (std::optional<SignId> at = leaf.test.sign; at; at = pack_[*at].part_of)
            out.push_back(*at);
        });
    return out;
  }
  [[nodiscard]] bool tells_what_was_taken(SignId sign) const {
    return std::find(taken_signs_.begin(), taken_signs_.end(), sign) != taken_signs_.end();
  }

  // Of what was swallowed: measures for the clinician that fit by a sign that told which it was,
  // each by its first sentence.
  [[nodiscard]] std::vector<std::string> poison_treatment() const {
    std::vector<std::string> out;
    if (taken_signs_.empty()) return out;
    for (auto const& measure : plan_care(tables_, result_, Reader::clinician).measures) {
      auto const& care = pack_.care[measure.care];
      if (!care.for_clinician || measure.fits != Truth::yes || !care.fit_if ||
          care.fit_if->kind != Condition::Kind::test ||
          !tells_what_was_taken(care.fit_if->test.sign))
        continue;
      out.push_back(care.how.substr(0, care.how.find(". ")));
      if (out.back().ends_with('.')) out.back().pop_back();
    }
    return out;
  }

  // Something that was found, beyond age, breed and what was taken, counts for it.
  [[nodiscard]] bool is_spoken_for(CauseId cause) const {
    return std::any_of(
        result_.contributions.begin(), result_.contributions.end(), [&](Contribution const& one) {
          return one.cause == cause && one.counted() > 0 && result_.truth(one.rule) == Truth::yes &&
                 is_of_signs(pack_[one.rule]);
        });
  }

  [[nodiscard]] bool is_of_signs(Rule const& rule) const {
    if (!rule.condition)
      return !pack_[rule.over].of_the_patient && !tells_what_was_taken(rule.over);
    bool out = false;
    walk_tests(pack_, *rule.condition, [&](Condition const& leaf, Polarity) {
      out = out || (!pack_[leaf.test.sign].of_the_patient && !tells_what_was_taken(leaf.test.sign));
    });
    return out;
  }

  Tables const& tables_;
  Pack const& pack_;
  Assessment const& result_;
  Setting const& setting_;
  std::vector<SignId> taken_signs_;
  Telling told_;
};

}  // namespace

char const* const caution =
    "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and local "
    "rules decide. Give no human painkillers. If it gets worse, ring again at once.";

std::string ask_us_first_words(Telling const& told) {
  constexpr std::size_t most_named = 4;
  auto const& titles = told.ask_us_first;
  if (titles.empty()) return "";
  std::string out;
  for (std::size_t i = 0; i < std::min(titles.size(), most_named); ++i)
    out += (i == 0 ? "" : "; ") + titles[i];
  if (titles.size() > most_named) out += fmt::format("; and {} more", titles.size() - most_named);
  return fmt::format("Ask us first, before any of these: {}.", out);
}

Telling tell(Tables const& tables, Assessment const& result, Reader reader,
             Setting const& setting) {
  return Teller(tables, result, reader, setting).tell();
}

}  // namespace flinch
