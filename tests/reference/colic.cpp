#include "reference/colic.hpp"

#include <fmt/format.h>

#include <sstream>

#include "reference/outside.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

using Words = std::vector<std::string>;

// Shares as the language writes them, in per cent.
std::string shares(Words const& row) {
  std::string out;
  for (std::size_t i = 1; i < row.size(); ++i)
    out += fmt::format(" {:.17f}", 100 * std::stod(row[i]));
  return out;
}

std::string even_shares(std::size_t bands) {
  std::string out;
  for (std::size_t i = 0; i < bands; ++i)
    out += fmt::format(" {:.17f}", 100 / static_cast<double>(bands));
  return out + fmt::format(" of {} from vim", bands);
}

class ColicReader {
 public:
  void take(Words const& row) {
    if (row[0] == "prior")
      causes_ = cause("medical", row.at(1)) + cause("surgical", row.at(2));
    else if (row[0] == "sign")
      sign(row);
    else if (row[0] == "no")
      add_shares("  usual", row);
    else if (row[0] == "yes") {
      add_shares("  in surgical", row);
      for (auto* rules : {&fitted_, &even_}) *rules += "  because \"x\"\n  cite vim\n";
    } else if (row[0] == "case")
      out_.horses.push_back(
          {std::stod(row.at(1)), row.at(2) == "yes", {row.begin() + 3, row.end()}});
  }

  Colic finish() {
    auto const head =
        "pack colic \"Horse colic\"\n  species horse\n  unlisted 0%\n  hold 0.0001% to 99.9999%\n"
        "source vim\n  text \"R package VIM, data colic\"\n"
        "tier watch \"Watch\"\n  within 1 day\n  say \"x\"\n" +
        signs_ + causes_;
    out_.fitted_pack = head + fitted_;
    out_.even_pack = head + even_;
    return std::move(out_);
  }

 private:
  static std::string cause(std::string const& name, std::string const& base) {
    return fmt::format(
        "cause {} \"{}\"\n  base {} per 1000\n  see watch\n  because \"x\"\n  cite vim\n", name,
        name, base);
  }

  void sign(Words const& row) {
    bool const is_number = row.at(2) == "bands";
    out_.signs.push_back({row.at(1), is_number});
    std::string bands;
    signs_ += fmt::format("sign {} \"{}\"\n  ask \"?\"\n  seen by clinic\n", row[1], row[1]);
    if (is_number) {
      signs_ += "  answer number from 0 to 400\n";
      bands = fmt::format("under {}, {} to {}, over {}", row.at(3), row[3], row.at(4), row[4]);
    } else {
      std::string values;
      for (int i = 1; i <= std::stoi(row.at(3)); ++i)
        values += fmt::format("{}v{}", i == 1 ? "" : ", ", i);
      signs_ += "  answer one of " + values + "\n";
      bands = values;
    }
    for (auto* rules : {&fitted_, &even_})
      *rules += fmt::format("rule {} \"{}\"\n  over {}: {}\n", row[1], row[1], row[1], bands);
  }

  void add_shares(std::string const& clause, Words const& row) {
    fitted_ += clause + shares(row) + "\n";
    even_ += clause + even_shares(row.size() - 1) + "\n";
  }

  Colic out_;
  std::string signs_, causes_, fitted_, even_;
};

}  // namespace

Colic read_colic() {
  std::istringstream lines(output_of(std::string(FLINCH_RSCRIPT) + " --vanilla " +
                                     source_path("tests/reference/colic.R")));
  ColicReader reader;
  for (std::string line; std::getline(lines, line);)
    if (auto const row = words(line); !row.empty()) reader.take(row);
  return reader.finish();
}

std::string case_text(Colic const& colic, Horse const& horse) {
  auto out =
      fmt::format("outcome: {{cause: {}}}\nanswers:\n", horse.is_surgical ? "surgical" : "medical");
  for (std::size_t s = 0; s < colic.signs.size(); ++s)
    if (horse.answers.at(s) != "NA")
      out += fmt::format("  {}: {}{}\n", colic.signs[s].name, colic.signs[s].is_number ? "" : "v",
                         horse.answers[s]);
  return out;
}

}  // namespace flinch::test
