// Better, the same or worse: by what was said then and what is said today, never by silence.
#include "book/course.hpp"

#include <gtest/gtest.h>

#include "book/limping_pack.hpp"

namespace flinch::test {
namespace {

using Fared = cli::Course::Fared;
constexpr std::time_t day_s = 24 * 60 * 60;

std::shared_ptr<Pack const> const& pack() {
  static auto const its = limping_pack(R"(
sign collapsed "collapsed"
  ask "Has it collapsed?"
  answer yes or no
  seen by anyone
sign sleepy "sleepy"
  ask "Is it sleepy?"
  answer yes or no
  seen by anyone
sign pain "pain"
  ask "How much pain?"
  answer steps none, mild, much
  seen by anyone
sign diabetes "diabetes"
  ask "Does it have diabetes?"
  answer yes or no
  seen by anyone
  lasts
sign seen_before "seen before for the same"
  ask "Was it seen before for the same?"
  answer yes or no
  seen by anyone
  yes if seen before
sign worse "worse than last time"
  ask "Is it worse than last time?"
  answer yes or no
  seen by anyone
  yes if worse than before
sign gums "gum colour"
  ask "What colour are its gums?"
  answer one of pink, blue
  seen by anyone
sign fever "temperature"
  ask "What is its temperature?"
  answer number in C from 30 to 45
  seen by anyone
sign ears "ears"
  ask "How are its ears?"
  answer one of up, down
  seen by anyone
sign sore "sore"
  ask "Where is it sore?"
  answer sites
  seen by anyone
alarm blue "Blue gums"
  if gums is blue
  see watch
  say "x"
  because "x"
  cite judgement
alarm hot "Hot"
  if fever >= 41 C
  see watch
  say "x"
  because "x"
  cite judgement
alarm down "Collapsed"
  if collapsed
  see watch
  say "x"
  because "x"
  cite judgement
)");
  return its;
}

SignId sign(char const* name) { return *pack()->find_sign(name); }

Case with(std::vector<std::pair<char const*, Answer>> const& answers,
          std::vector<char const*> const& came_for = {}) {
  Case out;
  for (auto const& [name, answer] : answers) out.answers.emplace_back(sign(name), answer);
  for (auto const* name : came_for) out.came_for.push_back(sign(name));
  return out;
}

cli::Visit visit(std::time_t begun, Case patient) {
  return {cli::CallId{1}, begun, {}, {}, std::move(patient)};
}

Fared fared(Case const& then, Case const& now) {
  return cli::compare_with(visit(0, then), now, std::nullopt, *pack()).fared;
}

TEST(Course, WhatIsNotAskedAgainIsNeverGone) {
  auto const then = with({{"limping", true}, {"pain", Choice{2}}});
  EXPECT_EQ(fared(then, with({})), Fared::unknown);
  EXPECT_EQ(fared(then, with({{"limping", false}})), Fared::unknown);
  EXPECT_EQ(fared(then, with({{"limping", false}, {"pain", Choice{1}}})), Fared::better);
  EXPECT_EQ(fared(then, with({{"limping", true}, {"pain", Choice{2}}})), Fared::same);
  EXPECT_EQ(fared(then, with({{"limping", true}, {"pain", Choice{1}}})), Fared::better);
  auto untold = with({{"pain", Choice{1}}});
  untold.cannot_tell = {sign("limping")};
  EXPECT_EQ(fared(then, untold), Fared::unknown);
}

TEST(Course, ANewDangerIsWorseWhateverIsGone) {
  auto const then = with({{"limping", true}, {"sleepy", false}});
  EXPECT_EQ(fared(then, with({{"limping", false}, {"collapsed", true}})), Fared::worse);
  EXPECT_EQ(fared(then, with({{"sleepy", true}})), Fared::worse) << "it was not there then";
  EXPECT_EQ(fared(with({{"limping", true}}), with({{"limping", true}, {"sleepy", true}})),
            Fared::same)
      << "no danger, and nobody knows whether it was there then";
  EXPECT_EQ(fared(with({{"pain", Choice{1}}}), with({{"pain", Choice{2}}})), Fared::worse);
}

TEST(Course, WhatAnAlarmMeasuresIsAskedAgainBeforeItIsBetter) {
  auto const then =
      with({{"limping", true}, {"gums", Choice{1}}, {"fever", 41.5}, {"ears", Choice{1}}});
  auto const half = with({{"limping", false}});
  EXPECT_EQ(fared(then, half), Fared::unknown);
  auto const course = cli::compare_with(visit(0, then), half, std::nullopt, *pack());
  EXPECT_EQ(course.still_to_ask, (std::vector{sign("gums"), sign("fever")})) << "no ears";
  auto const same = with({{"limping", false}, {"gums", Choice{1}}, {"fever", 41.5}});
  EXPECT_EQ(fared(then, same), Fared::better);
  auto untold = with({{"limping", false}, {"gums", Choice{1}}});
  untold.cannot_tell = {sign("fever")};
  EXPECT_EQ(fared(then, untold), Fared::unknown);
  // Otherwise is better only where the urgency says so.
  auto const other = with({{"limping", false}, {"gums", Choice{1}}, {"fever", 41.9}});
  EXPECT_EQ(fared(then, other), Fared::unknown);
  auto urgent = visit(0, then);
  urgent.tier = TierId{0};
  EXPECT_EQ(cli::compare_with(urgent, other, TierId{0}, *pack()).fared, Fared::unknown);
  auto const cool = with({{"limping", false}, {"gums", Choice{0}}, {"fever", 38.5}});
  EXPECT_EQ(cli::compare_with(urgent, cool, TierId{1}, *pack()).fared, Fared::better);
}

TEST(Course, ARingBackTakesNothingFromTheCallsBeforeIt) {
  auto const at = [](long long call, std::optional<TierId> tier, Case patient) {
    cli::Visit out{cli::CallId{call}, static_cast<std::time_t>(call), {}, tier, {}};
    if (call > 1) out.follows = cli::CallId{call - 1};
    out.patient = std::move(patient);
    return out;
  };
  auto second = with({{"limping", false}});
  second.cannot_tell = {sign("sleepy")};
  std::vector<cli::Visit> const visits = {
      at(1, TierId{0},
         with({{"limping", true}, {"collapsed", true}, {"sleepy", true}, {"gums", Choice{1}}})),
      at(2, TierId{1}, second)};
  auto const then = *cli::with_those_before(visits, cli::CallId{2}, *pack());
  EXPECT_EQ(then.call, cli::CallId{2});
  EXPECT_EQ(then.tier, TierId{0}) << "not all was asked again";
  auto const course = cli::compare_with(then, with({{"limping", false}}), TierId{1}, *pack());
  EXPECT_EQ(course.fared, Fared::unknown);
  EXPECT_EQ(course.still_to_ask, (std::vector{sign("collapsed"), sign("gums"), sign("sleepy")}));
  EXPECT_EQ(cli::compare_with(then, with({{"limping", true}}), TierId{1}, *pack()).fresh,
            std::vector{sign("limping")})
      << "it was gone";
  auto all = visits;
  all[1] =
      at(2, TierId{1},
         with({{"limping", false}, {"collapsed", false}, {"sleepy", false}, {"gums", Choice{0}}}));
  EXPECT_EQ(cli::with_those_before(all, cli::CallId{2}, *pack())->tier, TierId{1});
  EXPECT_FALSE(cli::with_those_before(all, cli::CallId{3}, *pack()));
}

TEST(Course, WithoutItsPlaceItIsNeitherBetterNorTheSame) {
  Findings at_a_leg;
  at_a_leg.found_somewhere = true;
  at_a_leg.found.push_back({});
  Findings somewhere;
  somewhere.found_somewhere = true;
  Findings half_looked;
  half_looked.clear.push_back({});
  auto const then = with({{"limping", true}, {"sore", at_a_leg}});
  for (auto const& today : {somewhere, half_looked}) {
    auto const now = with({{"limping", false}, {"sore", today}});
    EXPECT_EQ(fared(then, now), Fared::unknown);
  }
  EXPECT_EQ(fared(then, with({{"limping", false}, {"sore", at_a_leg}})), Fared::better);
  Findings nowhere;
  nowhere.clear_everywhere = true;
  EXPECT_EQ(fared(then, with({{"limping", true}, {"sore", nowhere}})), Fared::better);
}

TEST(Course, WhatAnAnswerImpliesNeedsNoOther) {
  auto const then = with({{"limping", true}, {"sleepy", true}});
  auto const now = with({{"limping", false}});
  auto const of = [&](cli::ImpliedAnswers const& implied) {
    return cli::compare_with(visit(0, then), now, std::nullopt, *pack(), implied);
  };
  EXPECT_EQ(of({}).still_to_ask, std::vector{sign("sleepy")});
  EXPECT_EQ(of({{sign("sleepy"), false}}).fared, Fared::better);
  // A danger that was implied then is no new one.
  auto before = visit(0, with({{"limping", true}}));
  before.implied = {{sign("collapsed"), true}};
  auto const today = with({{"limping", true}, {"collapsed", true}});
  EXPECT_EQ(cli::compare_with(before, today, std::nullopt, *pack()).fared, Fared::same);
}

TEST(Course, AHigherUrgencyIsWorse) {
  cli::Visit then = visit(0, with({{"limping", true}}));
  then.tier = TierId{1};
  auto const now = with({{"limping", true}});
  EXPECT_EQ(cli::compare_with(then, now, TierId{0}, *pack()).fared, Fared::worse);
  EXPECT_EQ(cli::compare_with(then, now, TierId{1}, *pack()).fared, Fared::same);
}

TEST(Course, WhatLastsSaysNothingOfIt) {
  auto const then = with({{"diabetes", true}, {"limping", true}});
  EXPECT_EQ(fared(then, with({{"limping", true}})), Fared::same);
  EXPECT_EQ(fared(with({{"diabetes", true}}), with({})), Fared::unknown) << "nothing is compared";
  EXPECT_EQ(fared(with({{"limping", false}}), with({})), Fared::unknown);
}

TEST(Course, TellsInASentenceHowOftenAndHow) {
  auto const then = with({{"limping", true}}, {"limping"});
  std::vector<cli::Visit> const visits = {visit(0, then), visit(20 * day_s, then)};
  auto const today = with({{"limping", true}, {"collapsed", true}}, {"limping"});
  EXPECT_EQ(cli::course_sentence(visits, today, std::nullopt, 2, 35 * day_s, *pack()),
            "limping: third visit for it in 5 weeks; worse than last time");
  EXPECT_EQ(cli::course_sentence(visits, then, std::nullopt, 2, 35 * day_s, *pack()),
            "limping: third visit for it in 5 weeks; the same as last time so far");
  EXPECT_EQ(cli::course_sentence(visits, then, std::nullopt, 0, 35 * day_s, *pack()),
            "limping: third visit for it in 5 weeks; the same as last time");
  EXPECT_EQ(cli::course_sentence(visits, with({{"sleepy", true}}, {"sleepy"}), std::nullopt, 0,
                                 35 * day_s, *pack()),
            "");
}

TEST(Course, SaysYesToWhatThePackAsksOfIt) {
  auto const then = with({{"limping", true}}, {"limping"});
  auto const same = with({{"limping", true}}, {"limping"});
  auto const worse = with({{"limping", true}, {"collapsed", true}}, {"limping"});
  auto const said = [&](std::time_t after, Case const& today) {
    return cli::signs_said_by({visit(0, then)}, today, std::nullopt, after * day_s, *pack());
  };
  EXPECT_EQ(said(3, same), std::vector<SignId>{});
  EXPECT_EQ(said(14, same), std::vector{sign("seen_before")});
  EXPECT_EQ(said(3, worse), std::vector{sign("worse")});
  EXPECT_EQ(said(31, worse), std::vector{sign("seen_before")});
  EXPECT_EQ(said(14, with({{"sleepy", true}}, {"sleepy"})), std::vector<SignId>{});
}

}  // namespace
}  // namespace flinch::test
