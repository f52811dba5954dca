#pragma once
// What to say of a command line that cannot be read.
#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace flinch::cli {

/// When the first word is no command (or, with a hyphen, no option of the program): what is wrong,
/// the nearest that there is, and where all stand.
[[nodiscard]] std::optional<std::string> unknown_command(CLI::App const& app,
                                                         std::vector<std::string> const& args);

/// The command that the command line named, as far as it was read; without one, the program.
[[nodiscard]] CLI::App const& chosen_command(CLI::App const& app);

/// Any other mistake, with the remedy; an unknown option is named with the nearest that there is.
[[nodiscard]] std::string usage_mistake(CLI::App const& app, std::vector<std::string> const& args,
                                        CLI::ParseError const& mistake);

}  // namespace flinch::cli
