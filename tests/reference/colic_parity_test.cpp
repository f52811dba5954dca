// The engine against the naive Bayes classifier of R's e1071 (`naiveBayes`) on real data: 300
// horses with colic, from R package VIM (data `colic`, after the UCI Machine Learning Repository);
// surgical lesion or not, from the signs, vitals in bands, missing values kept unknown.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <sstream>

#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

std::string output_of(std::string const& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return out;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    out.append(buffer.data(), got);
  return pclose(pipe) == 0 ? out : "";
}

std::vector<std::string> words(std::string const& line) {
  std::istringstream in(line);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

// Shares as the language writes them, in per cent.
std::string shares(std::vector<std::string> const& row) {
  std::string out;
  for (std::size_t i = 1; i < row.size(); ++i)
    out += fmt::format(" {:.17f}", 100 * std::stod(row[i]));
  return out;
}

struct ColicSign {
  std::string name;
  bool is_number = false;
};

struct Colic {
  std::vector<ColicSign> signs;
  std::string pack;
  struct Horse {
    double posterior = 0;
    std::vector<std::string> answers;
  };
  std::vector<Horse> horses;
};

// The pack written from R's frequency tables: "medical" is not named by the rules, so it has the
// usual frequencies, those of the horses without a surgical lesion.
Colic read_colic(std::string const& text) {
  Colic out;
  std::istringstream lines(text);
  std::string rules;
  std::string signs;
  std::string causes;
  for (std::string line; std::getline(lines, line);) {
    auto const row = words(line);
    if (row.empty()) continue;
    if (row[0] == "prior") {
      auto const cause = [](std::string const& name, std::string const& base) {
        return fmt::format(
            "cause {} \"{}\"\n  base {} per 1000\n  see watch\n  because \"x\"\n  cite vim\n", name,
            name, base);
      };
      causes = cause("medical", row.at(1)) + cause("surgical", row.at(2));
    } else if (row[0] == "sign") {
      out.signs.push_back({row.at(1), row.at(2) == "bands"});
      std::string bands;
      signs += fmt::format("sign {} \"{}\"\n  ask \"?\"\n  seen by clinic\n", row[1], row[1]);
      if (row[2] == "bands") {
        signs += "  answer number from 0 to 400\n";
        bands = fmt::format("under {}, {} to {}, over {}", row.at(3), row[3], row.at(4), row[4]);
      } else {
        std::string values;
        for (int i = 1; i <= std::stoi(row.at(3)); ++i)
          values += fmt::format("{}v{}", i == 1 ? "" : ", ", i);
        signs += "  answer one of " + values + "\n";
        bands = values;
      }
      rules += fmt::format("rule {} \"{}\"\n  over {}: {}\n", row[1], row[1], row[1], bands);
    } else if (row[0] == "no") {
      rules += "  usual" + shares(row) + "\n";
    } else if (row[0] == "yes") {
      rules += "  in surgical" + shares(row) + "\n  because \"x\"\n  cite vim\n";
    } else if (row[0] == "case") {
      out.horses.push_back({std::stod(row.at(1)), {row.begin() + 2, row.end()}});
    }
  }
  out.pack =
      "pack colic \"Horse colic\"\n  species horse\n  unlisted 0%\n  hold 0.0001% to 99.9999%\n"
      "source vim\n  text \"R package VIM, data colic\"\n"
      "tier watch \"Watch\"\n  within 1 day\n  say \"x\"\n" +
      signs + causes + rules;
  return out;
}

TEST(ColicParity, PosteriorsEqualThoseOfNaiveBayesInR) {
  auto const text = output_of(std::string(FLINCH_RSCRIPT) + " --vanilla " +
                              source_path("tests/reference/colic.R"));
  ASSERT_FALSE(text.empty())
      << "Rscript with r-cran-e1071 and r-cran-vim is needed; tests/run installs them";
  auto const colic = read_colic(text);
  ASSERT_EQ(colic.horses.size(), 300U);
  auto const loaded = load({{"pack.flinch", colic.pack}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  auto const& pack = *loaded.outcome.value;
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t unknown = 0;
  for (std::size_t i = 0; i < colic.horses.size(); ++i) {
    auto const& horse = colic.horses[i];
    ASSERT_EQ(horse.answers.size(), colic.signs.size());
    std::string yaml = "answers:\n";
    for (std::size_t s = 0; s < colic.signs.size(); ++s) {
      if (horse.answers[s] == "NA") {
        ++unknown;
        continue;
      }
      yaml += fmt::format("  {}: {}{}\n", colic.signs[s].name, colic.signs[s].is_number ? "" : "v",
                          horse.answers[s]);
    }
    auto const result = assessor.assess(case_of(*pack, yaml));
    EXPECT_NEAR(posterior(*pack, result, "surgical"), horse.posterior, 1e-9) << "horse " << i + 1;
  }
  EXPECT_GT(unknown, 500U) << "the data are known for their missing values";
}

}  // namespace
}  // namespace flinch::test
