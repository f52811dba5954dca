#include "usage_mistake.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"

namespace flinch::cli {
namespace {

std::vector<std::string> options_of(CLI::App const& app) {
  std::vector<std::string> out;
  for (auto const* option : app.get_options())
    for (auto const& name : option->get_lnames()) out.push_back("--" + name);
  return out;
}

std::string unknown(std::string_view kind, std::string const& word,
                    std::vector<std::string> const& known, std::string_view where) {
  auto const near = nearest(word, {known.begin(), known.end()});
  return fmt::format("flinch: there is no {} `{}`{}\ntry: {}\n", kind, inert(word),
                     near ? fmt::format("; did you mean `{}`?", *near) : "", where);
}

// "flinch book due --help"
std::string help_of(CLI::App const& command) {
  std::string out = command.get_name() + " --help";
  for (auto const* above = command.get_parent(); above != nullptr; above = above->get_parent())
    out = above->get_name() + ' ' + out;
  return out;
}

// The word without what stands behind `=`.
std::string option_word(std::string const& word) { return word.substr(0, word.find('=')); }

}  // namespace

std::optional<std::string> unknown_command(CLI::App const& app,
                                           std::vector<std::string> const& args) {
  if (args.empty() || args.front().empty()) return std::nullopt;
  auto const& word = args.front();
  if (word.front() == '-') {
    auto const known = options_of(app);
    if (word == "-h" || std::find(known.begin(), known.end(), option_word(word)) != known.end())
      return std::nullopt;
    return unknown("option", option_word(word), known, help_of(app));
  }
  std::vector<std::string> known;
  for (auto const* command : app.get_subcommands({})) {
    known.push_back(command->get_name());
    if (known.back() != word) continue;
    bool const has_parts = !command->get_subcommands({}).empty();
    return has_parts ? unknown_command(*command, {args.begin() + 1, args.end()}) : std::nullopt;
  }
  return unknown("command", word, known, help_of(app));
}

CLI::App const& chosen_command(CLI::App const& app) {
  auto const* chosen = &app;
  while (!chosen->get_subcommands().empty()) chosen = chosen->get_subcommands().front();
  return *chosen;
}

std::string usage_mistake(CLI::App const& app, std::vector<std::string> const& args,
                          CLI::ParseError const& mistake) {
  auto const& chosen = chosen_command(app);
  auto const where = help_of(chosen);
  if (&chosen != &app) {
    auto const known = options_of(chosen);
    for (auto const& word : args) {
      bool const is_option = word.size() > 2 && word.starts_with("--");
      if (is_option && std::find(known.begin(), known.end(), option_word(word)) == known.end())
        return unknown("option", option_word(word), known, where);
    }
  }
  return fmt::format("flinch: {}\ntry: {}\n", inert(mistake.what()), where);
}

}  // namespace flinch::cli
