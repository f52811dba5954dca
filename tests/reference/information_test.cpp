// Bits of information on a data set that every textbook of the subject works through.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "flinch/interview/gain.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

// Fourteen mornings: outlook, temperature, humidity, wind, and whether one played.
// Source: Quinlan JR (1986) Induction of decision trees. Machine Learning 1:81-106 (from memory).
constexpr std::array<std::array<char const*, 5>, 14> mornings = {{
    {"sunny", "hot", "high", "weak", "no"},
    {"sunny", "hot", "high", "strong", "no"},
    {"overcast", "hot", "high", "weak", "yes"},
    {"rain", "mild", "high", "weak", "yes"},
    {"rain", "cool", "normal", "weak", "yes"},
    {"rain", "cool", "normal", "strong", "no"},
    {"overcast", "cool", "normal", "strong", "yes"},
    {"sunny", "mild", "high", "weak", "no"},
    {"sunny", "cool", "normal", "weak", "yes"},
    {"rain", "mild", "normal", "weak", "yes"},
    {"sunny", "mild", "normal", "strong", "yes"},
    {"overcast", "mild", "high", "strong", "yes"},
    {"overcast", "hot", "normal", "weak", "yes"},
    {"rain", "mild", "high", "strong", "no"},
}};

struct Column {
  char const* name;
  std::size_t at;
  std::vector<char const*> values;
};

double share(Column const& column, char const* value, char const* played) {
  double with = 0;
  double all = 0;
  for (auto const& morning : mornings) {
    if (std::string(morning[4]) != played) continue;
    ++all;
    if (std::string(morning[column.at]) == value) ++with;
  }
  return 100 * with / all;
}

std::string rule_of(Column const& column) {
  std::string names;
  std::string values;
  std::map<std::string, std::string> shares;
  for (auto const* value : column.values) {
    names += fmt::format("{}{} \"{}\"", names.empty() ? "" : ", ", value, value);
    values += fmt::format("{}{}", values.empty() ? "" : ", ", value);
    for (auto const* played : {"yes", "no"})
      shares[played] += fmt::format(" {:.9f}", share(column, value, played));
  }
  return fmt::format(
      "sign {0} \"{0}\"\n  ask \"?\"\n  answer one of {1}\n  seen by anyone\n"
      "rule {0} \"{0}\"\n  over {0}: {2}\n  usual{3}\n  in played{3}\n  in stayed{4}\n"
      "  because \"x\"\n  cite judgement\n",
      column.name, names, values, shares["yes"], shares["no"]);
}

// "None of the listed" is made too rare to count, and so are the limits on frequencies.
std::shared_ptr<Pack const> weather_pack(std::vector<Column> const& columns) {
  std::string text =
      "pack weather \"Weather\"\n  unlisted 0.0000000001%\n  hold 0.0000000001% to 99.9999999999%\n"
      "source judgement\n  text \"x\"\n  grade judgement\n"
      "tier now \"Now\"\n  within 1 hour\n  harm 19\n  say \"x\"\n"
      "tier watch \"Watch\"\n  within 1 day\n  say \"x\"\n"
      "cause played \"Played\"\n  base 9 per 14\n  see watch\n  because \"x\"\n  cite judgement\n"
      "cause stayed \"Stayed\"\n  base 5 per 14\n  see watch\n  because \"x\"\n  cite judgement\n";
  for (auto const& column : columns) text += rule_of(column);
  return sound_pack({{"pack.flinch", text}});
}

// Published to three places: 0.246, 0.151, 0.048 and 0.029 bits; more places by arithmetic.
TEST(Information, GainsOnTheWeatherData) {
  auto const pack = weather_pack({{"outlook", 0, {"sunny", "overcast", "rain"}},
                                  {"warmth", 1, {"hot", "mild", "cool"}},
                                  {"humidity", 2, {"high", "normal"}},
                                  {"wind", 3, {"weak", "strong"}}});
  Tables const tables(pack);
  Gains gains(tables);
  auto const weighed = gains.weigh(Assessor(tables).assess({}));
  auto const bits = [&](char const* sign) { return weighed[index(*pack->find_sign(sign))].bits; };
  EXPECT_NEAR(bits("outlook"), 0.246750, 1e-6);
  EXPECT_NEAR(bits("humidity"), 0.151836, 1e-6);
  EXPECT_NEAR(bits("wind"), 0.048127, 1e-6);
  EXPECT_NEAR(bits("warmth"), 0.029223, 1e-6);
}

// A rule with one frequency, by the same counts: humidity is high, or not.
TEST(Information, APlainRuleTellsAsMuchAsItsTwoBands) {
  auto text = std::string(
      "pack weather \"Weather\"\n  unlisted 0.0000000001%\n"
      "source judgement\n  text \"x\"\n  grade judgement\n"
      "tier now \"Now\"\n  within 1 hour\n  harm 19\n  say \"x\"\n"
      "tier watch \"Watch\"\n  within 1 day\n  say \"x\"\n"
      "cause played \"Played\"\n  base 9 per 14\n  see watch\n  because \"x\"\n  cite judgement\n"
      "cause stayed \"Stayed\"\n  base 5 per 14\n  see watch\n  because \"x\"\n  cite judgement\n"
      "sign humid \"humid\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n"
      "rule humid \"humid\"\n  if humid\n  usual 3 per 9\n  in stayed 4 per 5\n  because \"x\"\n"
      "  cite judgement\n");
  auto const loaded = load({{"pack.flinch", text}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  Tables const tables(*loaded.outcome.value);
  Gains gains(tables);
  auto const weighed = gains.weigh(Assessor(tables).assess({}));
  EXPECT_NEAR(weighed[index(*tables.pack().find_sign("humid"))].bits, 0.151836, 1e-6);
}

}  // namespace
}  // namespace flinch::test
