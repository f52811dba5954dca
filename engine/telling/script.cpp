#include "flinch/telling/script.hpp"

#include <algorithm>

#include "model/leaving_words.hpp"

namespace flinch {
namespace {

constexpr std::size_t lines_at_most = 5;

class ScriptWriter {
 public:
  ScriptWriter(Pack const& pack, Assessment const& result, CarePlan const& plan, SeenAt seen_at)
      : pack_(pack), result_(result), plan_(plan), seen_at_(seen_at) {
    for (auto const& measure : plan.measures)
      if (is_to_do(measure)) told_.push_back(measure.care);
  }

  Script write() {
    first_aid(Suits::this_patient);
    if (result_.judgement.tier) {
      alarms();
      swallowed();
    }
    if (plan_.is_seen_today) first_aid(Suits::any_patient);
    return std::move(script_);
  }

 private:
  enum class Suits : bool { any_patient, this_patient };

  [[nodiscard]] bool is_to_do(PlannedMeasure const& measure) const {
    auto const& care = pack_.care[measure.care];
    return care.first_aid && !care.for_clinician && !care.say.empty() &&
           measure.advice == Advice::offered && measure.fits == Truth::yes;
  }

  void first_aid(Suits suits) {
    for (auto const i : told_) {
      auto const& care = pack_.care[i];
      if (care.fit_if.has_value() == (suits == Suits::this_patient))
        add(care.say, care.gives_way_to);
    }
  }

  // Only of those that set the tier: what a lesser alarm says would soften it.
  void alarms() {
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (outcome.truth == Truth::yes && alarm.see == *result_.judgement.tier)
        add(alarm.say, alarm.gives_way_to);
    }
  }

  void swallowed() {
    for (auto const& exposure : result_.judgement.exposures) {
      auto const& care = pack_.care[exposure.care];
      if (exposure.see == result_.judgement.tier) add(care.say, care.gives_way_to);
    }
  }

  void add(std::string const& of_pack, std::vector<std::uint32_t> const& gives_way_to) {
    auto const is_in = [](auto const& list, auto const& one) {
      return std::find(list.begin(), list.end(), one) != list.end();
    };
    bool const gives_way = std::any_of(gives_way_to.begin(), gives_way_to.end(),
                                       [&](std::size_t other) { return is_in(told_, other); });
    auto const line = seen_at_ == SeenAt::home ? without_leaving(of_pack) : of_pack;
    if (line.empty() || gives_way || is_in(script_.lines, line) || is_in(script_.further, line))
      return;
    (script_.lines.size() < lines_at_most ? script_.lines : script_.further).push_back(line);
  }

  Pack const& pack_;
  Assessment const& result_;
  CarePlan const& plan_;
  SeenAt seen_at_;
  std::vector<std::size_t> told_;  ///< first aid by its place in the pack
  Script script_;
};

}  // namespace

Script script_for(Pack const& pack, Assessment const& result, CarePlan const& plan,
                  SeenAt seen_at) {
  return ScriptWriter(pack, result, plan, seen_at).write();
}

}  // namespace flinch
