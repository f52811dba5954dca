#include "complete/offers.hpp"

#include <algorithm>
#include <limits>
#include <sstream>

namespace flinch::cli {
namespace {

std::vector<std::string> names_of(Option const& option) {
  std::vector<std::string> out;
  std::istringstream names(option.names);
  for (std::string name; std::getline(names, name, ',');) out.push_back(name);
  return out;
}

bool is_told_by_place(Option const& option) { return option.names[0] != '-'; }
bool is_flag(Option const& option) { return std::holds_alternative<bool*>(option.target); }
bool takes_many(Option const& option) {
  return std::holds_alternative<std::vector<std::string>*>(option.target) &&
         option.value.count == 1;
}

// How many words an option takes when it is named once.
int words_taken(Option const& option) {
  if (is_flag(option)) return 0;
  if (takes_many(option) && !option.value.one_at_a_time) return std::numeric_limits<int>::max();
  return option.value.count;
}

// `--for`, `=`, `kee` are `--for`, `kee`.
std::vector<std::string> without_equals(std::vector<std::string> const& line) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    bool const follows_option = !out.empty() && out.back().starts_with("--");
    if (line[i] != "=" || !follows_option)
      out.push_back(line[i]);
    else if (i + 1 == line.size())
      out.emplace_back();
  }
  return out;
}

class Line {
 public:
  explicit Line(std::vector<Option> const& options) : options_(options) {}

  void read(std::string const& word) {
    if (open_ > 0 && !word.starts_with("--")) {
      note(*named_, word);
      --open_;
      return;
    }
    open_ = 0;
    auto const equals = word.find('=');
    if (is_over_ || word.size() < 2 || word[0] != '-') {
      if (auto const* placed = at_place()) note(*placed, word);
      ++place_;
    } else if (word == "--") {
      is_over_ = true;
    } else if (auto const* option = find(word.substr(0, equals))) {
      used_.push_back(option);
      if (equals != word.npos) {
        note(*option, word.substr(equals + 1));
      } else {
        named_ = option;
        open_ = words_taken(*option);
      }
    }
  }

  [[nodiscard]] Offers offers(std::string const& word) const {
    Offers out;
    out.pack = pack_;
    auto const equals = word.find('=');
    bool const names_option =
        !is_over_ && word.starts_with("-") && (open_ == 0 || word.starts_with("--"));
    if (names_option && equals == word.npos) {
      offer_options(word, out);
    } else if (names_option) {
      if (auto const* option = find(word.substr(0, equals)))
        offer_values(*option, word.substr(0, equals + 1), word.substr(equals + 1), out);
    } else if (open_ > 0) {
      offer_values(*named_, "", word, out);
    } else if (auto const* placed = at_place()) {
      offer_values(*placed, "", word, out);
    }
    return out;
  }

 private:
  // Several files told by place take all that follows.
  [[nodiscard]] Option const* at_place() const {
    std::size_t passed = 0;
    for (auto const& option : options_) {
      if (!is_told_by_place(option)) continue;
      if (passed++ == place_ || takes_many(option)) return &option;
    }
    return nullptr;
  }

  [[nodiscard]] Option const* find(std::string const& name) const {
    for (auto const& option : options_)
      for (auto const& its : names_of(option))
        if (its == name) return &option;
    return nullptr;
  }

  void note(Option const& option, std::string const& word) {
    if (std::string(option.names) == "--pack") pack_ = word;
  }

  void offer_options(std::string const& begun, Offers& out) const {
    for (auto const& option : options_) {
      bool const is_used = std::find(used_.begin(), used_.end(), &option) != used_.end();
      if (is_told_by_place(option) || (is_used && !takes_many(option))) continue;
      for (auto const& name : names_of(option))
        if (name.starts_with("--") && name.starts_with(begun))
          out.words.push_back({name, option.help});
    }
    if (std::string("--help").starts_with(begun))
      out.words.push_back({"--help", "What the command takes"});
  }

  static void offer_values(Option const& option, std::string const& before,
                           std::string const& begun, Offers& out) {
    for (auto const& choice : option.value.choices)
      if (choice.starts_with(begun)) out.words.push_back({before + choice, ""});
    out.paths = option.value.is_path;
    out.names = option.value.names;
    out.begun = begun;
    out.before_name = before;
  }

  std::vector<Option> const& options_;
  std::vector<Option const*> used_;
  Option const* named_ = nullptr;  // the option whose words are being read
  int open_ = 0;                   // and how many more there may be
  std::size_t place_ = 0;          // of the next word that no option takes
  bool is_over_ = false;           // `--` was read: no more options
  std::string pack_;
};

enum class Commands : bool { of_the_program, of_a_command };

Offers offers_among(std::span<Command const* const> commands, std::span<std::string const> words,
                    Commands whose) {
  Offers out;
  if (words.size() == 1) {
    auto const& begun = words.front();
    for (auto const* command : commands)
      if (!command->is_hidden && std::string(command->name).starts_with(begun))
        out.words.push_back({command->name, command->summary});
    auto const offer = [&](std::string const& name, char const* about) {
      if (begun.starts_with("-") && name.starts_with(begun)) out.words.push_back({name, about});
    };
    offer("--help", "All commands");
    if (whose == Commands::of_the_program)
      offer("--version", "Of the program, the pack and the language");
    return out;
  }
  for (auto const* command : commands) {
    if (command->name != words.front()) continue;
    auto const use = command->use();
    if (!use.parts.empty())
      return offers_among(use.parts, words.subspan(1), Commands::of_a_command);
    Line read(use.options);
    for (std::size_t i = 1; i + 1 < words.size(); ++i) read.read(words[i]);
    return read.offers(words.back());
  }
  return out;
}

}  // namespace

Offers offers_at(std::span<Command const* const> commands, std::vector<std::string> const& line) {
  auto const words = without_equals(line);
  if (words.empty()) return {};
  return offers_among(commands, words, Commands::of_the_program);
}

}  // namespace flinch::cli
