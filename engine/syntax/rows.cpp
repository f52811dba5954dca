#include "syntax/rows.hpp"

#include <algorithm>

#include "syntax/layout.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

// A text with each run of blanks that holds a line break made one blank, as its meaning has it.
std::string on_one_line(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 1 < text.size()) {
      out += text[i];
      out += text[++i];
    } else if (is_blank(text[i])) {
      auto const stop = std::min(text.find_first_not_of(" \t\r\n", i), text.size());
      auto const blanks = text.substr(i, stop - i);
      out += blanks.find('\n') == std::string_view::npos ? blanks : " ";
      i = stop - 1;
    } else {
      out += text[i];
    }
  }
  return out;
}

class RowReader {
 public:
  explicit RowReader(std::string_view text) : text_(text) {}

  std::vector<Row> read() {
    Report ignored;
    auto const lines = read_lines(text_, FileId{}, ignored);
    auto const size = static_cast<std::uint32_t>(text_.size());
    first_ = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    stretch(first_, lines.empty() ? size : lines.front().begin);
    StatementWords const* statement = nullptr;
    for (auto const& line : lines) {
      if (line.in_first_column) {
        statement = find_statement_words(word_at(text_, line.begin));
        begin_row(Row::Kind::statement,
                  statement == nullptr ? Content::symbols : statement->content);
      } else if (auto const* clause = clause_at(statement, line)) {
        begin_row(Row::Kind::clause, clause->content);
        if (clause->content == Content::reference)
          reference_from_ = phrase_at(text_, line.begin, clause->phrase);
      }
      stretch(line.begin, line.end);
    }
    end_row();
    return std::move(rows_);
  }

 private:
  struct Comment {
    std::string text;
    bool is_beside = false;
    bool is_indented = false;
    bool after_blank_line = false;
  };

  [[nodiscard]] ClauseWords const* clause_at(StatementWords const* statement,
                                             Line const& line) const {
    if (statement == nullptr || line.after_comma) return nullptr;
    return syntax::clause_at(text_, line.begin, statement->clauses);
  }

  // Comments that wait when a row ends belong beside its last symbol, or stand for themselves.
  void end_row() {
    for (auto& comment : waiting_) {
      if (comment.is_beside) {
        last_symbol().comment_beside = std::move(comment.text);
        continue;
      }
      Row row;
      row.comment = std::move(comment.text);
      row.is_indented = comment.is_indented;
      row.after_blank_line = comment.after_blank_line;
      rows_.push_back(std::move(row));
    }
    waiting_.clear();
  }

  void begin_row(Row::Kind kind, Content content) {
    end_row();
    reference_from_ = static_cast<std::uint32_t>(text_.size());
    Row row;
    row.kind = kind;
    row.content = content;
    row.after_blank_line = line_breaks_ > 1;
    row_ = rows_.size();
    rows_.push_back(std::move(row));
  }

  Symbol& last_symbol() { return rows_[row_].symbols.back(); }

  void stretch(std::uint32_t at, std::uint32_t end) {
    while (at < end) {
      char const c = text_[at];
      if (is_blank(c)) {
        line_breaks_ += c == '\n' ? 1 : 0;
        ++at;
      } else if (c == '#') {
        at = comment(at, end);
      } else {
        at = symbol(at, end);
      }
    }
  }

  std::uint32_t comment(std::uint32_t at, std::uint32_t end) {
    auto const stop = static_cast<std::uint32_t>(std::min<std::size_t>(text_.find('\n', at), end));
    auto text = text_.substr(at, stop - at);
    while (is_blank(text.back())) text.remove_suffix(1);
    bool const is_beside = line_breaks_ == 0 && row_ < rows_.size();
    bool const is_first = at == first_ || text_[at - 1] == '\n';
    waiting_.push_back({std::string(text), is_beside, !is_first, line_breaks_ > 1});
    line_breaks_ = 0;
    return stop;
  }

  std::uint32_t symbol(std::uint32_t at, std::uint32_t end) {
    auto const stop = symbol_end(at, end);
    Symbol out;
    auto const written = text_.substr(at, stop - at);
    out.written = written.front() == '"' ? on_one_line(written) : std::string(written);
    for (auto& comment : waiting_) {
      if (comment.is_beside)
        last_symbol().comment_beside = std::move(comment.text);
      else
        out.comments_above.push_back(std::move(comment.text));
    }
    waiting_.clear();
    rows_[row_].symbols.push_back(std::move(out));
    line_breaks_ = 0;
    return stop;
  }

  [[nodiscard]] std::uint32_t symbol_end(std::uint32_t at, std::uint32_t end) const {
    if (at < reference_from_)
      return static_cast<std::uint32_t>(syntax::symbol_end(text_.substr(0, end), at));
    return static_cast<std::uint32_t>(
        std::find_if(text_.begin() + at, text_.begin() + end, is_blank) - text_.begin());
  }

  std::string_view text_;
  std::vector<Row> rows_;
  std::size_t row_ = static_cast<std::size_t>(-1);  // the row that symbols go to
  std::uint32_t first_ = 0;
  std::uint32_t reference_from_ = 0;
  std::uint32_t line_breaks_ = 1;  // since the last symbol or comment
  std::vector<Comment> waiting_;
};

}  // namespace

std::vector<Row> read_rows(std::string_view text) { return RowReader(text).read(); }

std::vector<std::string> comments_of(std::vector<Row> const& rows) {
  std::vector<std::string> out;
  for (auto const& row : rows) {
    if (row.kind == Row::Kind::comment) out.push_back(row.comment);
    for (auto const& symbol : row.symbols) {
      out.insert(out.end(), symbol.comments_above.begin(), symbol.comments_above.end());
      if (!symbol.comment_beside.empty()) out.push_back(symbol.comment_beside);
    }
  }
  return out;
}

}  // namespace flinch::syntax
