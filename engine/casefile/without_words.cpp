#include "flinch/casefile/without_words.hpp"

#include <algorithm>
#include <optional>

#include "casefile/free_texts.hpp"

namespace flinch {
namespace {

constexpr std::string_view blanks = " \t";

bool is_break(char byte) { return byte == '\n' || byte == '\r'; }

class Blotter {
 public:
  explicit Blotter(std::string_view text) : text_(text), out_(text) {}

  std::string take() {
    for (std::size_t at = 0; at < text_.size();) {
      auto const next = step(at);
      if (next <= at) count_bracket(text_[at]);
      at = std::max(at + 1, next);
    }
    return std::move(out_);
  }

 private:
  enum class Lines { end_values, go_on };  // within brackets a value goes on over them

  void count_bracket(char byte) {
    if (byte == '{' || byte == '[') ++depth_;
    if ((byte == '}' || byte == ']') && depth_ > 0) --depth_;
  }

  // What begins here, blotted out; where it ends.
  std::size_t step(std::size_t at) {
    bool const begins_line = at == 0 || is_break(text_[at - 1]);
    bool const begins_entry = at > 0 && (text_[at - 1] == '{' || text_[at - 1] == ',');
    if (!begins_line && !begins_entry) return at;
    auto key = text_.find_first_not_of(begins_line ? " \t-" : " \t\r\n", at);
    if (key == std::string_view::npos) return text_.size();
    if (begins_line && text_[key] == '#') return blot(key + 1, end_of_line(key));
    if (begins_line && (text_[key] == '{' || text_[key] == ',')) return key;
    auto const value = value_of_a_word(key);
    if (!value) return at;
    auto const lines = begins_entry || depth_ > 0 ? Lines::go_on : Lines::end_values;
    auto const end = end_of_value(*value, lines);
    return blot(*value, begins_line ? std::max(end, end_of_block(key, end)) : end);
  }

  // Behind the colon, where a key of free text stands here.
  std::optional<std::size_t> value_of_a_word(std::size_t key) const {
    auto rest = text_.substr(key);
    char const quote = !rest.empty() && (rest[0] == '"' || rest[0] == '\'') ? rest[0] : '\0';
    if (quote != '\0') rest.remove_prefix(1);
    for (auto const& free : free_texts) {
      if (!rest.starts_with(free.key)) continue;
      auto end = free.key.size();
      if (quote != '\0' && (end >= rest.size() || rest[end++] != quote)) continue;
      end = std::min(rest.find_first_not_of(blanks, end), rest.size());
      if (end < rest.size() && rest[end] == ':') return text_.size() - rest.size() + end + 1;
    }
    return std::nullopt;
  }

  // Of a quoted, a bracketed or a plain value that stands between commas.
  std::size_t end_of_value(std::size_t at, Lines lines) const {
    std::size_t depth = 0;
    for (at = std::min(text_.find_first_not_of(blanks, at), text_.size()); at < text_.size();
         ++at) {
      char const byte = text_[at];
      if (byte == '"' || byte == '\'') {
        at = end_of_quote(at);
        if (at >= text_.size()) return text_.size();
      } else if (byte == '[' || byte == '{') {
        ++depth;
      } else if (byte == ']' || byte == '}') {
        if (depth == 0) return at;
        --depth;
      } else if (depth == 0 && (byte == ',' || (lines == Lines::end_values && is_break(byte)))) {
        return at;
      }
    }
    return text_.size();
  }

  std::size_t end_of_quote(std::size_t at) const {
    char const quote = text_[at];
    for (++at; at < text_.size() && text_[at] != quote; ++at)
      if (quote == '"' && text_[at] == '\\') ++at;
    return at;
  }

  std::size_t end_of_line(std::size_t at) const {
    return std::min(text_.find_first_of("\r\n", at), text_.size());
  }

  // The rest of the line, and all lines after it that stand deeper than the key, or are empty.
  std::size_t end_of_block(std::size_t key, std::size_t at) const {
    auto const line = text_.find_last_of("\r\n", key);
    auto const indent = key - (line == std::string_view::npos ? 0 : line + 1);
    auto end = end_of_line(at);
    while (end < text_.size()) {
      auto const next = end + 1;
      auto const first = std::min(text_.find_first_not_of(blanks, next), text_.size());
      bool const is_empty = first >= text_.size() || is_break(text_[first]);
      if (!is_empty && first - next <= indent) break;
      end = end_of_line(first);
    }
    return end;
  }

  std::size_t blot(std::size_t from, std::size_t to) {
    for (auto at = from; at < to;) {
      auto const lead = static_cast<unsigned char>(text_[at]);
      std::size_t const bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
      auto const whole = std::min(bytes, text_.size() - at);
      if (!is_break(text_[at]) && blanks.find(text_[at]) == blanks.npos)
        out_.replace(at, whole, blot_of(whole));
      at += whole;
    }
    return to;
  }

  std::string_view text_;
  std::string out_;
  std::size_t depth_ = 0;  ///< of the brackets that are open here; too many blot out too much
};

}  // namespace

std::string_view blot_of(std::size_t bytes) {
  constexpr std::string_view blots[] = {"", "*", "\u00B7", "\u2022", "\U00010101"};
  return blots[bytes];
}

std::string without_words(std::string_view text) { return Blotter(text).take(); }

std::string render_without_words(std::vector<Diagnostic> const& diagnostics,
                                 SourceSet const& sources, FileId file) {
  if (diagnostics.empty()) return "";
  SourceSet shown;
  for (std::size_t i = 0; i < sources.size(); ++i) {
    auto const& source = sources[FileId{static_cast<std::uint32_t>(i)}];
    bool const is_it = i == static_cast<std::size_t>(file);
    shown.add(source.name(), is_it ? without_words(source.text()) : std::string(source.text()));
  }
  return render(diagnostics, shown);
}

}  // namespace flinch
