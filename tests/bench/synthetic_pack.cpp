#include "bench/synthetic_pack.hpp"

#include <fmt/format.h>

#include <iterator>

#include "support/small_pack.hpp"

namespace flinch::bench {
namespace {

constexpr std::size_t causes = 60;

struct RuleParts {
  std::size_t sign;
  std::size_t usual;
  std::size_t first, second, third;
};

RuleParts parts(std::size_t rule, std::size_t rules) {
  return {rule % (rules / 4), 1 + rule * 7 % 40, rule % causes, (rule + 7) % causes,
          (rule + 23) % causes};
}

constexpr char const* because =
    "An invented reason of about the length that a real rule gives for itself.";

}  // namespace

std::string synthetic_pack(std::size_t rules) {
  std::string out = test::preamble;
  auto const put = std::back_inserter(out);
  for (std::size_t i = 0; i < causes; ++i)
    fmt::format_to(put,
                   "cause c{} \"Cause {}\"\n  base {} per 1000\n  see watch\n  because \"x\"\n  "
                   "cite judgement\n",
                   i, i, i + 1);
  for (std::size_t i = 0; i < rules / 4; ++i)
    fmt::format_to(
        put,
        "sign s{} \"sign {}\"\n  ask \"Is sign {} there?\"\n  answer yes or no\n  seen by anyone\n",
        i, i, i);
  for (std::size_t i = 0; i < rules; ++i) {
    auto const p = parts(i, rules);
    fmt::format_to(put,
                   "rule r{} \"Rule {}\"\n  if s{} and not s{}\n  usual {}%\n  in c{} 60%, c{} 30% "
                   "of 70 from judgement, "
                   "c{} 5%\n  because \"{}\"\n  cite judgement\n",
                   i, i, p.sign, (p.sign + 1) % (rules / 4), p.usual, p.first, p.second, p.third,
                   because);
  }
  return out;
}

std::string wide_pack(std::size_t causes_wanted, std::size_t signs) {
  constexpr std::size_t named = 20;
  constexpr std::size_t signs_an_alarm = 20;
  std::string out = test::preamble;
  auto const put = std::back_inserter(out);
  for (std::size_t i = 0; i < causes_wanted; ++i)
    fmt::format_to(put,
                   "cause c{0} \"Cause {0}\"\n  base {1} per 1000\n  see watch\n  because \"x\"\n"
                   "  cite judgement\n",
                   i, 1 + i % 9);
  for (std::size_t i = 0; i < signs; ++i) {
    fmt::format_to(put,
                   "sign s{0} \"sign {0}\"\n  ask \"Is sign {0} there?\"\n  answer yes or no\n"
                   "  seen by anyone\nrule r{0} \"Rule {0}\"\n  if s{0}\n  usual {1}%\n",
                   i, 1 + i * 7 % 40);
    // Steps through all causes, each rule from another place: named ones stay different.
    for (std::size_t k = 0; k < named; ++k)
      fmt::format_to(put, "  in c{} {}%\n", (i * 13 + k * 7) % causes_wanted, 20 + (i + k) % 70);
    out += "  because \"x\"\n  cite judgement\n";
    if (i % signs_an_alarm == 0)
      fmt::format_to(put,
                     "alarm a{0} \"Alarm {0}\"\n  if s{0}\n  see now\n  because \"x\"\n  cite "
                     "judgement\n",
                     i);
  }
  return out;
}

std::string synthetic_yaml(std::size_t rules) {
  std::string out = "rules:\n";
  auto const put = std::back_inserter(out);
  for (std::size_t i = 0; i < rules; ++i) {
    auto const p = parts(i, rules);
    fmt::format_to(
        put,
        "  - name: r{}\n    title: \"Rule {}\"\n    if: [s{}, {{not: s{}}}]\n    usual: {}\n    "
        "in:\n"
        "      - {{cause: c{}, frequency: 60}}\n      - {{cause: c{}, frequency: 30, of: 70, from: "
        "judgement}}\n"
        "      - {{cause: c{}, frequency: 5}}\n    because: \"{}\"\n    cite: [judgement]\n",
        i, i, p.sign, (p.sign + 1) % (rules / 4), p.usual, p.first, p.second, p.third, because);
  }
  return out;
}

}  // namespace flinch::bench
