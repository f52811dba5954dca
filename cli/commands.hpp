#pragma once
// The commands of the program, each with its options as parsed.
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "flinch/telling/practice.hpp"
#include "look/page.hpp"
#include "run.hpp"

namespace flinch::cli {

/// What every command may need from outside.
struct Session {
  std::ostream& out;
  std::ostream& err;
  Look look;
  Setting setting{};  ///< of those commands that send somebody somewhere
};

struct AssessOptions {
  std::string pack;                ///< folder or file; empty: the shipped pack
  std::string practice;            ///< its file; empty: the user's own, if there is one
  std::vector<std::string> cases;  ///< YAML files; `-` is standard input
  bool json = false;
  bool numbers = false;
  std::size_t causes = 5;  ///< how many causes the text shows
};
[[nodiscard]] Status assess(AssessOptions const& options, Session const& session);

struct AskOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string reader = "keeper";  ///< keeper, nurse, handler or clinician
  std::string save;               ///< the case file to write and to go on from; empty: none
};
/// Reads answers from standard input.
[[nodiscard]] Status ask(AskOptions const& options, Session const& session);

struct CallOptions {
  std::string pack;
  std::string practice;  ///< its file; empty: the user's own, if there is one
  std::string save;  ///< case file, read if it is there, written after every answer; may be empty
};
[[nodiscard]] Status call(CallOptions const& options, Session const& session);

struct HandoverOptions {
  std::string pack;
  std::string practice;  ///< its file; empty: the user's own, if there is one
  std::string file;      ///< case file
  bool markdown = false;
};
[[nodiscard]] Status handover(HandoverOptions const& options, Session const& session);
struct ReviewOptions {
  std::string pack;
  std::string file;                    ///< a YAML file; `-` is standard input
  std::optional<std::string> cause;    ///< its name, or `none` for none of the listed causes
  std::optional<std::string> rule;     ///< or an alarm
  std::vector<std::string> between;    ///< two causes, or nothing
  std::optional<std::string> what_if;  ///< `sign=answer, sign=answer`
  bool tier = false;
  bool changes = false;  ///< the smallest changes
  bool json = false;
};
[[nodiscard]] Status review(ReviewOptions const& options, Session const& session);

struct ReportOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string file;               ///< the case; `-` is standard input
  std::string output;             ///< the page
  std::string reader = "clinic";  ///< or "keeper"
  std::string paper = "a4";       ///< or "letter"
  bool all = false;               ///< more than fits on one sheet, for the clinic on two
};
[[nodiscard]] Status report(ReportOptions const& options, Session const& session);

struct DescribeOptions {
  std::string pack;
  std::string name;    ///< of a cause, sign, rule, alarm or source; or
  std::string folder;  ///< where pages of the whole pack go
};
[[nodiscard]] Status describe_pack(DescribeOptions const& options, Session const& session);
struct CareOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string file;               ///< a case in YAML; `-` is standard input
  std::string reader = "keeper";  ///< keeper, nurse or clinician
  bool json = false;
};
[[nodiscard]] Status care(CareOptions const& options, Session const& session);

struct SignsOptions {
  std::string pack;
  std::string containing;  ///< only signs with this in their name or words
  bool json = false;
};
[[nodiscard]] Status list_signs(SignsOptions const& options, Session const& session);

struct ListOptions {
  std::string what;  ///< one of `names_of_lists`
  std::string pack;
};
[[nodiscard]] std::vector<std::string> names_of_lists();
[[nodiscard]] Status list_pack(ListOptions const& options, Session const& session);

struct CheckOptions {
  std::string pack;
  std::vector<std::string> cases;  ///< YAML files, folders of them, `*.jsonl`
  bool names = false;              ///< of what nothing sets off, and of accepted warnings
  bool pairs = false;              ///< silent and impossible pairs of figures too
  bool strict = false;             ///< what is listed counts as "no"
  bool json = false;
};
[[nodiscard]] Status check(CheckOptions const& options, Session const& session);

struct TidyOptions {
  std::vector<std::string> files;  ///< rule files; `-` or none: standard input to standard output
  bool only_check = false;         ///< name what is not tidy, write nothing
};
[[nodiscard]] Status tidy(TidyOptions const& options, Session const& session);

struct BatchOptions {
  std::string input;  ///< JSON lines; empty or `-` is standard input
  std::string pack;
  std::string output;       ///< a file that appears when it is whole; empty: standard output
  std::size_t causes = 5;   ///< how many causes a line names
  std::size_t threads = 0;  ///< 0: one a core
  bool resume = false;      ///< go on with an output that was not finished
};
[[nodiscard]] Status batch(BatchOptions const& options, Session const& session);
struct AuditOptions {
  std::vector<std::string> packs;  ///< each audited by itself; none: the shipped pack
  std::vector<std::string> cases;  ///< files, or folders of them
  bool json = false;
  std::string html;        ///< a page is written there as well
  std::size_t worst = 10;  ///< how many misses are shown
};
[[nodiscard]] Status audit_cases(AuditOptions const& options, Session const& session);

struct CompareOptions {
  std::string before;
  std::string after;
  std::vector<std::string> cases;
  std::size_t reasons = 3;  ///< shown for each case
};
[[nodiscard]] Status compare_packs(CompareOptions const& options, Session const& session);

struct LearnOptions {
  std::string pack;
  std::vector<std::string> cases;
  std::size_t dogs_at_least = 5;
  double weight_without_sample = 10;
  std::string source = "closed_cases";  ///< the name that the proposal cites
  bool statements = false;
};
[[nodiscard]] Status learn_figures(LearnOptions const& options, Session const& session);

}  // namespace flinch::cli
