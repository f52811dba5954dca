#include "desk/ring_back_time.hpp"

#include <fmt/format.h>

#include "book/promised_time.hpp"
#include "files/clock.hpp"

namespace flinch::cli {
namespace {

constexpr std::time_t minute_s = 60;
constexpr std::time_t hour_s = 60 * minute_s;
constexpr std::time_t whole_step_s = 5 * minute_s;
constexpr std::time_t by_day_from_s = 6 * hour_s;
constexpr int first_hour = 8;
constexpr int last_hour = 20;

}  // namespace

std::time_t ring_back_time(Tier const& tier, std::time_t now) {
  auto const quarter = static_cast<std::time_t>(tier.within_s / 4);
  // Up to the next step; whole minutes where the step would use up what is left.
  auto time = now + quarter;
  auto const rounded = (time + whole_step_s - 1) / whole_step_s * whole_step_s;
  if (rounded < now + static_cast<std::time_t>(tier.within_s)) time = rounded;
  if (quarter < by_day_from_s) return time;
  std::tm day{};
  localtime_r(&time, &day);
  bool const is_late = day.tm_hour > last_hour || (day.tm_hour == last_hour && day.tm_min > 0);
  if (!is_late && day.tm_hour >= first_hour) return time;
  if (day.tm_hour < first_hour) --day.tm_mday;
  day.tm_hour = last_hour;
  day.tm_min = day.tm_sec = 0;
  day.tm_isdst = -1;
  auto const evening = std::mktime(&day);
  return evening > now ? evening : time;
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
