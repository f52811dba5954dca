#include "desk/ring_back_time.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/promised_time.hpp"
#include "files/clock.hpp"

namespace flinch::cli {
namespace {

constexpr std::time_t minute_s = 60;
constexpr std::time_t hour_s = 60 * minute_s;
constexpr std::time_t whole_step_s = 5 * minute_s;
constexpr int minutes_of_an_hour = 60;
constexpr int first_minute = 8 * minutes_of_an_hour;
constexpr int last_minute = 20 * minutes_of_an_hour;

// Somebody is at the practice; where its hours are not known, people are awake.
bool is_by_day(std::time_t time, Setting const& setting) {
  std::tm local{};
  localtime_r(&time, &local);
  auto const minute = local.tm_hour * minutes_of_an_hour + local.tm_min;
  auto const& practice = setting.practice;
  bool const has_hours = practice && std::any_of(practice->hours.begin(), practice->hours.end(),
                                                 [](auto const& day) { return !day.empty(); });
  return has_hours ? is_open(*practice, local.tm_wday, minute)
                   : first_minute <= minute && minute <= last_minute;
}

}  // namespace

std::time_t ring_back_time(Tier const& tier, std::time_t now, Setting const& setting) {
  auto const quarter = static_cast<std::time_t>(tier.within_s / 4);
  auto const last = now + static_cast<std::time_t>(tier.within_s);
  // Up to the next step; whole minutes where the step would use up what is left.
  auto time = now + quarter;
  auto const rounded = (time + whole_step_s - 1) / whole_step_s * whole_step_s;
  if (rounded < last) time = rounded;
  if (tier.within_s <= hour_s) return time;
  for (auto earlier = time; earlier >= now + quarter / 3; earlier -= whole_step_s)
    if (is_by_day(earlier, setting)) return earlier;
  for (auto later = time; later < last; later += whole_step_s)
    if (is_by_day(later, setting)) return later;
  return time;
}

// "15:40" at four is tomorrow's: whoever typed it must see that.
std::optional<AgreedTime> agreed_time(std::string const& typed, Tier const* tier, std::time_t now) {
  auto const time = promised_time(typed, now);
  if (!time) return std::nullopt;
  AgreedTime out{clock_text(*time), ""};
  if (*time < now)
    out.warning = fmt::format("{} is past", out.text);
  else if (tier != nullptr && *time - now > static_cast<std::time_t>(tier->within_s))
    out.warning = fmt::format("{} is later than \"{}\" allows: agree to an earlier time", out.text,
                              tier->title);
  return out;
}

}  // namespace flinch::cli
