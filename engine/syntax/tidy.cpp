#include "flinch/syntax/tidy.hpp"

#include <algorithm>

#include "flinch/text/display.hpp"
#include "syntax/rows.hpp"

namespace flinch::syntax {
namespace {

constexpr std::size_t clause_indent = 2;
constexpr std::size_t further_indent = 4;
constexpr std::size_t comment_column = 32;  // where a comment beside short lines begins

bool stands_close(std::string const& before, std::string const& symbol) {
  constexpr std::string_view closing = ",):%^";
  return before == "(" || closing.find(symbol.front()) != std::string_view::npos;
}

// Writes the lines of one statement or clause.
class RowWriter {
 public:
  RowWriter(Row const& row, std::string& out) : row_(row), symbols_(row.symbols), out_(out) {}

  void write() {
    indent_ = row_.kind == Row::Kind::clause ? clause_indent : 0;
    bool const is_wide = indent_ + width(0, without_reason(symbols_.size())) > tidy_width;
    std::size_t begin = 0;
    for (std::size_t at = 0; at < symbols_.size(); ++at) {
      auto const& symbol = symbols_[at];
      bool const must_break = !symbol.comments_above.empty() || (is_wide && heads_condition(at)) ||
                              (at > 0 && !symbols_[at - 1].comment_beside.empty());
      if (!must_break) continue;
      lines(begin, at);
      for (auto const& comment : symbol.comments_above)
        out_ += std::string(further_indent, ' ') + comment + '\n';
      begin = at;
    }
    lines(begin, symbols_.size());
  }

 private:
  // Lines may break behind a comma, in a condition before `and` and `or`, in `alone see` before
  // its `unless`, its reason and its sources.
  [[nodiscard]] bool is_joint(std::size_t at) const {
    if (symbols_[at - 1].written == ",") return true;
    auto const& here = symbols_[at].written;
    if (symbols_.front().written == "alone" &&
        (here == "unless" || here == "because" || here == "cite"))
      return true;
    if (row_.content != Content::condition) return false;
    auto const& word = symbols_[at].written;
    return word == "or" || (word == "and" && !closes_between(at));
  }
  // `between 1 and 3`: this `and` joins no conditions.
  [[nodiscard]] bool closes_between(std::size_t at) const {
    for (std::size_t back = 1; back <= 4 && back <= at; ++back)
      if (symbols_[at - back].written == "between") return true;
    return false;
  }
  // A meaning that is too long for its line begins in the next.
  [[nodiscard]] bool heads_condition(std::size_t at) const {
    return at > 0 && row_.kind == Row::Kind::statement && row_.content == Content::condition &&
           symbols_[at - 1].written == ":";
  }

  [[nodiscard]] std::size_t width(std::size_t begin, std::size_t end) const {
    std::size_t columns = 0;
    for (auto at = begin; at < end; ++at)
      columns += display_width(symbols_[at].written) + (at > begin ? gap_before(at) : 0);
    return columns;
  }
  [[nodiscard]] std::size_t gap_before(std::size_t at) const {
    return stands_close(symbols_[at - 1].written, symbols_[at].written) ? 0 : 1;
  }
  // The reason behind a condition stays on its line, however long it is.
  [[nodiscard]] std::size_t without_reason(std::size_t end) const {
    bool const is_reason = row_.content == Content::condition && end == symbols_.size() &&
                           symbols_[end - 1].written.front() == '"';
    return is_reason ? end - 1 : end;
  }

  // Writes symbols that stand together, in as many lines as they need.
  void lines(std::size_t begin, std::size_t end) {
    while (begin < end) {
      auto const stop = line_end(begin, end);
      line(begin, stop);
      begin = stop;
      indent_ = further_indent;
    }
  }

  // Where the line that starts at `begin` ends: at the joint with the fewest parentheses open
  // around it, the last of them that fits; where none fits, at the first.
  [[nodiscard]] std::size_t line_end(std::size_t begin, std::size_t end) const {
    auto const last = without_reason(end);
    auto columns = indent_;
    std::size_t open = 0;
    std::size_t fewest_open = 0;
    std::optional<std::size_t> best;
    for (auto at = begin; at < last; ++at) {
      if (at > begin && is_joint(at) && (!best || open <= fewest_open)) {
        best = at;
        fewest_open = open;
      }
      columns += display_width(symbols_[at].written) + (at > begin ? gap_before(at) : 0);
      if (columns > tidy_width && best) return *best;
      if (symbols_[at].written == "(") ++open;
      if (symbols_[at].written == ")" && open > 0) --open;
    }
    return end;
  }

  void line(std::size_t begin, std::size_t end) {
    std::string text(indent_, ' ');
    for (auto at = begin; at < end; ++at) {
      if (at > begin) text.append(gap_before(at), ' ');
      text += symbols_[at].written;
    }
    if (auto const& comment = symbols_[end - 1].comment_beside; !comment.empty()) {
      auto const columns = display_width(text);
      text.append(columns + 2 <= comment_column ? comment_column - columns : 2, ' ');
      text += comment;
    }
    out_ += text + '\n';
  }

  Row const& row_;
  std::vector<Symbol> const& symbols_;
  std::string& out_;
  std::size_t indent_ = 0;
};

// Which comments between statements belong to the one above: those that are indented and follow it
// without a blank line.
class FileWriter {
 public:
  explicit FileWriter(std::vector<Row> const& rows) : rows_(rows) {}

  std::string write() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      auto const& row = rows_[i];
      bool const is_inside = row.kind == Row::Kind::clause ||
                             (row.kind == Row::Kind::comment && is_inside_statement(i));
      is_inside_ = is_inside || row.kind == Row::Kind::statement;
      if (!is_inside && row.after_blank_line && !out_.empty()) out_ += '\n';
      if (row.kind == Row::Kind::comment)
        out_ += std::string(is_inside ? clause_indent : 0, ' ') + row.comment + '\n';
      else
        RowWriter(row, out_).write();
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool is_inside_statement(std::size_t at) const {
    for (auto next = at + 1; next < rows_.size(); ++next) {
      if (rows_[next].kind == Row::Kind::comment) continue;
      if (rows_[next].kind == Row::Kind::clause) return true;
      break;
    }
    return is_inside_ && rows_[at].is_indented && !rows_[at].after_blank_line;
  }

  std::vector<Row> const& rows_;
  std::string out_;
  bool is_inside_ = false;
};

}  // namespace

std::optional<std::string> tidy(SourceSet const& sources, FileId file, Limits const& limits,
                                Report& report) {
  auto const errors = report.error_count();
  (void)parse(sources, file, limits, report);
  if (report.error_count() != errors) return std::nullopt;
  return FileWriter(read_rows(sources[file].text())).write();
}

bool says_the_same(std::string_view before, std::string_view after) {
  SourceSet sources;
  Report report;
  auto const one = sources.add("before", std::string(before));
  auto const other = sources.add("after", std::string(after));
  if (!(parse(sources, one, {}, report) == parse(sources, other, {}, report))) return false;
  return !report.has_errors() && comments_of(read_rows(before)) == comments_of(read_rows(after));
}

}  // namespace flinch::syntax
