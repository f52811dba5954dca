#include "command_line.hpp"

#include <CLI/CLI.hpp>

namespace flinch::cli {
namespace {

// A default is shown where it would also be taken.
bool is_shown(Option const& option) {
  auto const& value = option.value;
  if (value.is_required) return false;
  if (auto const* const* text = std::get_if<std::string*>(&option.target)) return !(*text)->empty();
  if (!value.range) return false;
  auto const within = [&](auto number) {
    return number >= value.range->first && number <= value.range->second;
  };
  if (auto const* const* whole = std::get_if<std::size_t*>(&option.target))
    return within(static_cast<double>(**whole));
  if (auto const* const* number = std::get_if<double*>(&option.target)) return within(**number);
  return false;
}

void add_option(CLI::App& command, Option const& option) {
  if (auto* const* flag = std::get_if<bool*>(&option.target)) {
    command.add_flag(option.names, **flag, option.help);
    return;
  }
  auto const& value = option.value;
  auto* added = std::visit(
      [&](auto* target) { return command.add_option(option.names, *target, option.help); },
      option.target);
  added->required(value.is_required)->type_name(value.shown);
  if (value.count > 1) added->expected(value.count);
  if (value.one_at_a_time) added->allow_extra_args(false);
  if (!value.choices.empty()) added->check(CLI::IsMember(value.choices));
  if (value.range && std::holds_alternative<double*>(option.target))
    added->check(CLI::Range(value.range->first, value.range->second));
  else if (value.range)
    added->check(
        CLI::Range(static_cast<int>(value.range->first), static_cast<int>(value.range->second)));
  if (value.refusal != nullptr)
    added->check(
        CLI::Validator([refusal = value.refusal](std::string& text) { return refusal(text); }, ""));
  if (is_shown(option)) added->capture_default_str();
}

std::string words_below(CommandUse const& use) {
  std::string out = use.more;
  if (use.examples.empty()) return out;
  out += out.empty() ? "Examples:" : "\n\nExamples:";
  for (auto const& example : use.examples)
    out += std::string("\n  ") + example.line + "\n      " + example.meaning;
  return out;
}

}  // namespace

void add_command(CLI::App& app, Command const& row, Session const& session, Status& status) {
  auto* command = app.add_subcommand(row.name, row.summary);
  auto use = row.use();
  for (auto const& option : use.options) add_option(*command, option);
  command->footer(words_below(use));
  if (row.is_hidden) command->group("");
  for (auto const* part : use.parts) add_command(*command, *part, session, status);
  if (!use.parts.empty()) {
    command->require_subcommand(1);
    return;
  }
  command->callback([&session, &status, work = std::move(use.work)] { status = work(session); });
}

}  // namespace flinch::cli
