#include "desk/earlier_visits.hpp"

#include <algorithm>

namespace flinch::cli {
namespace {

bool holds(std::vector<SignId> const& signs, SignId sign) {
  return std::find(signs.begin(), signs.end(), sign) != signs.end();
}

}  // namespace

bool EarlierVisits::is_from_book(SignId sign) const { return holds(from_book, sign); }

void EarlierVisits::said(SignId sign) {
  if (std::erase(from_book, sign) > 0) said_otherwise.push_back(sign);
}

// Judged without what it brought in before, which must not be its own ground.
bool EarlierVisits::bring_in(Case& patient, Assessor& assessor, std::time_t now, Pack const& pack) {
  if (visits.empty()) return false;
  auto const is_of_the_course = [&](SignId sign) {
    return pack[sign].yes_if_seen_before || pack[sign].yes_if_worse;
  };
  auto as_told = patient;
  std::erase_if(as_told.answers, [&](auto const& one) {
    return is_from_book(one.first) && is_of_the_course(one.first);
  });
  auto const said_by_visits =
      signs_said_by(visits, as_told, assessor.judge(as_told).tier, now, pack);
  auto const before = patient;
  std::erase_if(from_book, is_of_the_course);
  patient = std::move(as_told);
  for (auto const sign : said_by_visits) {
    bool const is_answered = holds(patient.cannot_tell, sign) ||
                             std::any_of(patient.answers.begin(), patient.answers.end(),
                                         [&](auto const& one) { return one.first == sign; });
    if (is_answered || holds(said_otherwise, sign)) continue;
    // In the order of the signs, as far as the answers stand in it.
    auto const place = std::find_if(patient.answers.begin(), patient.answers.end(),
                                    [&](auto const& one) { return sign < one.first; });
    patient.answers.insert(place, {sign, true});
    from_book.push_back(sign);
  }
  return !(patient == before);
}

std::optional<Course> EarlierVisits::course(Case const& patient, std::optional<TierId> tier,
                                            Pack const& pack) const {
  if (!rung_back) return std::nullopt;
  return compare_with(*rung_back, patient, tier, pack);
}

std::string EarlierVisits::sentence(Case const& patient, std::optional<TierId> tier,
                                    std::size_t dangers_unasked, std::time_t now,
                                    Pack const& pack) const {
  return visits.empty() ? "" : course_sentence(visits, patient, tier, dangers_unasked, now, pack);
}

}  // namespace flinch::cli
