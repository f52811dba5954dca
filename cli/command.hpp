#pragma once
// A command of the program, described as plain data in its own room. The command line, the manual
// and the shells' completion are all made from it.
#include <functional>
#include <iosfwd>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "flinch/model/find_named.hpp"
#include "flinch/telling/practice.hpp"
#include "look/page.hpp"
#include "run.hpp"

namespace flinch::cli {

struct Command;

/// What every command may need from outside.
struct Session {
  std::ostream& out;
  std::ostream& err;
  Look look;
  Setting setting{};                           ///< of those commands that send somebody somewhere
  std::span<Command const* const> commands{};  ///< all that the program has
};

/// What an option may be given.
struct OptionValue {
  char const* shown = "";          ///< what stands for it in the help: CASE, FILE, N
  bool is_path = false;            ///< a file or a folder: a shell offers what is there
  std::vector<NamedKind> names{};  ///< of the pack, such a name: a shell offers them
  bool is_required = false;
  std::vector<std::string> choices{};                ///< nothing else is taken; empty: anything
  std::optional<std::pair<double, double>> range{};  ///< of a number, ends included
  int count = 1;                                     ///< how many values stand together
  bool one_at_a_time = false;  ///< several, but the option is repeated for each
  /// Why a text is refused; empty when it is taken.
  std::string (*refusal)(std::string const&) = nullptr;
};

/// One option, or, with a bare word for a name, what is told by its place alone.
struct Option {
  using Target = std::variant<bool*, std::string*, std::optional<std::string>*,
                              std::vector<std::string>*, std::size_t*, double*>;
  char const* names;  ///< "--json", "-o,--output", "case"
  Target
      target;  ///< where it is put; a `bool` is set by the name alone. What is there is the default
  char const* help;
  OptionValue value{};
};

/// A command line that works in the folder docs/cases, beside the packs `canine` and `changed`; a
/// test runs each.
struct UsageExample {
  char const* line;
  char const* meaning;
};

struct Command;

/// A command's options, and what it does with them once they are read.
struct CommandUse {
  std::vector<Option> options;
  std::function<Status(Session const&)> work;  ///< holds what `options` point into
  std::vector<UsageExample> examples{};
  char const* more = "";                ///< what the help says below the options
  std::vector<Command const*> parts{};  ///< commands of its own: one of them does the work instead
};

struct Command {
  char const* name;
  char const* summary;  ///< one line
  CommandUse (*use)();
  bool is_hidden = false;  ///< not for people: a shell calls it
};

}  // namespace flinch::cli
