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

std::string now_words(Practice const& practice, bool is_nurse, bool vet_comes) {
  if (vet_comes)
    return is_nurse
               ? "A vet comes out to you now; ring this number if anything changes before then."
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
  auto const promised = vet_comes ? "A vet comes out to you today" : "Come to us today";
  return is_nurse ? fmt::format("{}; we will give you a time.", promised)
                  : fmt::format("Telephone {} now, {}, and {}.", practice.telephone,
                                placed(practice), asked);
}

std::string closed_words(Practice const& practice, Tier const& tier, bool is_now, bool vet_comes) {
  if (!is_now)
    return fmt::format("telephone {}, and be seen within {:.0f} hours.", practice.out_of_hours,
                       tier.within_s / hour_s);
  return vet_comes ? fmt::format("telephone {}, and ask for a vet to come out at once.",
                                 practice.out_of_hours)
                   : fmt::format("go straight to {}.", practice.out_of_hours);
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

SeenAt seen_at(Pack const& pack, Setting const& setting) {
  if (!setting.practice) return pack.seen_at;
  auto const& practice = *setting.practice;
  bool const sends_nowhere =
      practice.out_of_hours.empty() && !is_open(practice, setting.weekday, setting.minute);
  return sends_nowhere ? pack.seen_at : practice.seen_at.value_or(pack.seen_at);
}

std::string where_to_go(Tier const& tier, TierId id, Setting const& setting, Reader reader,
                        SeenAt seen_at) {
  if (!setting.practice) return tier.say;
  auto const& practice = *setting.practice;
  bool const is_nurse = reader == Reader::nurse;
  if (id != TierId{0} && tier.within_s > day_s)
    return tier.say + (is_nurse
                           ? std::string()
                           : fmt::format(" {}: telephone {}.", practice.name, practice.telephone));
  bool const vet_comes = seen_at == SeenAt::home;
  bool const is_now = id == TierId{0} || tier.within_s <= hour_s;
  std::string words;
  if (is_open(practice, setting.weekday, setting.minute))
    words = is_now ? now_words(practice, is_nurse, vet_comes)
                   : today_words(practice, is_nurse, vet_comes);
  else if (practice.out_of_hours.empty())
    return tier.say;
  else
    words = fmt::format("{} closed now: {}", is_nurse ? "We are" : practice.name + " is",
                        closed_words(practice, tier, is_now, vet_comes));
  if (!is_now)
    words += vet_comes ? " If it gets worse, telephone again at once."
                       : " If it gets worse, leave at once.";
  return words + (tier.until_then.empty() ? "" : " " + tier.until_then);
}

}  // namespace flinch
