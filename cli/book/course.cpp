#include "book/course.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "book/call_case.hpp"
#include "book/call_text.hpp"
#include "book/urgency_of_all.hpp"
#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/complaint.hpp"
#include "flinch/model/tested_signs.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {
namespace {

constexpr std::time_t one_day_s = 24 * 60 * 60;

Answer const* answer_in(std::vector<std::pair<SignId, Answer>> const& answers, SignId sign) {
  for (auto const& [answered, answer] : answers)
    if (answered == sign) return &answer;
  return nullptr;
}

Answer const* answer_to(Case const& patient, SignId sign) {
  return answer_in(patient.answers, sign);
}

bool holds(std::vector<SignId> const& signs, SignId sign) {
  return std::find(signs.begin(), signs.end(), sign) != signs.end();
}

// How much of it: the step, or the number of places.
std::size_t degree(Answer const& answer) {
  if (auto const* step = std::get_if<Choice>(&answer)) return step->index;
  if (auto const* findings = std::get_if<Findings>(&answer)) return findings->found.size();
  return 0;
}

bool is_of_the_day(Pack const& pack, SignId sign, std::optional<SignId> since) {
  auto const& its = pack[sign];
  return !its.of_the_patient && !its.lasts && !its.yes_if_seen_before && !its.yes_if_worse &&
         since != sign;
}

// Signs that tell of the course.
bool tells(Pack const& pack, SignId sign, std::optional<SignId> since) {
  return traits(pack[sign]).may_be_absent && is_of_the_day(pack, sign, since);
}

bool is_place_told(Answer const& answer) {
  auto const* findings = std::get_if<Findings>(&answer);
  return findings != nullptr && !findings->found.empty();
}

// It was said to be there, now it is said neither where nor that it is not.
bool lost_its_place(Answer const& before, Answer const& today) {
  if (!std::holds_alternative<Findings>(today)) return false;
  if (is_there(today)) return is_place_told(before) && !is_place_told(today);
  return !says_no(today);
}

std::vector<bool> signs_of_dangers(Pack const& pack) {
  std::vector<bool> out(pack.signs.size());
  for (auto const& alarm : pack.alarms) mark_tested_signs(pack, alarm.trigger(), out);
  return out;
}

// What it came for; without that, all that it had.
std::vector<SignId> troubles(Case const& patient, Pack const& pack) {
  if (!patient.came_for.empty()) return patient.came_for;
  std::vector<SignId> out;
  auto const since = since_when(pack);
  for (auto const& [sign, answer] : patient.answers)
    if (tells(pack, sign, since) && is_there(answer)) out.push_back(sign);
  return out;
}

// Where both tell places, one must be the same.
bool is_same_place(Answer const& one, Answer const& other) {
  auto const* a = std::get_if<Findings>(&one);
  auto const* b = std::get_if<Findings>(&other);
  if (a == nullptr || b == nullptr || a->found.empty() || b->found.empty()) return true;
  return std::any_of(a->found.begin(), a->found.end(), [&](SiteMark const& mark) {
    return std::find(b->found.begin(), b->found.end(), mark) != b->found.end();
  });
}

bool is_shared(SignId sign, Case const& one, Case const& other) {
  auto const* a = answer_to(one, sign);
  auto const* b = answer_to(other, sign);
  return a != nullptr && b != nullptr && is_there(*a) && is_there(*b) && is_same_place(*a, *b);
}

std::string ordinal(std::size_t count) {
  constexpr std::array<std::string_view, 9> words = {
      "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"};
  if (count >= 2 && count - 2 < words.size()) return std::string(words[count - 2]);
  return fmt::format("visit number {}", count);
}

std::string span_text(std::time_t span) {
  auto const days = std::max<std::time_t>(1, (span + one_day_s / 2) / one_day_s);
  auto const counted = [](std::time_t count, char const* unit) {
    return fmt::format("{} {}{}", count, unit, count == 1 ? "" : "s");
  };
  if (days < 14) return counted(days, "day");
  if (days < 70) return counted((days + 3) / 7, "week");
  if (days < 730) return counted((days + 15) / 30, "month");
  return counted((days + 182) / 365, "year");
}

std::string fared_word(Course const& course) {
  constexpr std::array<char const*, 4> words = {"not known yet", "better", "the same", "worse"};
  return words.at(static_cast<std::size_t>(course.fared));
}

// While a danger is unasked, better or the same is not the last word.
char const* so_far(Course const& course) {
  bool const is_no_worse =
      course.fared == Course::Fared::better || course.fared == Course::Fared::same;
  return is_no_worse && course.dangers_unasked > 0 ? " so far" : "";
}

}  // namespace

std::vector<Visit> read_visits(std::vector<CallLine> const& calls, Pack const& pack) {
  std::vector<Visit> out;
  CallReader reader(pack);
  for (auto const& call : calls) {
    auto read = reader.read(call);
    if (!read) continue;
    Visit visit{call.call, call.begun, call.follows, {}, std::move(read->patient)};
    if (is_of_pack(call, pack)) visit.tier = tier_of_name(pack, call.tier);
    out.push_back(std::move(visit));
  }
  return out;
}

ImpliedAnswers implied_answers(Knowledge const& knowledge) {
  ImpliedAnswers out;
  for (auto const& known : knowledge.known)
    if (known.origin == Origin::from_whole || known.origin == Origin::from_part ||
        known.origin == Origin::inapplicable)
      out.emplace_back(known.sign, known.answer);
  return out;
}

std::optional<Visit> with_those_before(std::vector<Visit> const& visits, CallId last,
                                       Pack const& pack) {
  std::vector<Visit const*> chain;  // the latest first
  for (std::optional<CallId> wanted = last; wanted && chain.size() < visits.size();) {
    auto const found = std::find_if(visits.begin(), visits.end(),
                                    [&](Visit const& one) { return one.call == *wanted; });
    if (found == visits.end()) break;
    chain.push_back(&*found);
    wanted = found->follows;
  }
  if (chain.empty()) return std::nullopt;
  Visit out = *chain.back();
  for (auto next = std::next(chain.rbegin()); next != chain.rend(); ++next) {
    auto const& later = **next;
    auto const course = compare_with(out, later.patient, later.tier, pack);
    bool const is_all_asked =
        course.still_to_ask.empty() && course.untold.empty() && course.place_unknown.empty();
    bool const is_as_urgent = later.tier && (!out.tier || *later.tier <= *out.tier);
    if (is_all_asked || is_as_urgent) out.tier = later.tier;
    out.call = later.call;
    out.begun = later.begun;
    out.follows = later.follows;
    for (auto const& told : later.patient.answers) {
      auto& answers = out.patient.answers;
      auto const before = std::find_if(answers.begin(), answers.end(),
                                       [&](auto const& one) { return one.first == told.first; });
      if (before == answers.end())
        answers.push_back(told);
      else if (!is_there(before->second) || !lost_its_place(before->second, told.second))
        before->second = told.second;
    }
  }
  return out;
}

Course compare_with(Visit const& then, Case const& now, std::optional<TierId> tier,
                    Pack const& pack, ImpliedAnswers const& implied) {
  Course out;
  out.tier_then = then.tier;
  out.tier_now = tier;
  auto const since = since_when(pack);
  auto const is_danger = signs_of_dangers(pack);
  auto const is_danger_measured = [&](SignId sign) {
    return !traits(pack[sign]).may_be_absent && is_danger[index(sign)] &&
           is_of_the_day(pack, sign, since);
  };
  bool is_anything_compared = false;
  for (auto const& [sign, before] : then.patient.answers) {
    bool const is_measured = is_danger_measured(sign);
    if (!is_measured && !tells(pack, sign, since)) continue;
    auto const* given = answer_to(now, sign);
    auto const* today = given != nullptr ? given : answer_in(implied, sign);
    is_anything_compared = is_anything_compared || today != nullptr;
    if (!is_measured && !is_there(before)) continue;
    if (today == nullptr)
      (holds(now.cannot_tell, sign) ? out.untold : out.still_to_ask).push_back(sign);
    else if (is_measured && *today != before)
      out.otherwise.push_back(sign);
    else if (is_measured)
      continue;
    else if (lost_its_place(before, *today))
      out.place_unknown.push_back(sign);
    else if (!is_there(*today))
      out.gone.push_back(sign);
    else if (degree(*today) > degree(before) && degree(before) + degree(*today) > 1)
      out.graver.push_back(sign);
    else if (degree(*today) < degree(before) && traits(pack[sign]).has_order)
      out.milder.push_back(sign);
    else if (!is_same_place(before, *today))
      out.fresh.push_back(sign);
  }
  for (auto const& [sign, today] : now.answers) {
    if (!tells(pack, sign, since) || !is_there(today)) continue;
    auto const* told = answer_to(then.patient, sign);
    auto const* before = told != nullptr ? told : answer_in(then.implied, sign);
    bool const was_there = before != nullptr && is_there(*before);
    if (!was_there && (before != nullptr || is_danger[index(sign)])) out.fresh.push_back(sign);
  }
  // Danger first: that is asked first.
  std::stable_partition(out.still_to_ask.begin(), out.still_to_ask.end(),
                        [&](SignId sign) { return is_danger[index(sign)]; });
  auto const says_worse = [&](auto const& answered) {
    return pack[answered.first].yes_if_worse && says_yes(answered.second);
  };
  bool const is_more_urgent = tier && then.tier && *tier < *then.tier;
  bool const is_less_urgent = then.tier && (!tier || *then.tier < *tier);
  if (is_more_urgent || !out.fresh.empty() || !out.graver.empty() ||
      std::any_of(now.answers.begin(), now.answers.end(), says_worse))
    out.fared = Course::Fared::worse;
  else if (!is_anything_compared || !out.still_to_ask.empty() || !out.untold.empty() ||
           !out.place_unknown.empty() || (!out.otherwise.empty() && !is_less_urgent))
    out.fared = Course::Fared::unknown;
  else
    out.fared = out.gone.empty() && out.milder.empty() && out.otherwise.empty()
                    ? Course::Fared::same
                    : Course::Fared::better;
  return out;
}

void hold_back_as_said_worse(Course& course) {
  course.is_said_worse = true;
  if (course.fared != Course::Fared::worse) course.fared = Course::Fared::unknown;
}

std::string fared_text(Course const& course) { return fared_word(course) + so_far(course); }

std::string what_changed_text(Course const& course, Visit const& then, Pack const& pack) {
  auto out = fmt::format("{} {} call {} of {}", fared_text(course),
                         course.fared == Course::Fared::same      ? "as in"
                         : course.fared == Course::Fared::unknown ? "against"
                                                                  : "than in",
                         number(then.call), clock_text(then.begun));
  std::string what;
  auto const add = [&](char const* head, std::vector<SignId> const& signs) {
    if (signs.empty()) return;
    what += fmt::format("{}{}: {}", what.empty() ? "" : "; ", head, labels_text(pack, signs));
  };
  add("new", course.fresh);
  add("graver", course.graver);
  add("milder", course.milder);
  add("gone", course.gone);
  add("otherwise", course.otherwise);
  add("its place not told", course.place_unknown);
  add("nobody can tell", course.untold);
  if (course.tier_then && course.tier_now && *course.tier_then != *course.tier_now)
    what += fmt::format("{}urgency then: {}; now: {}", what.empty() ? "" : "; ",
                        pack[*course.tier_then].title, pack[*course.tier_now].title);
  if (course.is_said_worse && course.fared == Course::Fared::unknown)
    what += fmt::format("{}said to be worse, or something new", what.empty() ? "" : "; ");
  return what.empty() ? out : out + ": " + what;
}

std::string course_text(Course const& course, Visit const& then, Pack const& pack) {
  auto out = what_changed_text(course, then, pack);
  if (!course.still_to_ask.empty())
    out += "; still to ask: " + labels_text(pack, course.still_to_ask);
  if (course.dangers_unasked > 0)
    out += fmt::format("; {} danger{} not asked for", course.dangers_unasked,
                       course.dangers_unasked == 1 ? "" : "s");
  return out;
}

std::vector<Visit const*> visits_for_the_same(std::vector<Visit> const& visits, Case const& now,
                                              Pack const& pack) {
  std::vector<Visit const*> out;
  auto const today = troubles(now, pack);
  for (auto const& visit : visits) {
    if (visit.follows) continue;
    auto const then = troubles(visit.patient, pack);
    if (std::any_of(today.begin(), today.end(), [&](SignId sign) {
          return holds(then, sign) && is_shared(sign, now, visit.patient);
        }))
      out.push_back(&visit);
  }
  return out;
}

std::string course_sentence(std::vector<Visit> const& visits, Case const& today,
                            std::optional<TierId> tier, std::size_t dangers_unasked,
                            std::time_t now, Pack const& pack) {
  auto const earlier = visits_for_the_same(visits, today, pack);
  if (earlier.empty()) return "";
  auto const& last = *earlier.back();
  auto const mine = troubles(today, pack);
  auto const shared = std::find_if(
      mine.begin(), mine.end(), [&](SignId sign) { return is_shared(sign, today, last.patient); });
  std::string what = shared == mine.end() ? "the same" : pack[*shared].label;
  if (shared != mine.end())
    if (auto const* findings = std::get_if<Findings>(answer_to(today, *shared)))
      if (findings->found.size() == 1) what += ", " + site_text(pack, findings->found.front());
  auto out = fmt::format("{}: {} visit for it in {}", what, ordinal(earlier.size() + 1),
                         span_text(now - earlier.front()->begun));
  auto course = compare_with(last, today, tier, pack);
  course.dangers_unasked = dangers_unasked;
  if (course.fared != Course::Fared::unknown)
    out += fmt::format("; {} {} last time{}", fared_word(course),
                       course.fared == Course::Fared::same ? "as" : "than", so_far(course));
  return out;
}

std::vector<SignId> signs_said_by(std::vector<Visit> const& visits, Case const& today,
                                  std::optional<TierId> tier, std::time_t now, Pack const& pack) {
  constexpr std::time_t another_bout_s = 14 * one_day_s;
  constexpr std::time_t one_course_s = 30 * one_day_s;
  std::vector<SignId> out;
  auto const earlier = visits_for_the_same(visits, today, pack);
  if (earlier.empty()) return out;
  bool const is_another_bout = now - earlier.front()->begun >= another_bout_s;
  auto const since_last = now - earlier.back()->begun;
  bool const is_one_course = since_last >= one_day_s && since_last <= one_course_s;
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.yes_if_seen_before && is_another_bout) out.push_back(SignId{i});
    if (sign.yes_if_worse && is_one_course &&
        compare_with(*earlier.back(), today, tier, pack).fared == Course::Fared::worse)
      out.push_back(SignId{i});
  }
  return out;
}

}  // namespace flinch::cli
