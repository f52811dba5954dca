#include "manual/manual_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <sstream>

#include "about.hpp"

namespace flinch::cli {
namespace {

// Text that means itself: no requests, no escapes, and hyphens that can be copied.
std::string plain(std::string_view text) {
  std::string out;
  bool starts_line = true;
  for (char const c : text) {
    if (starts_line && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '`')
      out += "\\(ga";
    else
      out += c;
    starts_line = c == '\n';
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + plain(text) + "\\fR"; }
std::string variable(std::string_view text) { return "\\fI" + plain(text) + "\\fR"; }

std::string head(std::string name, Edition const& edition) {
  std::transform(name.begin(), name.end(), name.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return fmt::format(".TH {} 1 \"{}\" \"flinch {}\" \"Pain triage for animals\"\n", plain(name),
                     edition.date, edition.version);
}

std::string section(std::string_view name) { return fmt::format(".SH {}\n", name); }

std::string value_text(Option const& option) {
  auto const& value = option.value;
  if (*value.shown == '\0') return "";
  std::string out;
  for (int i = 0; i < value.count; ++i) out += " " + variable(value.shown);
  return out;
}

// Names in bold, what follows them in italics: `-o`, `--output FILE`.
std::string tag(Option const& option) {
  if (option.names[0] != '-') return variable(option.value.shown);
  std::string out;
  std::istringstream names(option.names);
  for (std::string name; std::getline(names, name, ',');)
    out += (out.empty() ? "" : ", ") + bold(name);
  return out + value_text(option);
}

std::string limits(OptionValue const& value) {
  std::string out;
  if (!value.choices.empty()) out += fmt::format(" One of: {}.", fmt::join(value.choices, ", "));
  if (value.range)
    out += fmt::format(" From {:.0f} to {:.0f}.", value.range->first, value.range->second);
  return out;
}

std::string entry(std::string const& tag, std::string const& text) {
  return fmt::format(".TP\n{}\n{}\n", tag, plain(text));
}

std::string synopsis(std::string_view name, CommandUse const& use) {
  auto out = bold(name);
  if (!use.parts.empty())
    return out + " " + variable("command") + " [" + variable("options") + "]\n";
  bool const has_options = std::any_of(use.options.begin(), use.options.end(),
                                       [](auto const& option) { return option.names[0] == '-'; });
  if (has_options) out += " [" + variable("options") + "]";
  for (auto const& option : use.options) {
    bool const is_placed = option.names[0] != '-';
    if (!is_placed && !option.value.is_required) continue;
    auto const word = is_placed ? variable(option.value.shown) : tag(option);
    bool const is_many =
        is_placed && std::holds_alternative<std::vector<std::string>*>(option.target);
    out += option.value.is_required ? " " + word : " [" + word + "]";
    if (is_many) out += " ...";
  }
  return out + '\n';
}

std::string options(CommandUse const& use) {
  std::string out;
  for (auto const& option : use.options)
    out += entry(tag(option), std::string(option.help) + "." + limits(option.value));
  return out + entry(bold("-h") + ", " + bold("--help"), "Print what the command takes and leave.");
}

// A command's own commands, each with its options.
std::string parts(Command const& command, CommandUse const& use) {
  if (use.parts.empty()) return "";
  auto out = section("COMMANDS");
  for (auto const* part : use.parts) {
    auto const its = part->use();
    auto const name = fmt::format("flinch {} {}", command.name, part->name);
    out +=
        fmt::format(".SS {}\n{}.PP\n{}.\n", part->name, synopsis(name, its), plain(part->summary));
    if (*its.more != '\0') out += ".PP\n" + plain(its.more) + '\n';
    out += options(its);
  }
  return out;
}

std::string const exit_status =
    section("EXIT STATUS") + entry(bold("0"), "The answer is there.") +
    entry(bold("1"), "The answer is no: examples failed, packs differ, nothing was found.") +
    entry(bold("2"), "The command line or its input cannot be used; standard error says why.");

}  // namespace

std::string program_manual(std::span<Command const* const> commands, Edition const& edition) {
  auto out = head("flinch", edition) + section("NAME") + "flinch \\- pain triage for animals\n" +
             section("SYNOPSIS") + bold("flinch") + " " + variable("command") + " [" +
             variable("options") + "]\n.br\n" + bold("flinch") + " " + variable("command") + " " +
             bold("--help") + "\n" + section("DESCRIPTION") + plain(about) + "\n" +
             section("COMMANDS");
  for (auto const* command : commands)
    if (!command->is_hidden)
      out += entry(fmt::format("{}(1)", bold(fmt::format("flinch-{}", command->name))),
                   command->summary);
  out +=
      section("OPTIONS") + entry(bold("--help"), "Print all commands and leave.") +
      entry(bold("--version"), "Print the versions of the program, the pack and the language.") +
      exit_status + section("ENVIRONMENT") +
      entry(bold("NO_COLOR"), "Set to anything: weight, but no colour.") +
      entry(bold("LC_ALL") + ", " + bold("LC_CTYPE") + ", " + bold("LANG"),
            "Characters outside ASCII are shown where the locale is UTF-8.") +
      entry(bold("FLINCH_BOOK"), "The day book, where --book names none.") +
      entry(bold("SOURCE_DATE_EPOCH"), "The time to take for now, in seconds since 1970.") +
      section("FILES") +
      entry(variable("$XDG_CONFIG_HOME/flinch/practice.yaml"),
            "Who the practice is; ~/.config where the variable is not set.") +
      entry(variable("$XDG_DATA_HOME/flinch/book.db"),
            "The day book, with names and telephone numbers; ~/.local/share where the variable is "
            "not "
            "set.") +
      entry(variable("$XDG_STATE_HOME/flinch/share.key"),
            "The secret from which flinch share makes the identifier of a patient; ~/.local/state "
            "where "
            "the variable is not set.") +
      entry(variable("$XDG_STATE_HOME/flinch/"),
            "What a desk had recorded when it was broken off; ~/.local/state where the variable is "
            "not set.") +
      section("SEE ALSO");
  std::string separator;
  for (auto const* command : commands) {
    if (command->is_hidden) continue;
    out += fmt::format("{}{}(1)", separator, bold(fmt::format("flinch-{}", command->name)));
    separator = ",\n";
  }
  return out + '\n';
}

std::string command_manual(Command const& command, Edition const& edition) {
  auto const use = command.use();
  auto const name = fmt::format("flinch-{}", command.name);
  auto out = head(name, edition) + section("NAME") +
             fmt::format("{} \\- {}\n", plain(name), plain(command.summary)) + section("SYNOPSIS") +
             synopsis(fmt::format("flinch {}", command.name), use) + section("DESCRIPTION") +
             plain(command.summary) + ".\n";
  if (*use.more != '\0') out += ".PP\n" + plain(use.more) + '\n';
  out += parts(command, use) + section("OPTIONS") + options(use);
  if (!use.examples.empty()) {
    out += section("EXAMPLES") + "The files lie in the folder\n" + variable("examples") +
           "\nof the program\\(aqs documentation; "
           "present and changed are two packs, such as the shipped one and a copy of yours.\n";
    for (auto const& example : use.examples)
      out += fmt::format(".PP\n{}:\n.PP\n.RS 4\n.EX\n{}\n.EE\n.RE\n", plain(example.meaning),
                         plain(example.line));
  }
  return out + exit_status + section("SEE ALSO") + bold("flinch") + "(1)\n";
}

}  // namespace flinch::cli
