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

struct AskOptions {
  std::string pack;
  std::string audience = "keeper";  ///< keeper, nurse, handler or clinician
  std::string save;                 ///< the case file to write and to go on from; empty: none
};
/// Reads answers from standard input.
[[nodiscard]] Status ask(AskOptions const& options, Session const& session);

struct CallOptions {
  std::string pack;
  std::string save;  ///< case file, read if it is there, written after every answer; may be empty
};
[[nodiscard]] Status call(CallOptions const& options, Session const& session);

struct HandoverOptions {
  std::string pack;
  std::string file;  ///< case file
  bool markdown = false;
};
[[nodiscard]] Status handover(HandoverOptions const& options, Session const& session);

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
  bool json = false;
};
[[nodiscard]] Status check(CheckOptions const& options, Session const& session);

struct BatchOptions {
  std::string input;  ///< JSON lines; empty or `-` is standard input
  std::string pack;
  std::string output;       ///< a file that appears when it is whole; empty: standard output
  std::size_t causes = 5;   ///< how many causes a line names
  std::size_t threads = 0;  ///< 0: one a core
  bool resume = false;      ///< go on with an output that was not finished
};
[[nodiscard]] Status batch(BatchOptions const& options, Session const& session);

}  // namespace flinch::cli
