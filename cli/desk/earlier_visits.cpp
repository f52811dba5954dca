#include "desk/earlier_visits.hpp"

#include <algorithm>

#include "flinch/explain/reasons.hpp"

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

std::optional<Course> EarlierVisits::course(Case const& patient, Assessment const& result,
                                            Pack const& pack) const {
  if (!rung_back) return std::nullopt;
  return compare_with(*rung_back, patient, result.judgement.tier, pack,
                      implied_answers(result.knowledge));
}

Answer const* EarlierVisits::answer_then(SignId sign) const {
  if (!rung_back) return nullptr;
  for (auto const& [answered, answer] : rung_back->patient.answers)
    if (answered == sign) return &answer;
  return nullptr;
}

std::string EarlierVisits::then_text(Pack const& pack, SignId sign) const {
  auto const* then = answer_then(sign);
  return then == nullptr ? "" : "was: " + answer_text(pack, sign, *then);
}

std::vector<Question> EarlierVisits::to_ask_again(Course const& course, Pack const& pack,
                                                  Reader reader, std::size_t most,
                                                  std::function<bool(SignId)> const& is_done) {
  auto const may_ask = [&](SignId sign) {
    return can_see(reader, pack[sign].seen_by) && !is_done(sign);
  };
  std::vector<Question> out;
  auto const is_yes_or_no = [&](SignId sign) { return traits(pack[sign]).takes_yes_or_no; };
  for (auto const sign : course.still_to_ask)
    if (is_yes_or_no(sign) && may_ask(sign) && out.size() < most)
      out.push_back({sign, 0, {}, {}, {}});
  if (!out.empty()) return out;
  for (auto const sign : course.still_to_ask)
    if (may_ask(sign)) return {{sign, 0, {}, {}, {}}};
  return out;
}

std::string since_last_time_text(Course const& course, Visit const& then, Pack const& pack,
                                 Look const& look) {
  Page page(look);
  page.heading("SINCE LAST TIME");
  page.paragraph(course_text(course, then, pack));
  return page.take();
}

std::string EarlierVisits::sentence(Case const& patient, std::optional<TierId> tier,
                                    std::size_t dangers_unasked, std::time_t now,
                                    Pack const& pack) const {
  return visits.empty() ? "" : course_sentence(visits, patient, tier, dangers_unasked, now, pack);
}

}  // namespace flinch::cli
