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
