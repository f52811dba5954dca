#include "book/what_lasts.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "book/call_case.hpp"
#include "flinch/model/units.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {
namespace {

// The age at a visit, and the time since; to whole months, from two years on to tenths of a year.
double age_now(Pack const& pack, double age, std::time_t then, std::time_t now) {
  constexpr double seconds_a_day = 24.0 * 60 * 60;
  auto const& sign = pack[patient_sign::age];
  auto const year = convert(1, *find_unit("years"), sign.unit);
  auto const days = now > then ? static_cast<double>(now - then) / seconds_a_day : 0.0;
  auto const exact = age + convert(days, *find_unit("days"), sign.unit);
  auto const steps_a_year = exact < 2 * year ? 12.0 : 10.0;
  constexpr double hair = 1e-9;  // so that what is whole stays so
  auto const rounded = std::floor(exact / year * steps_a_year + hair) / steps_a_year * year;
  return std::min(std::max(age, rounded), sign.high);
}

// The last age that a person said. What a call began with was reckoned from it, to whole months: to
// reckon from that again would lose a part of a month each time.
class SaidAge {
 public:
  explicit SaidAge(Pack const& pack) : pack_(pack) {}

  // The age that stands in a call.
  void add(double age, std::time_t begun) {
    if (!is_known_ || !is_reckoned(age, begun)) {
      age_ = age;
      then_ = begun;
    }
    is_known_ = true;
  }
  [[nodiscard]] double at(std::time_t now) const { return age_now(pack_, age_, then_, now); }

 private:
  // A call is begun with the first thing that is said: its desk reckoned some time before.
  [[nodiscard]] bool is_reckoned(double age, std::time_t begun) const {
    constexpr std::time_t longest_before_s = 24 * 60 * 60;
    auto const hair = convert(1, *find_unit("days"), pack_[patient_sign::age].unit);
    return age >= at(begun - longest_before_s) - hair && age <= at(begun) + hair;
  }

  Pack const& pack_;
  double age_ = 0;
  std::time_t then_ = 0;
  bool is_known_ = false;
};

bool is_kept(Pack const& pack, SignId sign, Answer const& answer) {
  if (sign == patient_sign::age || sign == patient_sign::breed || sign == patient_sign::sex)
    return true;
  return (sign == patient_sign::neutered || pack[sign].lasts) && says_yes(answer);
}

}  // namespace

WhatLasts what_lasts(std::vector<CallLine> const& visits, Pack const& pack, std::time_t now) {
  WhatLasts out;
  CallReader reader(pack);
  std::map<SignId, Answer> known;
  SaidAge said_age(pack);
  for (auto const& call : visits) {
    Case words;
    add_words(call, words);
    for (auto const text : {&Case::name, &Case::caller, &Case::call_back})
      if (!(words.*text).empty()) out.patient.*text = words.*text;
    auto const read = reader.read(call);
    if (!read) continue;
    for (auto const& [sign, answer] : read->patient.answers) {
      if (!is_kept(pack, sign, answer)) {
        // A later no takes an earlier yes back.
        if (pack[sign].lasts || sign == patient_sign::neutered) known.erase(sign);
        continue;
      }
      auto said = answer;
      if (sign == patient_sign::age)
        if (auto const* age = std::get_if<double>(&answer)) {
          said_age.add(*age, call.begun);
          said = said_age.at(now);
        }
      known.insert_or_assign(sign, std::move(said));
      out.from = call.call;
    }
  }
  for (auto const& [sign, answer] : known) {
    out.signs.push_back(sign);
    out.patient.answers.emplace_back(sign, answer);
  }
  return out;
}

}  // namespace flinch::cli
