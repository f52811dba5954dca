#include "flinch/telling/practice.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "model/leaving_words.hpp"

namespace flinch {
namespace {

constexpr double hour_s = 3600;
constexpr double day_s = 86400;

std::string placed(Practice const& practice) {
  return practice.name + (practice.address.empty() ? "" : ", " + practice.address);
}

std::string now_words(Practice const& practice, bool is_nurse, bool vet_comes) {
  if (vet_comes)
    return is_nurse
               ? "A vet has to come out to you now, and we will tell you when; ring this number if "
                 "anything changes before then."
               : fmt::format("Telephone {} now, {}, and ask for a vet to come out at once.",
                             practice.telephone, placed(practice));
  return is_nurse
             ? "Come straight to us" + (practice.address.empty() ? "" : ", " + practice.address) +
                   "; ring this number if anything changes on the way."
             : fmt::format("Go straight to {}; telephone {} on the way.", placed(practice),
                           practice.telephone);
}

std::string today_words(Practice const& practice, bool is_nurse, bool vet_comes) {
  auto const asked = vet_comes ? "ask for a vet to come out today" : "be seen today";
  auto const promised = vet_comes ? "A vet has to come out to you today" : "Come to us today";
  return is_nurse ? fmt::format("{}; we will give you a time.", promised)
                  : fmt::format("Telephone {} now, {}, and {}.", practice.telephone,
                                placed(practice), asked);
}

bool is_within(WeekHours const& week, int weekday, int minute) {
  auto const& day = week.at(static_cast<std::size_t>(weekday));
  return std::any_of(day.begin(), day.end(), [&](OpenHours const& hours) {
    return hours.from <= minute && minute < hours.to;
  });
}

bool comes_out_now(Practice const& practice, Setting const& setting) {
  return practice.home_visits && is_within(*practice.home_visits, setting.weekday, setting.minute);
}

// What the pack says for this tier; of words that only send the patient away, what is to be asked
// for in their place.
std::string own_words(Tier const& tier, TierId id, SeenAt seen_at) {
  if (seen_at == SeenAt::clinic) return tier.say;
  auto const kept = without_leaving(tier.say);
  if (kept == tier.say) return kept;
  auto const within = id == TierId{0} || tier.within_s <= hour_s ? std::string("at once")
                      : tier.within_s <= 2 * day_s
                          ? fmt::format("within {:.0f} hours", tier.within_s / hour_s)
                          : fmt::format("within {:.0f} days", tier.within_s / day_s);
  return fmt::format("Telephone the vet, and ask for a visit {}.{}{}", within,
                     kept.empty() ? "" : " ", kept);
}

// Who answers while the practice is closed is somebody else, and may not come out.
std::string closed_words(Practice const& practice, Tier const& tier, bool is_now, bool vet_comes) {
  if (!is_now)
    return fmt::format("telephone {}, and be seen within {:.0f} hours.", practice.out_of_hours,
                       tier.within_s / hour_s);
  return vet_comes
             ? fmt::format(
                   "telephone {} now, and ask whether a vet can come out at once or you go there.",
                   practice.out_of_hours)
             : fmt::format("go straight to {}.", practice.out_of_hours);
}

}  // namespace

bool is_open(Practice const& practice, int weekday, int minute) {
  bool const has_hours = std::any_of(practice.hours.begin(), practice.hours.end(),
                                     [](auto const& day) { return !day.empty(); });
  return !has_hours || is_within(practice.hours, weekday, minute);
}

SeenAt seen_at(Pack const& pack, Setting const& setting) {
  if (!setting.practice) return pack.seen_at;
  auto const& practice = *setting.practice;
  if (comes_out_now(practice, setting)) return SeenAt::home;
  bool const sends_nowhere =
      practice.out_of_hours.empty() && !is_open(practice, setting.weekday, setting.minute);
  if (sends_nowhere) return pack.seen_at;
  return practice.home_visits ? SeenAt::clinic : practice.seen_at.value_or(pack.seen_at);
}

std::string where_to_go(Tier const& tier, TierId id, Setting const& setting, Reader reader,
                        SeenAt seen_at) {
  if (!setting.practice) return own_words(tier, id, seen_at);
  auto const& practice = *setting.practice;
  bool const is_nurse = reader == Reader::nurse;
  if (id != TierId{0} && tier.within_s > day_s)
    return own_words(tier, id, seen_at) +
           (is_nurse ? std::string()
                     : fmt::format(" {}: telephone {}.", practice.name, practice.telephone));
  bool const vet_comes = seen_at == SeenAt::home;
  bool const is_now = id == TierId{0} || tier.within_s <= hour_s;
  std::string words;
  // Who comes out at this hour is reached by the practice's own number, unless it names another.
  bool const is_reached = is_open(practice, setting.weekday, setting.minute) ||
                          (practice.out_of_hours.empty() && comes_out_now(practice, setting));
  if (is_reached)
    words = is_now ? now_words(practice, is_nurse, vet_comes)
                   : today_words(practice, is_nurse, vet_comes);
  else if (practice.out_of_hours.empty())
    return own_words(tier, id, seen_at);
  else
    words = fmt::format("{} closed now: {}", is_nurse ? "We are" : practice.name + " is",
                        closed_words(practice, tier, is_now, vet_comes));
  if (!is_now)
    words += vet_comes ? " If it gets worse, telephone again at once."
                       : " If it gets worse, leave at once.";
  auto until_then = vet_comes ? without_leaving(tier.until_then) : tier.until_then;
  if (words.ends_with(until_then)) until_then.clear();
  return words + (until_then.empty() ? "" : " " + until_then);
}

}  // namespace flinch
