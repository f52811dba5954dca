#include "property/random_pack.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "model/fit.hpp"
#include "model/told.hpp"

namespace flinch::test {
namespace {

// y0 to y7: y1 is part of y0, y2 of y1; y3 applies if x0 is not its first step; y4 is part of y3,
// y5 of s1; y7 applies if s4.
constexpr int yes_signs = 8;
constexpr int site_signs = 5;  // s0 to s4: s1 is part of s0, s2 of y7, s3 of y5
constexpr int step_signs = 2;  // x0, x1
constexpr int causes = 5;
constexpr int taken_things = 4;  // t0, t1 share the amount m0; t2, t3 have m1

constexpr char const* breed_table =
    R"(groups: {long_backed: "Long back"}
breeds:
  dachshund: {name: Dachshund, size: small, weight: 7 to 12 kg, groups: [long_backed]}
  whippet: {name: Whippet, size: medium, weight: 10 to 15 kg}
  great_dane: {name: Great Dane, size: giant, weight: 50 to 80 kg}
)";

class Writer {
 public:
  Writer(unsigned seed, Alarms alarms, Wording wording)
      : seed_(seed),
        random_(seed),
        silence_(seed),
        wider_(seed),
        calm_(seed),
        alarms_(alarms),
        wording_(wording) {}

  std::string write() {
    out_ = preamble;
    out_.insert(out_.find("  unlisted"),
                "  breed table \"breeds.yaml\"\n  sizes toy to 5 kg, small to 10 kg, medium to "
                "25 kg, large to 45 kg, giant\n  grown at 1 year\n");
    // Two packs of three have a sex that is never neutered.
    if (seed_ % 3 != 0)
      out_.insert(out_.find("  unlisted"),
                  fmt::format("  never neutered {}\n", seed_ % 3 == 1 ? "female" : "male"));
    out_ += "breeds heavy great_dane\n";
    out_ += "site paw \"paw\" in carpus\n";
    signs();
    meanings();
    for (int i = 0; i < causes; ++i)
      out_ += fmt::format(
          "cause c{} \"c{}\"\n  affects {}\n  base {} per 1000\n  see {}\n  because \"x\"\n  cite "
          "judgement\n",
          i, i, pick({"elbow", "belly", "foreleg"}), number(1, 100),
          pick({"now", "soon", "watch"}));
    out_ += "family f0 \"f0\": c0, c1, c2\nfamily f1: c2, c3, c4\n";
    int const rules = number(4, 12);
    for (int i = 0; i < rules; ++i) rule(i);
    out_ += fmt::format("overlap o shares {}%: r0, r1, r2\n", number(0, 100));
    int const alarms = number(1, 5);
    for (int i = 0; i < alarms; ++i) alarm(i);
    out_ += written_out_;
    for (int i = 0; i < taken_things; ++i) taken(i);
    doses();
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
    if (!chance(12)) return;
    auto const kind = name.front();
    floor(name, "now",
          kind == 's'   ? pick({"", " at elbow", " at left foreleg"})
          : kind == 'x' ? pick({" at least nothing", " is worse"})
          : kind == 'o' ? " is pale or red"
          : kind == 'n' ? pick({" >= 40 C", " < 36.5 C"})
                        : "");
    if (kind == 'x' && chance(50)) floor(name, "soon", " at least less");
  }
  void floor(std::string const& sign, std::string const& tier, std::string const& test) {
    auto const calm = unless();
    if (wording_ == Wording::written_out) {
      written_out_ += fmt::format(
          "alarm {0}_alone_{1}\n  if {0}{2}\n{3}  see {1}\n  because \"x\"\n  cite judgement\n",
          sign, tier, test, calm.empty() ? "" : " " + calm + "\n");
      return;
    }
    auto const bare = test.starts_with(" is ") ? test.substr(3) : test;
    out_ += fmt::format("  alone see {}{}{} because \"x\" cite judgement\n", tier,
                        bare.empty() ? bare : " if" + bare, calm);
  }
  // Every third alarm is held back by something.
  std::string unless() {
    auto const calm_number = [&](int high) {
      return std::uniform_int_distribution(0, high)(calm_);
    };
    if (calm_number(2) != 0) return "";
    auto const test = [&]() -> std::string {
      switch (calm_number(6)) {
        case 0:
          return fmt::format("s{} at elbow", calm_number(site_signs - 1));
        case 1:
          return fmt::format("x{} at least less", calm_number(1));
        case 2:
          return "(o0 is pink)";
        case 3:
          return "age >= 7 years";
        case 4:
          return "n0 < 38 C";
        default:
          return fmt::format("y{}", calm_number(yes_signs - 1));
      }
    };
    auto const one = test();
    if (calm_number(2) != 0) return " unless " + one;
    auto const other = test();
    auto const word = calm_number(1) == 0 ? "and" : "or not";
    return one == other ? " unless " + one : fmt::format(" unless {} {} {}", one, word, other);
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
      if (i == 5) clauses += "  part of s1\n";
      if (i == 7) clauses += "  applies if s4\n";
      if (i % 2 == 0) clauses += mentioned();
      sign(fmt::format("y{}", i), clauses);
    }
    for (int i = 0; i < site_signs; ++i) {
      std::string clauses = "  answer sites\n";
      if (i == 1) clauses += "  part of s0\n";
      if (i == 2) clauses += "  part of y7\n";
      if (i == 3) clauses += "  part of y5\n";
      sign(fmt::format("s{}", i), clauses + mentioned());
    }
    for (int i = 0; i < step_signs; ++i)
      sign(fmt::format("x{}", i), "  answer steps normal, less, nothing, worse\n" + mentioned());
    sign("o0", "  answer one of pink, pale, red\n");
    sign("n0", "  answer number in C from 30 to 44\n");
    for (auto const* wide :
         {"sign p0 \"p0\"\n  ask \"?\"\n  seen by anyone\n  answer yes or no\n",
          "sign p1 \"p1\"\n  ask \"?\"\n  seen by anyone\n  answer yes or no\n  part of p0\n",
          "sign k0 \"k0\"\n  ask \"?\"\n  seen by anyone\n  answer one of none, bait, pill, "
          "plant\n",
          "sign m0 \"m0\"\n  ask \"?\"\n  seen by anyone\n  answer number in mg from 0 to 2800\n",
          "sign m1 \"m1\"\n  ask \"?\"\n  seen by anyone\n  answer number in g from 0 to 28\n",
          "sign h0 \"h0\"\n  ask \"?\"\n  seen by anyone\n  answer number in hours from 0 to 56\n"})
      out_ += wide;
  }

  // Every way to write a dose; what is given hangs on no condition.
  void doses() {
    for (int i = 0; i < 3; ++i) {
      auto const amount = wide_pick({"2 mg per kg", "0.6 to 1 mg per kg", "1.5 mL", "10 minutes",
                                     "2", "1 to 2%", "30 to 60 mg per kg^0.75"});
      auto const way = wide_pick({"", " by mouth", " by injection", " by injection into the muscle",
                                  " under the skin", " into the vein", " on the skin"});
      auto const interval =
          wide_pick({"", " every 8 hours", " every 6 to 8 hours", " every 90 minutes to 2 hours",
                     " once a day", " twice a day", " three times a day", " four times a day"});
      out_ += fmt::format(
          "care d{} \"d{}\"\n  give {}{}{}{}\n  grade C\n  because \"x\"\n  cite judgement\n", i, i,
          amount, way, interval, wide_pick({"", " for 3 days"}));
    }
  }

  // What the packs did not have from the first on is drawn apart, so that it changes nothing else.
  int wide_number(int low, int high) { return std::uniform_int_distribution(low, high)(wider_); }
  std::string wide_pick(std::vector<std::string> const& from) {
    return from[static_cast<std::size_t>(wide_number(0, static_cast<int>(from.size()) - 1))];
  }
  std::string wide_test() {
    return wide_pick({"p0", "p1", "(k0 is pill)", "(k0 is bait or plant)", "m0 >= 500 mg",
                      "m1 < 3 g", "breed in heavy", "breed in long_backed", "size at least large",
                      "weight < 12 kg", "age >= 7 years", "(sex is male)", "(neutered is yes)"});
  }
  // Drawn one after the other: compilers differ in which argument they reckon first.
  void meanings() {
    auto const one = wide_test();
    auto const word = wide_pick({"and", "or", "and not"});
    auto const other = wide_test();
    out_ += one == other ? fmt::format("means named \"named\": {}\n", one)
                         : fmt::format("means named \"named\": {} {} {}\n", one, word, other);
    out_ += fmt::format("means bait_eaten: p1 and k0 is bait\nmeans pill_eaten: p1 and k0 is {}\n",
                        wide_pick({"pill", "pill or plant"}));
  }
  // An amount of 0 per kg is a level as well: then no amount is safe.
  void taken(int i) {
    out_ += fmt::format("care t{} \"t{}\"\n  taken m{}\n", i, i, i < 2 ? 0 : 1);
    if (wide_number(0, 1) == 0) out_ += "  since h0\n";
    int least = wide_number(0, 3) == 0 ? 0 : wide_number(1, 40);
    int tier = wide_number(0, 2);
    for (int level = wide_number(1, 3); level > 0; --level) {
      out_ += fmt::format("  level {} mg per kg{} \"harm\"\n", least,
                          tier == 2   ? " see now"
                          : tier == 1 ? " see soon"
                                      : "");
      least += wide_number(1, 200);
      tier = wide_number(tier, 2);
    }
    auto const fit = i == 0   ? std::string("bait_eaten")
                     : i == 1 ? std::string("pill_eaten")
                     : i == 2 ? wide_pick({"p1 and k0 is plant", "p0", "p1 and named"})
                              : wide_pick({"p1 and not k0 is plant", ""});
    if (!fit.empty()) out_ += fmt::format("  fit if {}\n", fit);
    out_ += "  how \"x\"\n  grade C\n  because \"x\"\n  cite judgement\n";
  }

  std::string test() {
    if (wide_number(0, 3) == 0) return wide_number(0, 4) == 0 ? "named" : wide_test();
    switch (number(0, 9)) {
      case 0:
        return fmt::format("s{} at {}", number(0, site_signs - 1),
                           pick({"elbow", "left elbow", "foreleg", "right foreleg", "belly",
                                 "carpus", "left paw"}));
      case 1:
        return fmt::format("s{}", number(0, site_signs - 1));
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
    // No part twice: that is an error.
    std::vector<std::string> seen;
    for (int i = 0; i < parts; ++i) {
      auto part = condition(depth - 1, negations);
      if (std::find(seen.begin(), seen.end(), part) != seen.end()) continue;
      out += (seen.empty() ? "" : word) + part;
      seen.push_back(std::move(part));
    }
    auto const needed = counted ? std::min(number(1, parts), static_cast<int>(seen.size())) : 0;
    if (seen.size() == 1) return seen.front();
    if (counted) return fmt::format("at least {} of ({})", needed, out);
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
    std::array<bool, 2> const by_family = {chance(25), chance(25)};
    std::array<bool, causes> named{};
    for (int cause = 0; cause < causes; ++cause) {
      // Two families that share a cause leave it to the rule.
      bool const must = cause == 2 ? by_family[0] && by_family[1]
                                   : cause + 1 == causes && !by_family[1] && !any(named);
      if (!chance(45) && !must) continue;
      named[static_cast<std::size_t>(cause)] = true;
      out_ += fmt::format("  in c{}{}\n", cause, frequency());
    }
    for (int family = 0; family < 2; ++family) {
      if (!by_family[static_cast<std::size_t>(family)]) continue;
      auto const figure = frequency();
      if (wording_ == Wording::short_hand) out_ += fmt::format("  in f{}{}\n", family, figure);
      for (int cause = 2 * family; cause < 2 * family + 3; ++cause)
        if (wording_ == Wording::written_out && !named[static_cast<std::size_t>(cause)])
          out_ += fmt::format("  in c{}{}\n", cause, figure);
    }
    out_ += "  because \"x\"\n  cite judgement\n";
  }
  static bool any(std::array<bool, causes> const& named) {
    return std::find(named.begin(), named.end(), true) != named.end();
  }
  void alarm(int i) {
    auto const calm = unless();
    out_ += fmt::format(
        "alarm a{} \"a{}\"\n  if {}\n  see {}\n{}{}  because \"x\"\n  cite judgement\n", i, i,
        condition(number(0, 2), alarms_ == Alarms::sound ? 15 : 30), pick({"now", "soon"}),
        alarms_ == Alarms::sound ? "" : "  on purpose \"chance\"\n",
        calm.empty() ? "" : " " + calm + "\n");
  }

  unsigned seed_;
  std::mt19937 random_;
  std::mt19937 silence_;  ///< apart, so that what is mentioned changes nothing else
  std::mt19937 wider_;
  std::mt19937 calm_;  ///< apart as well
  Alarms alarms_;
  Wording wording_;
  std::string written_out_;  // floors as the alarms that they are
  std::string out_;
};

}  // namespace

std::string random_pack(unsigned seed, Alarms alarms, Wording wording) {
  return Writer(seed, alarms, wording).write();
}

Loaded load_random_pack(unsigned seed, Alarms alarms, Wording wording) {
  return load({{"pack.flinch", random_pack(seed, alarms, wording)}, {"breeds.yaml", breed_table}});
}

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
    if (sign == patient_sign::breed && pack.breeds.breeds.empty()) continue;
    auto const dice = std::uniform_int_distribution(0, 9)(random);
    if (dice == 0) out.cannot_tell.push_back(sign);
    if (dice >= 5) out.answers.emplace_back(sign, random_answer(pack, sign, random));
  }
  return out;
}

void drop_misplaced(Pack const& pack, Case& patient) {
  for (auto& [sign, answer] : patient.answers) {
    auto* findings = std::get_if<Findings>(&answer);
    if (findings == nullptr) continue;
    auto const is_misplaced = [&, on = sign](SiteMark const& mark) {
      Report report;
      return !site_fits(pack, pack[on], mark, {}, report);
    };
    std::erase_if(findings->found, is_misplaced);
    std::erase_if(findings->clear, is_misplaced);
    if (is_clear_all_over(pack, pack[sign], *findings)) findings->clear_everywhere = true;
  }
  std::erase_if(patient.answers, [](auto const& answer) {
    auto const* findings = std::get_if<Findings>(&answer.second);
    return findings != nullptr && *findings == Findings{};
  });
}

void add_complaint(Pack const& pack, Case& patient, std::mt19937& random) {
  Told const is_told(pack);
  for (auto const& [sign, answer] : patient.answers)
    if (is_told(sign, answer) && std::uniform_int_distribution(0, 2)(random) == 0)
      patient.came_for.push_back(sign);
  std::shuffle(patient.came_for.begin(), patient.came_for.end(), random);
}

}  // namespace flinch::test
