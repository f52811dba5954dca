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
    return unknown("option", option_word(word), known, "flinch --help");
  }
  std::vector<std::string> known;
  for (auto const* command : app.get_subcommands({})) known.push_back(command->get_name());
  if (std::find(known.begin(), known.end(), word) != known.end()) return std::nullopt;
  return unknown("command", word, known, "flinch --help");
}

std::string usage_mistake(CLI::App const& app, std::vector<std::string> const& args,
                          CLI::ParseError const& mistake) {
  auto const chosen = app.get_subcommands();
  auto const where = chosen.empty() ? std::string("flinch --help")
                                    : fmt::format("flinch {} --help", chosen.front()->get_name());
  if (!chosen.empty()) {
    auto const known = options_of(*chosen.front());
    for (auto const& word : args) {
      bool const is_option = word.size() > 2 && word.starts_with("--");
      if (is_option && std::find(known.begin(), known.end(), option_word(word)) == known.end())
        return unknown("option", option_word(word), known, where);
    }
  }
  return fmt::format("flinch: {}\ntry: {}\n", inert(mistake.what()), where);
}

}  // namespace flinch::cli
