#pragma once
// The commands of the program, each with its options as parsed.
#include <iosfwd>
#include <string>
#include <vector>

#include "page.hpp"
#include "run.hpp"

namespace flinch::cli {

/// What every command may need from outside.
struct Session {
  std::ostream& out;
  std::ostream& err;
  Look look;
};

struct AssessOptions {
  std::string pack;                ///< folder or file; empty: the shipped pack
  std::vector<std::string> cases;  ///< YAML files; `-` is standard input
  bool json = false;
  bool numbers = false;
  std::size_t causes = 5;  ///< how many causes the text shows
};
[[nodiscard]] Status assess(AssessOptions const& options, Session const& session);

struct ReviewOptions {
  std::string pack;
  std::string file;                  ///< a YAML file; `-` is standard input
  std::string cause;                 ///< its name, or empty; likewise below
  std::string rule;                  ///< or an alarm
  std::vector<std::string> between;  ///< two causes, or none
  std::string what_if;               ///< `sign=answer, sign=answer`
  bool tier = false;
  bool changes = false;  ///< the smallest changes
  bool json = false;
};
[[nodiscard]] Status review(ReviewOptions const& options, Session const& session);

struct ReportOptions {
  std::string pack;
  std::string file;               ///< the case; `-` is standard input
  std::string output;             ///< the page
  std::string reader = "clinic";  ///< or "keeper"
  std::string paper = "a4";       ///< or "letter"
};
[[nodiscard]] Status report(ReportOptions const& options, Session const& session);

struct DescribeOptions {
  std::string pack;
  std::string name;    ///< of a cause, sign, rule, alarm or source; or
  std::string folder;  ///< where pages of the whole pack go
};
[[nodiscard]] Status describe_pack(DescribeOptions const& options, Session const& session);

struct SignsOptions {
  std::string pack;
  std::string containing;  ///< only signs with this in their name or words
  bool json = false;
};
[[nodiscard]] Status list_signs(SignsOptions const& options, Session const& session);

struct CheckOptions {
  std::string pack;
  bool json = false;
};
[[nodiscard]] Status check(CheckOptions const& options, Session const& session);

}  // namespace flinch::cli
