#include "serve/completion.hpp"

#include <algorithm>
#include <optional>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/syntax/symbols.hpp"
#include "flinch/syntax/vocabulary.hpp"

namespace flinch::cli::serve {
namespace {

using syntax::NameKind;
using Words = std::vector<std::string_view>;

using syntax::is_blank;
using syntax::is_word_part;

// Where the place lies: its statement, its clause, and the words of the clause before it.
struct Context {
  syntax::StatementWords const* statement = nullptr;
  std::string name;                             // of the statement
  syntax::ClauseWords const* clause = nullptr;  // none in the first lines of a statement
  bool starts_statement = false;
  bool starts_clause = false;
  std::vector<std::string> before;  // words and marks of the clause, a text as `"`
};

// The words of the line's clause, and how long they are there: the species has its own name.
struct WrittenPhrase {
  syntax::ClauseWords const* clause = nullptr;
  std::size_t length = 0;
};

WrittenPhrase phrase_of(syntax::StatementWords const& statement, std::string_view line,
                        std::string_view species) {
  WrittenPhrase longest;
  for (auto const& clause : statement.clauses) {
    auto const words = clause.phrase == syntax::species_line ? species : clause.phrase;
    bool const stands_there = line.starts_with(words) &&
                              (line.size() == words.size() || !is_word_part(line[words.size()]));
    if (stands_there && words.size() > longest.length) longest = {&clause, words.size()};
  }
  return longest;
}

// Of the pack, as far as one is known.
std::string_view species_of(PackView const& view) {
  for (auto const& file : view.files)
    for (auto const& statement : file.tree.statements)
      if (auto const* head = std::get_if<syntax::PackHead>(&statement))
        if (head->species) return head->species->key.text;
  return "patient";
}

// Reads the text up to the place; nothing when that is within a text or a comment.
std::optional<Context> context_at(std::string_view text, std::string_view species) {
  Context out;
  bool at_line_start = true;
  bool is_first_column = true;
  for (std::size_t i = text.starts_with("\xEF\xBB\xBF") ? 3 : 0; i < text.size();) {
    char const c = text[i];
    if (c == '\n') {
      at_line_start = true;
      is_first_column = true;
      ++i;
    } else if (is_blank(c)) {
      is_first_column = false;
      ++i;
    } else if (c == '#') {
      i = text.find('\n', i);
      if (i == std::string_view::npos) return std::nullopt;
    } else {
      if (at_line_start) {
        auto const line = text.substr(i, text.find('\n', i) - i);
        bool const goes_on = !out.before.empty() && out.before.back() == ",";
        if (is_first_column) {
          auto const word = line.substr(
              0, static_cast<std::size_t>(std::find_if_not(line.begin(), line.end(), is_word_part) -
                                          line.begin()));
          out = {};
          out.statement = syntax::find_statement_words(word);
          i += word.size();
          at_line_start = is_first_column = false;
          if (!word.empty()) continue;
        } else if (out.statement != nullptr && !goes_on) {
          auto const [clause, length] = phrase_of(*out.statement, line, species);
          if (clause != nullptr) {
            if (out.clause == nullptr && !out.before.empty()) out.name = out.before.front();
            out.clause = clause;
            out.before.clear();
            i += length;
            at_line_start = false;
            continue;
          }
        }
        at_line_start = false;
      }
      is_first_column = false;
      auto const end = syntax::symbol_end(text, i);
      if (c == '"' && !syntax::is_closed_text(text, i, end)) return std::nullopt;
      out.before.emplace_back(c == '"' ? "\"" : text.substr(i, end - i));
      i = end;
    }
  }
  bool const goes_on = !out.before.empty() && out.before.back() == ",";
  out.starts_statement = at_line_start && is_first_column;
  out.starts_clause = at_line_start && !is_first_column && !goes_on && out.statement != nullptr;
  return out;
}

bool begins_phrase(std::string_view typed) {
  for (auto const& statement : syntax::statement_words())
    for (auto const& clause : statement.clauses)
      if (clause.phrase.starts_with(typed)) return true;
  return false;
}

class Completer {
 public:
  Completer(PackView const& view, Context const& context) : view_(view), context_(context) {}

  std::vector<Completion> take() { return std::move(items_); }

  void complete() {
    if (context_.starts_statement) return statements();
    if (context_.statement == nullptr) return;
    if (context_.starts_clause) {
      for (auto const& clause : context_.statement->clauses)
        word(clause.phrase == syntax::species_line ? species_of(view_) : clause.phrase);
      if (context_.clause != nullptr || !context_.statement->clauses.empty()) return;
    }
    if (context_.clause == nullptr) return head(context_.statement->keyword);
    clause(*context_.clause);
  }

 private:
  void word(std::string_view text) {
    items_.push_back({std::string(text), Completion::Kind::keyword, {}});
  }
  void words(Words const& all) {
    for (auto const one : all) word(one);
  }
  void statements() {
    for (auto const& statement : syntax::statement_words()) word(statement.keyword);
  }
  void names(NameKind kind, std::string_view of_sign = {}) {
    for (auto const& found : definitions(view_, kind)) {
      if (!of_sign.empty() && found.place.sign != of_sign) continue;
      items_.push_back({found.place.name->text, Completion::Kind::name, title(found)});
    }
  }
  // Those alone, where no family fits.
  void causes() {
    for (auto const& found : definitions(view_, NameKind::cause))
      if (!std::holds_alternative<syntax::Family>(*found.statement))
        items_.push_back({found.place.name->text, Completion::Kind::name, title(found)});
  }
  static std::string title(FoundName const& found) {
    if (found.place.kind == NameKind::value) return {};
    return std::visit(
        [](auto const& statement) {
          if constexpr (requires { statement.title; })
            return statement.title ? statement.title->text : std::string();
          else
            return std::string();
        },
        *found.statement);
  }

  [[nodiscard]] std::string_view before(std::size_t back = 1) const {
    auto const& all = context_.before;
    return all.size() >= back ? std::string_view(all[all.size() - back]) : std::string_view();
  }
  [[nodiscard]] bool has(std::string_view symbol) const {
    return std::find(context_.before.begin(), context_.before.end(), symbol) !=
           context_.before.end();
  }
  [[nodiscard]] bool starts_item() const { return before().empty() || before() == ","; }

  void head(std::string_view keyword) {
    if (keyword == "site") {
      if (before() == "in") return names(NameKind::site);
      if (!context_.before.empty()) words({"in", "paired"});
    } else if (keyword == "means") {
      if (has(":")) condition();
    } else if (keyword == "family") {
      if (has(":")) causes();
    } else if (keyword == "overlap") {
      if (has(":")) return names(NameKind::rule);
      if (context_.before.size() == 1) return word("shares");
      if (has("shares")) frequencies();
    }
  }

  void condition() {
    auto const last = before();
    if (last == "at") {
      words({"left", "right", "least"});
      return names(NameKind::site);
    }
    if (last == "left" || last == "right") return names(NameKind::site);
    if (last == "least") return names(NameKind::value, before(3));
    if (last == "is") return names(NameKind::value, before(2));
    if (last == "in") return names(NameKind::group);
    bool const is_operand = last.empty() || last == "unless" || last == "(" || last == "," ||
                            last == ":" || last == "and" || last == "or" || last == "not";
    if (!is_operand)
      return words({"and", "or", "at", "at least", "is", "in", "between", "over", "under"});
    words({"not", "at least"});
    names(NameKind::sign);
    words({"age", "weight", "sex", "neutered", "size", "breed"});
  }

  void frequencies() {
    if (before() == "from") return names(NameKind::source);
    if (before() == "derived" || before(2) == "of") return word("from");
    words({"of", "derived from", "per"});
  }

  void answer() {
    if (before() == "in" && before(2) == "sites") return names(NameKind::site);
    if (context_.before.empty()) words({"yes or no", "sites", "steps", "one of", "number"});
  }

  void expected() {
    auto const& all = context_.before;
    std::string item;  // the words of this promise
    std::size_t count = 0;
    for (auto at = std::find(all.rbegin(), all.rend(), ",").base(); at != all.end(); ++at, ++count)
      item += (item.empty() ? "" : " ") + *at;
    auto const size = [](std::string_view phrase) {
      return static_cast<std::size_t>(std::count(phrase.begin(), phrase.end(), ' ')) + 1;
    };
    for (auto const& row : syntax::promise_words) {
      if (item.empty()) {
        word(row.words);
        continue;
      }
      if (row.words.starts_with(item + ' ')) word(row.words.substr(item.size() + 1));
      bool const is_it = item == row.words || item.starts_with(std::string(row.words) + ' ');
      auto const behind = is_it ? count - size(row.words) : 0;
      if (is_it && row.refers && behind == (row.takes_rank ? 1U : 0U))
        *row.refers == NameKind::cause ? causes() : names(*row.refers);
      if (is_it && row.takes_amount && behind == 3)
        words({"to", "in"});  // a name, a number, its unit
    }
  }

  void finding() {
    if (has("at")) {
      words({"left", "right"});
      return names(NameKind::site);
    }
    if (context_.before.empty()) return names(NameKind::sign);
    word("at");
  }

  void floor() {
    auto const last = before();
    if (last.empty()) return names(NameKind::tier);
    if (has("cite")) return names(NameKind::source);
    if (last == "\"") return word("cite");
    if (has("unless") && !has("because")) {
      condition();
      return word("because");
    }
    if (last == "at" || last == "left" || last == "right") return names(NameKind::site);
    if (last == "if" || last == "or" || last == "least") {
      names(NameKind::value, context_.name);
      if (last == "if") words({"at least", "at", "between", "over", "under"});
      return;
    }
    words(has("if") ? Words{"or", "unless", "because"} : Words{"if", "unless", "because"});
  }

  void setting() {
    if (!starts_item()) return names(NameKind::value, before());
    names(NameKind::sign);
  }

  void care_causes() {
    if (context_.before.empty()) word("clinician");
    causes();
  }

  void over() {
    if (context_.before.empty()) return names(NameKind::sign);
    if (!has(":")) return;
    words({"under", "over"});
    names(NameKind::value, context_.before.front());
  }

  void level() {
    if (before() == "see") return names(NameKind::tier);
    words({"per kg", "see"});
  }

  void clause(syntax::ClauseWords const& clause) {
    using syntax::Holds;
    if (clause.refers == NameKind::cause) return care_causes();
    if (clause.refers) return names(*clause.refers);
    switch (clause.holds) {
      case Holds::other:
      case Holds::names:
      case Holds::yes_or_no:
      case Holds::meaning:
        return;
      case Holds::condition:
        return condition();
      case Holds::frequency:
        return frequencies();
      case Holds::sourced_number:
        return before() == "from" ? names(NameKind::source) : word("from");
      case Holds::range:
      case Holds::sizes:
        return word("to");
      case Holds::called:
        if (before() == "neutered") return words({"male", "female"});
        return words({"male", "female", "young", "neutered male", "neutered female", "or"});
      case Holds::never_neutered:
        return words({"male", "female"});
      case Holds::read_as:
        return words({syntax::read_as_words.begin(), syntax::read_as_words.end()});
      case Holds::seen_by:
        return words({syntax::seen_by_words.begin(), syntax::seen_by_words.end()});
      case Holds::seen_at:
        return words({syntax::seen_at_words.begin(), syntax::seen_at_words.end()});
      case Holds::answer:
        return answer();
      case Holds::floor:
        return floor();
      case Holds::over:
        return over();
      case Holds::in_cause:
        return starts_item() ? names(NameKind::cause) : frequencies();
      case Holds::dose:
        return words({"to", "per kg", "per kg^0.75", "by mouth", "every", "for"});
      case Holds::form:
        return words({"tablet", "capsule", "liquid", "spoon", "per mL", "whole", "in halves",
                      "in quarters"});
      case Holds::level:
        return level();
      case Holds::settings:
        return setting();
      case Holds::patient_facts:
        if (starts_item()) words({"age", "weight", "breed", "sex", "neutered", "size"});
        return;
      case Holds::finding:
        return finding();
      case Holds::promises:
        return expected();
    }
  }

  PackView const& view_;
  Context const& context_;
  std::vector<Completion> items_;
};

}  // namespace

Completions complete(PackView const& view, std::string_view text, std::size_t offset) {
  offset = std::min(offset, text.size());
  Completions out;
  out.begin = offset;
  auto const species = species_of(view);
  while (out.begin > 0 && is_word_part(text[out.begin - 1])) --out.begin;
  // `also sa` is the beginning of a clause's words; `for cl` may be that of a name behind `for`.
  auto const line = text.rfind('\n', offset == 0 ? 0 : offset - 1) + 1;  // 0 in the first line
  auto const first = std::min(text.find_first_not_of(" \t", line), offset);
  auto context = context_at(text.substr(0, out.begin), species);
  auto const typed = text.substr(first, offset - first);
  auto const phrase = context && context->statement != nullptr
                          ? phrase_of(*context->statement, typed, species)
                          : WrittenPhrase();
  bool const is_behind_a_phrase = phrase.length > 0 && phrase.length < typed.size();
  if (first > line && begins_phrase(typed) && !is_behind_a_phrase) {
    out.begin = first;
    context = context_at(text.substr(0, out.begin), species);
  }
  if (!context) return out;
  Completer completer(view, *context);
  completer.complete();
  out.items = completer.take();
  return out;
}

}  // namespace flinch::cli::serve
