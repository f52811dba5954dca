// Answers that cannot both be so are told at the desk when they arise.
#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "call/call_model.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

TEST(CallClash, ASexThatCannotHaveItIsToldWhenItArises) {
  Tables const tables(shipped_pack());
  cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
  press(call, "labour stopped");
  ASSERT_FALSE(call.state().found.empty());
  press(call, "1");
  EXPECT_TRUE(call.state().result.judgement.contradictions.empty());
  press(call, "male neutered\n");
  ASSERT_FALSE(call.state().result.judgement.contradictions.empty());
  EXPECT_TRUE(call.state().is_trouble);
  EXPECT_NE(call.state().message.find("cannot apply"), std::string::npos) << call.state().message;
  press(call, "\x1a");
  EXPECT_TRUE(call.state().result.judgement.contradictions.empty());
}

TEST(CallClash, AYesBesideADegreeThatSaysNoneIsToldWhenItArises) {
  Tables const tables(shipped_pack());
  auto const& pack = tables.pack();
  auto const kind = *pack.find_sign("wound_kind");
  Case patient;
  patient.answers.emplace_back(kind, Choice{0});
  cli::CallModel call(tables, patient, cli::Keeping::in_memory, desk_clock);
  ASSERT_NE(call.state().result.find(kind), nullptr);
  press(call, "wound\n");
  if (call.state().result.find(*pack.find_sign("wound")) == nullptr) press(call, "1");
  ASSERT_NE(call.state().result.find(*pack.find_sign("wound")), nullptr);
  EXPECT_TRUE(call.state().is_trouble);
  EXPECT_NE(call.state().message.find("Told before: " + pack[kind].label), std::string::npos)
      << call.state().message;
}

}  // namespace
}  // namespace flinch::test
