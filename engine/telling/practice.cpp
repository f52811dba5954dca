#include "flinch/telling/practice.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flinch {
namespace {

constexpr double hour_s = 3600;
constexpr double day_s = 86400;

std::string placed(Practice const& practice) {
  return practice.name + (practice.address.empty() ? "" : ", " + practice.address);
}

std::string now_words(Practice const& practice, bool is_nurse) {
  return is_nurse
             ? "Come straight to us" + (practice.address.empty() ? "" : ", " + practice.address) +
                   "; ring this number if anything changes on the way."
             : fmt::format("Go straight to {}; telephone {} on the way.", placed(practice),
                           practice.telephone);
}

std::string today_words(Practice const& practice, bool is_nurse) {
  return (is_nurse ? "Come to us today; we will give you a time."
                   : fmt::format("Telephone {} now, {}, and be seen today.", practice.telephone,
                                 placed(practice))) +
         " If it gets worse, leave at once.";
}

}  // namespace

bool is_open(Practice const& practice, int weekday, int minute) {
  bool const has_hours = std::any_of(practice.hours.begin(), practice.hours.end(),
                                     [](auto const& day) { return !day.empty(); });
  auto const& day = practice.hours.at(static_cast<std::size_t>(weekday));
  return !has_hours || std::any_of(day.begin(), day.end(), [&](OpenHours const& hours) {
    return hours.from <= minute && minute < hours.to;
  });
}

std::string where_to_go(Tier const& tier, TierId id, Setting const& setting, Reader reader) {
  if (!setting.practice) return tier.say;
  auto const& practice = *setting.practice;
  bool const is_nurse = reader == Reader::nurse;
  if (id != TierId{0} && tier.within_s > day_s)
    return tier.say + (is_nurse
                           ? std::string()
                           : fmt::format(" {}: telephone {}.", practice.name, practice.telephone));
  bool const is_now = id == TierId{0} || tier.within_s <= hour_s;
  auto const until_then = tier.until_then.empty() ? "" : " " + tier.until_then;
  if (is_open(practice, setting.weekday, setting.minute))
    return (is_now ? now_words(practice, is_nurse) : today_words(practice, is_nurse)) + until_then;
  if (practice.out_of_hours.empty()) return tier.say;
  auto const closed = fmt::format("{} closed now: ", is_nurse ? "We are" : practice.name + " is");
  return closed +
         (is_now ? fmt::format("go straight to {}.", practice.out_of_hours)
                 : fmt::format("telephone {}, and be seen within {:.0f} hours. If it gets worse, "
                               "leave at once.",
                               practice.out_of_hours, tier.within_s / hour_s)) +
         until_then;
}

}  // namespace flinch
