// What a desk keeps in a call that another one writes into too.
#include "book/kept_call.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "book/call_case.hpp"
#include "book/limping_pack.hpp"
#include "book/scratch_book.hpp"
#include "book/urgency_of_all.hpp"

namespace flinch::test {
namespace {

using cli::Book;
using nlohmann::json;

std::shared_ptr<Pack const> const& pack() {
  static auto const its = limping_pack(R"(
sign collapsed
  ask "Has it collapsed?"
  answer yes or no
  seen by anyone
alarm down "Collapsed"
  if collapsed
  see now
  say "x"
  because "x"
  cite judgement
)");
  return its;
}

Case with(std::vector<std::pair<char const*, bool>> const& answers) {
  Case out;
  for (auto const& [name, answer] : answers) {
    out.answers.emplace_back(*pack()->find_sign(name), answer);
    if (answer) out.came_for.push_back(*pack()->find_sign(name));
  }
  return out;
}

struct Two {
  ScratchBook scratch;
  Tables tables{pack()};
  Book book = scratch.open();

  cli::DeskBook desk_book() const {
    cli::DeskBook out;
    out.place = scratch.place();
    out.book = std::make_unique<Book>(scratch.open());
    return out;
  }
  std::unique_ptr<cli::KeptCall> going_on(cli::CallId call, char const* who) {
    cli::CallStart start;
    start.call = book.call(call);
    start.patient = cli::CallReader(*pack()).read(*start.call)->patient;
    return std::make_unique<cli::KeptCall>(desk_book(), start, tables, cli::DeskName::here(who),
                                           3000);
  }
};

TEST(KeptCall, ADeskThatKnowsLessLowersNoTierAndLosesNoComplaint) {
  Two two;
  cli::KeptCall kim(two.desk_book(), {}, two.tables, cli::DeskName::here("Kim"), 1000);
  ASSERT_EQ(kim.keep(with({{"limping", true}}), {}, 1000).trouble, "");
  auto const call = *kim.call();
  auto const alex = two.going_on(call, "Alex");
  ASSERT_EQ(alex->keep(with({{"limping", true}, {"collapsed", true}}), {}, 1100).trouble, "");
  ASSERT_EQ(two.book.call(call)->tier, "now");
  // Kim does not see what Alex recorded, and takes the complaint back.
  auto const kept = kim.keep(with({{"limping", false}}), {}, 1200);
  EXPECT_NE(kept.notice.find("Alex wrote into this call too"), std::string::npos) << kept.notice;
  auto const stands = *two.book.call(call);
  EXPECT_EQ(stands.tier, "now");
  EXPECT_EQ(json::parse(stands.line)["came for"], json::parse(R"(["collapsed"])"));
  EXPECT_EQ(json::parse(stands.line)["answers"],
            json::parse(R"({"limping": "no", "collapsed": "yes"})"));
  EXPECT_EQ(kim.keep(with({}), {}, 1300).notice, "") << "told once";
  EXPECT_EQ(two.book.call(call)->tier, "now");
}

TEST(KeptCall, WhatAnotherSaidLastIsJudgedAtTheEnd) {
  Two two;
  cli::KeptCall kim(two.desk_book(), {}, two.tables, cli::DeskName::here("Kim"), 1000);
  auto const mine = with({{"collapsed", true}});
  ASSERT_EQ(kim.keep(mine, {}, 1000).trouble, "");
  auto const call = *kim.call();
  two.book.save(call, {1100, "Alex", R"({"answers": {"limping": "yes"}})", "watch"});
  ASSERT_EQ(two.book.call(call)->tier, "watch");
  ASSERT_EQ(kim.keep(mine, {}, 1200).trouble, "");
  EXPECT_EQ(two.book.call(call)->tier, "now");
}

TEST(KeptCall, WhatWaitedIsJudgedAtOnceWithWhatOthersSaidAndThePersonIsTold) {
  Two two;
  ::setenv("XDG_STATE_HOME", two.scratch.folder().c_str(), 1);
  cli::KeptCall kim(two.desk_book(), {}, two.tables, cli::DeskName::here("Kim"), 1000);
  ASSERT_EQ(kim.keep(with({{"limping", true}}), {}, 1000).trouble, "");
  auto const call = *kim.call();
  cli::CallStart start;
  start.call = two.book.call(call);
  start.patient = with({{"limping", true}});
  cli::DeskBook away;
  away.place = two.scratch.place();
  away.trouble = "away";
  cli::KeptCall later(std::move(away), start, two.tables, cli::DeskName::here("Kim"), 1100);
  auto said = start.patient;
  said.name = "Moss";
  EXPECT_NE(later.keep(said, {}, 1100).notice.find("goes on in a case file"), std::string::npos);
  two.book.save(call, {1200, "Alex", R"({"answers": {"collapsed": "yes"}})"});
  auto const told = later.end();
  EXPECT_NE(told.find("Others wrote into call"), std::string::npos) << told;
  EXPECT_NE(told.find("its urgency is \"" + pack()->tiers[0].title), std::string::npos) << told;
  EXPECT_EQ(two.book.call(call)->tier, "now");
  EXPECT_EQ(two.book.call(call)->patient_name, "Moss");
}

TEST(KeptCall, ATierThatThisPackDoesNotHaveStays) {
  Two two;
  Assessor assessor(two.tables);
  cli::CallLine together;
  together.tier = "today";
  together.line = R"({"answers": {"limping": "yes"}})";
  EXPECT_EQ(cli::urgency_of_all(assessor, *pack(), "watch", together), "today");
  EXPECT_EQ(cli::urgency_of_all(assessor, *pack(), "today", {}), "today");
  together.line = R"({"answers": {"collapsed": "yes"}})";
  EXPECT_EQ(cli::urgency_of_all(assessor, *pack(), "watch", together), "now")
      << "nothing is more urgent than that";
}

TEST(KeptCall, WhoeverTakesInALowerUrgencyIsTold) {
  auto const told = [&](char const* before, char const* now) {
    return cli::told_otherwise(*pack(), {cli::CallId{3}, false, before, now}, now);
  };
  EXPECT_NE(told("now", "watch").find("lowers the urgency of call 3 to \"Watch\""),
            std::string::npos);
  EXPECT_NE(told("now", "").find("to none"), std::string::npos);
  EXPECT_NE(told("today", "watch"), "") << "nobody knows which is the more urgent";
  EXPECT_EQ(told("watch", "now"), "");
  EXPECT_EQ(told("", "watch"), "");
}

TEST(KeptCall, ATierThatFallsAwayIsCleared) {
  Two two;
  cli::KeptCall kim(two.desk_book(), {}, two.tables, cli::DeskName::here("Kim"), 1000);
  auto patient = with({{"collapsed", true}});
  ASSERT_EQ(kim.keep(patient, {}, 1000).trouble, "");
  auto const call = *kim.call();
  ASSERT_EQ(two.book.call(call)->tier, "now");
  patient = {};
  patient.name = "Moss";
  ASSERT_EQ(kim.keep(patient, {}, 1100).trouble, "");
  auto const tier = Assessor(two.tables).judge(patient).tier;
  EXPECT_EQ(two.book.call(call)->tier, tier ? tier_name(*pack(), tier) : "");
}

}  // namespace
}  // namespace flinch::test
