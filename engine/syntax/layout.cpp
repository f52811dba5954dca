#include "syntax/layout.hpp"

#include <algorithm>

#include "flinch/syntax/vocabulary.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax {

std::vector<Line> read_lines(std::string_view text, FileId file, Report& report) {
  std::vector<Line> lines;
  bool at_line_start = true;
  bool in_text = false;
  std::uint32_t opened = 0;  // where the open text began
  // Some editors put a byte order mark before the first line.
  std::uint32_t const first = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  std::uint32_t line_begin = first;  // where the present line began
  char last = '\0';                  // the last character that counts
  auto const size = static_cast<std::uint32_t>(text.size());

  auto const give_up_open_text = [&] {
    auto& error =
        report.error(Code::open_text, {file, {opened, opened + 1}}, "this text is never closed");
    auto const first_line = text.substr(opened, text.find('\n', opened) - opened);
    if (auto const curly = find_curly_quote(first_line); curly != std::string_view::npos) {
      auto const at = opened + static_cast<std::uint32_t>(curly);
      error.notes.push_back(
          {"here stands a curly quote, as word processors make them; a text ends "
           "with a straight one: `\"`",
           Place{file, {at, at + 1}}});
    } else {
      error.notes.push_back({"a text ends with `\"`; a quote inside it is written `\\\"`", {}});
    }
    in_text = false;
  };

  for (std::uint32_t i = first; i < size; ++i) {
    char const c = text[i];
    if (c == '\n') {
      at_line_start = true;
      line_begin = i + 1;
      continue;
    }
    if (in_text && at_line_start && i == line_begin && !is_blank(c)) give_up_open_text();
    if (is_blank(c)) continue;
    if (in_text) {
      at_line_start = false;
      if (c == '\\')
        ++i;
      else if (c == '"') {
        in_text = false;
        bool const meets_word = i + 1 < size && letter_or_digit(text.substr(i + 1)) != 0;
        auto const line_end = text.find('\n', opened);
        // What ends a text in front of a word begins one: a text was left open before. In the line
        // of the other the grammar tells so; on a later line the text ended with its own line.
        if (meets_word && line_end < i) {
          give_up_open_text();
          i = static_cast<std::uint32_t>(line_end) - 1;
          continue;
        }
        if (meets_word) {
          i = static_cast<std::uint32_t>(std::min<std::size_t>(text.find('\n', i), size)) - 1;
          continue;
        }
      }
      continue;
    }
    if (c == '#') {
      while (i + 1 < size && text[i + 1] != '\n') ++i;
      continue;
    }
    if (at_line_start) {
      if (!lines.empty()) lines.back().end = i;
      lines.push_back({i, size, i == line_begin, last == ','});
      at_line_start = false;
    }
    last = c;
    if (c == '"') {
      in_text = true;
      opened = i;
    }
  }
  if (in_text) give_up_open_text();
  return lines;
}

std::string_view word_at(std::string_view text, std::uint32_t at) {
  auto end = at;
  while (end < text.size() && is_word_part(text[end])) ++end;
  return text.substr(at, end - at);
}

namespace {

// A name, and on the same line one of the facts of a patient.
bool is_species_line(std::string_view text, std::uint32_t at) {
  auto const key = word_at(text, at);
  if (key.empty() || !is_name_start(key.front()) || is_reserved(key)) return false;
  auto fact = at + static_cast<std::uint32_t>(key.size());
  while (fact < text.size() && (text[fact] == ' ' || text[fact] == '\t')) ++fact;
  return std::find(patient_facts.begin(), patient_facts.end(), word_at(text, fact)) !=
         patient_facts.end();
}

}  // namespace

std::uint32_t phrase_at(std::string_view text, std::uint32_t at, std::string_view phrase) {
  if (phrase == species_line) return is_species_line(text, at) ? at : 0;
  for (;;) {
    auto const word = phrase.substr(0, phrase.find(' '));
    if (word_at(text, at) != word) return 0;
    at += static_cast<std::uint32_t>(word.size());
    if (word.size() == phrase.size()) return at;
    phrase.remove_prefix(word.size() + 1);
    // Over line breaks too: `tidy` may join the words, and they must not be a clause only then. But
    // not into the first column, where another statement begins.
    for (; at < text.size() && is_blank(text[at]); ++at)
      if (text[at] == '\n' && at + 1 < text.size() && !is_blank(text[at + 1])) return 0;
  }
}

}  // namespace flinch::syntax
