#include "property/random_pack.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "model/told.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

constexpr int yes_signs =
    8;  // y0..y7; y1 is part of y0, y2 of y1; y3 applies if x0 is not its first step
constexpr int site_signs = 2;  // s0, s1
constexpr int step_signs = 2;  // x0, x1
constexpr int causes = 5;

class Writer {
 public:
  Writer(unsigned seed, Alarms alarms) : random_(seed), silence_(seed), alarms_(alarms) {}

  std::string write() {
    out_ = preamble;
    out_ += "site paw \"paw\" in carpus\n";
    signs();
    for (int i = 0; i < causes; ++i)
      out_ += fmt::format(
          "cause c{} \"c{}\"\n  affects {}\n  base {} per 1000\n  see {}\n  because \"x\"\n  cite "
          "judgement\n",
          i, i, pick({"elbow", "belly", "foreleg"}), number(1, 100),
          pick({"now", "soon", "watch"}));
    int const rules = number(4, 12);
    for (int i = 0; i < rules; ++i) rule(i);
    out_ += fmt::format("overlap o shares {}%: r0, r1, r2\n", number(0, 100));
    int const alarms = number(1, 5);
    for (int i = 0; i < alarms; ++i) alarm(i);
    return out_;
  }

 private:
  int number(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  bool chance(int percent) { return number(1, 100) <= percent; }
  std::string pick(std::vector<std::string> const& from) {
    return from[static_cast<std::size_t>(number(0, static_cast<int>(from.size()) - 1))];
  }

  void sign(std::string const& name, std::string const& clauses) {
    out_ += fmt::format("sign {} \"{}\"\n  ask \"?\"\n  seen by anyone\n{}", name, name, clauses);
  }
  std::string mentioned() {
    return fmt::format("  mentioned {}%\n", std::uniform_int_distribution(0, 100)(silence_));
  }
  void signs() {
    for (int i = 0; i < yes_signs; ++i) {
      std::string clauses = "  answer yes or no\n";
      if (i == 1) clauses += "  part of y0\n";
      if (i == 2) clauses += "  part of y1\n";
      if (i == 3) clauses += "  applies if x0 at least less\n";
      if (i == 4) clauses += "  part of y3\n";
      if (i % 2 == 0) clauses += mentioned();
      sign(fmt::format("y{}", i), clauses);
    }
    for (int i = 0; i < site_signs; ++i)
      sign(fmt::format("s{}", i), "  answer sites\n" + mentioned());
    for (int i = 0; i < step_signs; ++i)
      sign(fmt::format("x{}", i), "  answer steps normal, less, nothing, worse\n" + mentioned());
    sign("o0", "  answer one of pink, pale, red\n");
    sign("n0", "  answer number in C from 30 to 44\n");
  }

  std::string test() {
    switch (number(0, 9)) {
      case 0:
        return fmt::format("s{} at {}", number(0, 1),
                           pick({"elbow", "left elbow", "foreleg", "right foreleg", "belly",
                                 "carpus", "left paw"}));
      case 1:
        return fmt::format("s{}", number(0, 1));
      case 2:
        return fmt::format("x{} at least {}", number(0, 1), pick({"less", "nothing", "worse"}));
      case 3:
        return fmt::format("(x{} is {})", number(0, 1),
                           pick({"less", "nothing", "normal or worse"}));
      case 4:
        return fmt::format("(o0 is {})", pick({"pink", "pale", "red", "pale or red"}));
      case 5:
        return fmt::format("n0 {} {} C", pick({">", ">=", "<", "<="}), number(36, 41));
      default:
        return fmt::format("y{}", number(0, yes_signs - 1));
    }
  }
  std::string condition(int depth, int negations) {
    if (depth == 0 || chance(30)) return chance(negations) ? "not " + test() : test();
    std::string out;
    int const parts = number(2, 3);
    bool const counted = chance(20);
    auto const word = counted ? ", " : chance(50) ? " and " : " or ";
    for (int i = 0; i < parts; ++i) out += (i == 0 ? "" : word) + condition(depth - 1, negations);
    if (counted) return fmt::format("at least {} of ({})", number(1, parts), out);
    return "(" + out + ")";
  }

  std::string shares(int bands) {
    // Whole per cents that sum to 100.
    std::string out;
    int left = 100;
    for (int i = 0; i < bands; ++i) {
      int const share = i + 1 == bands ? left : number(0, left);
      out += fmt::format(" {}", share);
      left -= share;
    }
    return out;
  }
  void rule(int i) {
    out_ += fmt::format("rule r{} \"r{}\"\n", i, i);
    bool const banded = chance(30);
    int bands = 0;
    if (banded) {
      switch (number(0, 2)) {
        case 0:
          out_ += "  over n0: under 38 C, 38 to 39.5 C, over 39.5 C\n";
          bands = 3;
          break;
        case 1:
          out_ += "  over x0: normal, less or nothing, worse\n";
          bands = 3;
          break;
        default:
          out_ += "  over age: under 1 year, 1 to 7 years, over 7 years\n";
          bands = 3;
      }
    } else {
      out_ += "  if " + condition(number(0, 3), 30) + "\n";
    }
    auto const frequency = [&] {
      return banded ? shares(bands) : fmt::format(" {}%", number(0, 100));
    };
    out_ += "  usual" + frequency() + "\n";
    bool any = false;
    for (int cause = 0; cause < causes; ++cause) {
      if (!chance(45) && (any || cause + 1 < causes)) continue;
      any = true;
      out_ += fmt::format("  in c{}{}\n", cause, frequency());
    }
    out_ += "  because \"x\"\n  cite judgement\n";
  }
  void alarm(int i) {
    out_ += fmt::format(
        "alarm a{} \"a{}\"\n  if {}\n  see {}\n{}  because \"x\"\n  cite judgement\n", i, i,
        condition(number(0, 2), alarms_ == Alarms::sound ? 15 : 30), pick({"now", "soon"}),
        alarms_ == Alarms::sound ? "" : "  on purpose \"chance\"\n");
  }

  std::mt19937 random_;
  std::mt19937 silence_;  ///< apart, so that what is mentioned changes nothing else
  Alarms alarms_;
  std::string out_;
};

}  // namespace

std::string random_pack(unsigned seed, Alarms alarms) { return Writer(seed, alarms).write(); }

Answer random_answer(Pack const& pack, SignId sign, std::mt19937& random) {
  auto const number = [&](std::size_t high) {
    return std::uniform_int_distribution<std::size_t>(0, high)(random);
  };
  auto const& s = pack[sign];
  switch (s.kind) {
    case AnswerKind::yes_or_no:
      return number(1) == 1;
    case AnswerKind::steps:
    case AnswerKind::one_of:
      return Choice{static_cast<std::uint32_t>(number(s.values.size() - 1))};
    case AnswerKind::breed:
      return Choice{static_cast<std::uint32_t>(number(pack.breeds.breeds.size() - 1))};
    case AnswerKind::number:
      return s.low + (s.high - s.low) * static_cast<double>(number(28)) / 28;
    case AnswerKind::sites:
      break;
  }
  if (number(4) == 0) return Findings{false, true, {}, {}};
  Findings findings;
  auto const mark = [&] {
    SiteMark out{SiteId{static_cast<std::uint32_t>(number(pack.sites.size() - 1))}, Side::any};
    if (pack[out.site].paired) out.side = static_cast<Side>(number(2));
    return out;
  };
  for (auto i = number(2); i > 0; --i) findings.found.push_back(mark());
  for (auto i = number(3); i > 0; --i) findings.clear.push_back(mark());
  findings.found_somewhere = !findings.found.empty() || number(3) == 0;
  return findings;
}

Case random_case(Pack const& pack, std::mt19937& random) {
  Case out;
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    SignId const sign{i};
    if (sign == dog_sign::breed && pack.breeds.breeds.empty()) continue;
    auto const dice = std::uniform_int_distribution(0, 9)(random);
    if (dice == 0) out.cannot_tell.push_back(sign);
    if (dice >= 5) out.answers.emplace_back(sign, random_answer(pack, sign, random));
  }
  return out;
}

void add_complaint(Pack const& pack, Case& dog, std::mt19937& random) {
  Told const is_told(pack);
  for (auto const& [sign, answer] : dog.answers)
    if (is_told(sign, answer) && std::uniform_int_distribution(0, 2)(random) == 0)
      dog.came_for.push_back(sign);
  std::shuffle(dog.came_for.begin(), dog.came_for.end(), random);
}

}  // namespace flinch::test
