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

struct CareOptions {
  std::string pack;
  std::string file;  ///< a case in YAML; `-` is standard input
  std::string audience = "keeper";
  bool json = false;
};
[[nodiscard]] Status care(CareOptions const& options, Session const& session);

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
