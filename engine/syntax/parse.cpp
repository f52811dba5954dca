#include "flinch/syntax/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <variant>

#include "flinch/syntax/vocabulary.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "syntax/clauses.hpp"
#include "syntax/hints.hpp"
#include "syntax/layout.hpp"
#include "syntax/meant_lines.hpp"
#include "syntax/words.hpp"
#include "syntax/words_for_name.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax {
namespace {

class FileParser {
 public:
  FileParser(std::string_view text, FileId file, Limits const& limits, Report& report)
      : text_(text), file_(file), limits_(limits), report_(report) {}

  File parse() {
    lines_ = read_lines(text_, file_, report_);
    // Statements are large; growing step by step would copy each of them many times.
    out_.statements.reserve(static_cast<std::size_t>(std::count_if(
        lines_.begin(), lines_.end(), [](Line const& line) { return line.in_first_column; })));
    for (std::size_t i = 0; i < lines_.size();) {
      auto next = i + 1;
      std::optional<std::size_t> stray;
      while (next < lines_.size()) {
        if (lines_[next].in_first_column) {
          if (!is_clause_of(lines_[i], lines_[next])) break;
          if (!stray) stray = next;
        }
        ++next;
      }
      if (stray) not_indented(lines_[i], lines_[*stray]);
      statement(std::span(lines_).subspan(i, next - i));
      if (report_.error_count() >= limits_.errors) {
        report_.error(Code::too_many_errors, {file_, {lines_[i].begin, lines_[i].begin}},
                      "too many errors: reading stops here");
        break;
      }
      i = next;
    }
    return std::move(out_);
  }

 private:
  using Reader = void (FileParser::*)(std::span<Line const>);
  struct Keyword {
    std::string_view word;
    Reader read;
  };
  template <class... T>
  static constexpr std::array<Keyword, sizeof...(T)> readers_of(std::variant<T...> const*) {
    return {{{opening<T>.keyword(), &FileParser::statement<T>}...}};
  }
  static auto const& keywords() {
    static constexpr auto all = readers_of(static_cast<Statement const*>(nullptr));
    return all;
  }

  [[nodiscard]] Place place(std::uint32_t begin, std::uint32_t end) const {
    return {file_, {begin, end}};
  }
  template <class T>
  [[nodiscard]] Stretch clause_stretch(std::uint32_t begin, std::uint32_t end,
                                       Clause<T> const& clause) const {
    return {file_,          text_,       {begin, end}, limits_.depth,
            clause.content, clause.form, clause.holds, clause.refers};
  }
  // What stands between the keyword of a statement and its first clause.
  template <class T>
  [[nodiscard]] Stretch head_stretch(std::span<Line const> lines, std::size_t first_clause) const {
    auto const after_keyword =
        lines[0].begin + static_cast<std::uint32_t>(opening<T>.keyword().size());
    return {file_,
            text_,
            {after_keyword, lines[first_clause - 1].end},
            limits_.depth,
            opening<T>.content,
            opening<T>.form,
            opening<T>.holds};
  }

  // A line in the first column that can only be a clause of the statement above it.
  [[nodiscard]] bool is_clause_of(Line const& head, Line const& line) const {
    auto const* words =
        head.in_first_column ? find_statement_words(word_at(text_, head.begin)) : nullptr;
    if (words == nullptr || find_statement_words(word_at(text_, line.begin)) != nullptr)
      return false;
    return syntax::clause_at(text_, line.begin, words->clauses) != nullptr;
  }

  // Said once a statement, whose other lines are read as if they were indented.
  void not_indented(Line const& head, Line const& line) {
    auto const word = word_at(text_, line.begin);
    auto const end = line.begin + static_cast<std::uint32_t>(word.size());
    report_
        .error(Code::clause_not_indented, place(line.begin, end),
               fmt::format("`{}` is a clause of the `{}` above: indent it by a blank or two", word,
                           word_at(text_, head.begin)))
        .notes.push_back({"only statements begin in the first column", {}});
  }

  void statement(std::span<Line const> lines) {
    auto const& first = lines.front();
    auto const word = word_at(text_, first.begin);
    if (!first.in_first_column) {
      report_.error(Code::indented_start, place(first.begin, first.begin + 1),
                    "a file starts with a statement in the first column");
      return;
    }
    auto const* known = std::find_if(keywords().begin(), keywords().end(),
                                     [&](auto const& k) { return k.word == word; });
    if (known == keywords().end()) return unknown_statement(first, word);
    (this->*known->read)(lines);
  }

  void unknown_statement(Line const& line, std::string_view word) {
    auto const at = line.begin;
    std::vector<std::string_view> words;
    for (auto const& keyword : keywords()) words.push_back(keyword.word);
    if (word.empty()) {
      auto& error = report_.error(Code::unknown_statement, place(at, at + 1),
                                  "a line in the first column starts a statement with its keyword");
      if (auto hint = writing_hint({text_, {at, line.end}, at, "a statement", Content::symbols}))
        error.notes.push_back({std::move(hint->note), {}});
      else
        error.notes.push_back(
            {"a text that goes on is indented, and so is a clause; a comment begins with `#`", {}});
      return;
    }
    lose(line);
    auto const size = static_cast<std::uint32_t>(std::min<std::size_t>(word.size(), 60));
    auto& error = report_.error(Code::unknown_statement, place(at, at + size),
                                fmt::format("unknown statement `{}`", word.substr(0, size)));
    if (auto const meant = meant_statement(word))
      error.did_you_mean(*meant);
    else if (auto const near = nearest(word, words))
      error.did_you_mean(*near);
    else
      error.notes.push_back({fmt::format("statements are {}", fmt::join(words, ", ")), {}});
  }

  // Keeps the name of a statement that could not be read: those who use it are not to blame. Where
  // the name is none, they may write it in any way.
  void lose(Line const& line) {
    auto const keyword = word_at(text_, line.begin);
    Lost lost{std::string(meant_statement(keyword).value_or(keyword)), {}, true};
    auto const line_end = static_cast<std::uint32_t>(
        std::min<std::size_t>({text_.find('\n', line.begin), line.end, text_.size()}));
    std::string joined;
    // Each is kept with all before it: a long line of words would take its length squared.
    constexpr std::size_t most_names = 9;
    for (auto at = line.begin + static_cast<std::uint32_t>(keyword.size());
         at < line_end && lost.names.size() < most_names;) {
      if (is_blank(text_[at])) {
        ++at;
        continue;
      }
      auto const run = name_like(text_, {at, line_end}, at);
      if (run.end == run.begin) break;
      auto const written = text_.substr(run.begin, run.end - run.begin);
      if (joined.empty()) lost.is_unreadable = !is_name(written);
      joined += (joined.empty() ? "" : "_") + as_name(written).value_or(std::string(written));
      if (lost.names.empty()) lost.names.emplace_back(written);
      lost.names.push_back(joined);
      at = run.end;
    }
    out_.lost.push_back(std::move(lost));
  }

  // The clause that begins with this line, if one does.
  template <class T>
  static Clause<T> const* clause_at(std::string_view text, Line const& line) {
    return line.after_comma ? nullptr : syntax::clause_at(text, line.begin, clauses_of<T>());
  }

  // Which line of a statement begins its first clause.
  template <class T>
  [[nodiscard]] std::size_t first_clause(std::span<Line const> lines) const {
    std::size_t next = 1;
    while (next < lines.size() && clause_at<T>(text_, lines[next]) == nullptr) ++next;
    return next;
  }

  template <class T>
  void with_clauses(std::span<Line const> lines) {
    auto const next = first_clause<T>(lines);
    auto head =
        read_with_hint<T>(head_stretch<T>(lines, next), lines.subspan(1, next - 1), grammar::head);
    if (!head) return lose(lines[0]);
    T out;
    static_cast<Head&>(out) = std::move(*head);
    read_clauses(lines.subspan(next), out);
    out_.statements.emplace_back(std::move(out));
  }

  // Notes the clauses that could not be read.
  template <class T>
  void read_clauses(std::span<Line const> lines, T& out) {
    std::vector<std::optional<Place>> seen(clauses_of<T>().size());
    Damage damage{out_.statements.size(), {}, false};
    for (std::size_t i = 0; i < lines.size();) {
      auto const* clause = clause_at<T>(text_, lines[i]);
      auto next = i + 1;
      while (next < lines.size() && clause_at<T>(text_, lines[next]) == nullptr) ++next;
      if (auto const* meant = meant_instead<T>(lines[i])) {
        damage.clauses.push_back(clause->phrase);
        damage.clauses.push_back(meant->clause);
        damage.is_wide = true;
        i = next;
        continue;
      }
      auto const after = phrase_at(text_, lines[i].begin, clause->phrase);
      auto& earlier = seen.at(static_cast<std::size_t>(clause - clauses_of<T>().data()));
      auto const at = place(lines[i].begin, after);
      if (earlier && clause->often == Often::once) {
        report_.error(Code::clause_twice, at, fmt::format("`{}` is given twice", clause->phrase))
            .notes.push_back({"first given here", *earlier});
        damage.clauses.push_back(clause->phrase);
      } else {
        earlier = at;
        is_wide_ = false;
        meant_ = {};
        auto const errors = report_.error_count();
        bool const is_read = read_with_hint<T>(
            clause_stretch(after, lines[next - 1].end, *clause), lines.subspan(i + 1, next - i - 1),
            [&](Stretch const& piece, Report& report) { return clause->read(piece, report, out); });
        if (!is_read) {
          damage.clauses.push_back(clause->phrase);
          if (!meant_.empty()) damage.clauses.push_back(meant_);
          // What an open text has swallowed was said where the lines were read.
          damage.is_wide = damage.is_wide || is_wide_ || report_.error_count() == errors;
        }
      }
      i = next;
    }
    if (!damage.clauses.empty()) out_.damaged.push_back(std::move(damage));
  }

  // Reads a clause. Where it fails at the start of a further line, that line was probably meant as
  // a clause of its own, and the nearest clause words are named; where it fails at words that begin
  // a clause, in the middle of a line, they belong on the next.
  template <class T, class Read>
  auto read_with_hint(Stretch const& s, std::span<Line const> further, Read const& read) {
    Report own;
    auto result = read(s, own);
    for (auto& diagnostic : own.take()) {
      auto const at = diagnostic.at.span.begin;
      bool const heads_line = std::any_of(further.begin(), further.end(),
                                          [&](Line const& line) { return line.begin == at; });
      is_wide_ = is_wide_ || heads_line;
      if (heads_line)
        name_clauses<T>(at, s.span.end, diagnostic);
      else if (diagnostic.code == Code::expected && at < s.span.end &&
               !own_line<T>(s, at, diagnostic))
        if (auto words = words_for_name(s, diagnostic.at))
          out_.words_for_names.push_back(std::move(*words));
      auto& error = report_.error(diagnostic.code, diagnostic.at, std::move(diagnostic.message));
      error.notes = std::move(diagnostic.notes);
      error.instead = std::move(diagnostic.instead);
    }
    return result;
  }

  // `avoid if ill`: begins as a clause does, and is another. Says so.
  template <class T>
  MeantLine const* meant_instead(Line const& line) {
    auto const* meant = meant_at<T>(line.begin, line.end);
    if (meant == nullptr || !meant->goes_on) return nullptr;
    auto& error = report_.error(Code::expected, place(line.begin, line.begin + 1),
                                fmt::format("expected a clause, found `{}`", meant->written));
    name_meant(*meant, line.begin, line.end, error);
    return meant;
  }

  template <class T>
  [[nodiscard]] MeantLine const* meant_at(std::uint32_t at, std::uint32_t end) const {
    constexpr std::size_t most_words = 4;  // of a row
    std::vector<std::string_view> phrases;
    for (auto const& clause : clauses_of<T>()) phrases.push_back(clause.phrase);
    return meant_line(lowered(words_at(at, end, most_words).first), phrases);
  }

  // The words that stand for the clause are underlined, and it may be written over them.
  void name_meant(MeantLine const& meant, std::uint32_t at, std::uint32_t end,
                  Diagnostic& diagnostic) const {
    auto const words =
        static_cast<std::size_t>(std::count(meant.written.begin(), meant.written.end(), ' ') + 1);
    diagnostic.at.span = {at, words_at(at, end, words).second};
    diagnostic.notes.clear();
    diagnostic.instead.reset();
    if (meant.remedy.empty())
      diagnostic.did_you_mean(meant.clause);
    else
      diagnostic.notes.push_back({std::string(meant.remedy), {}});
  }

  // Whether a clause of the statement begins there, in the middle of a line.
  template <class T>
  bool own_line(Stretch const& s, std::uint32_t at, Diagnostic& diagnostic) {
    // The parts of a dose and of a floor are called as clauses are.
    if (s.holds == Holds::dose || s.holds == Holds::floor) return false;
    // `temperature is over 40 C`, `expect no alarm`: a clause's word, and none begins here.
    auto before = text_.substr(s.span.begin, at - s.span.begin);
    while (!before.empty() && is_blank(before.back())) before.remove_suffix(1);
    bool const is_compared = s.content == Content::condition && before.ends_with(" is");
    if (is_compared || s.holds == Holds::promises) return false;
    for (auto const& clause : clauses_of<T>()) {
      if (clause.phrase == species_line || phrase_at(text_, at, clause.phrase) == 0) continue;
      is_wide_ = true;
      diagnostic.notes = {
          {fmt::format("each clause stands on a line of its own: `{}` begins the next",
                       clause.phrase),
           {}}};
      diagnostic.instead.reset();
      return true;
    }
    return false;
  }

  // `weight doubted over`: the clause of several words that is nearest to as many here.
  template <class T>
  bool name_whole_clause(std::uint32_t at, std::uint32_t end, Diagnostic& diagnostic) {
    std::string_view meant;
    Span place{at, at};
    auto least = std::string_view::npos;
    for (auto const& clause : clauses_of<T>()) {
      auto const words =
          static_cast<std::size_t>(std::count(clause.phrase.begin(), clause.phrase.end(), ' ') + 1);
      if (words == 1) continue;
      auto const [written, stop] = words_at(at, end, words);
      auto const limit = clause.phrase.size() / 3;
      auto const distance = edit_distance(written, clause.phrase, limit);
      if (distance > limit || distance >= least || !turns_alike(written, clause.phrase)) continue;
      least = distance;
      meant = clause.phrase;
      place.end = stop;
    }
    if (meant.empty()) return false;
    diagnostic.notes.clear();
    diagnostic.did_you_mean(meant);
    diagnostic.at.span = place;
    return true;
  }

  // Whether a word that turns the meaning round stands in both or in none: `not if` is never
  // `fit if`.
  [[nodiscard]] static bool turns_alike(std::string_view written, std::string_view phrase) {
    constexpr std::array<std::string_view, 6> words = {"not",    "no",     "never",
                                                       "unless", "except", "without"};
    auto const turns = [&](std::string_view text) {
      return std::count_if(words.begin(), words.end(), [&](auto const word) {
        auto const at = text.find(word);
        auto const end = at + word.size();
        return at != std::string_view::npos && (at == 0 || text[at - 1] == ' ') &&
               (end == text.size() || text[end] == ' ');
      });
    };
    return turns(written) == turns(phrase);
  }

  // So many words, single blanks between them, and where they end.
  [[nodiscard]] std::pair<std::string, std::uint32_t> words_at(std::uint32_t at, std::uint32_t end,
                                                               std::size_t count) const {
    constexpr std::size_t longest = 80;  // no clause is
    std::string out;
    auto stop = at;
    for (std::size_t i = 0; i < count && at < end && out.size() < longest; ++i) {
      auto const word = word_at(text_, at).substr(0, longest);
      if (word.empty()) break;
      out += (out.empty() ? "" : " ");
      out += word;
      stop = at + static_cast<std::uint32_t>(word.size());
      for (at = stop; at < end && (text_[at] == ' ' || text_[at] == '\t');) ++at;
    }
    return {out, stop};
  }

  // The statements that have a clause of this word, where this one has none that begins with it.
  [[nodiscard]] static std::vector<std::string> statements_with(
      std::string_view word, std::vector<std::string_view> const& own) {
    std::vector<std::string> out;
    for (auto const phrase : own)
      if (phrase.substr(0, phrase.find(' ')) == word) return out;
    for (auto const& statement : statement_words())
      for (auto const& clause : statement.clauses)
        if (clause.phrase == word) out.push_back(fmt::format("`{}`", statement.keyword));
    return out;
  }

  // `budgie: age 1 year`, `budgie 1 year`, `limps yes`, in an example.
  bool name_patient_line(std::uint32_t at, std::uint32_t end, Diagnostic& diagnostic) const {
    auto const word = word_at(text_, at);
    auto next = at + static_cast<std::uint32_t>(word.size());
    bool const has_colon = next < end && text_[next] == ':';
    while (next < end && (text_[next] == ' ' || text_[next] == '\t')) ++next;
    if (word.empty() || next >= end) return false;
    auto const behind = word_at(text_, next);
    if (behind == "yes" || behind == "no" || behind == "unknown") {
      diagnostic.notes = {
          {fmt::format("`{0}` stands first, and the signs behind it: `{0} {1}`", behind, word),
           {}}};
    } else if (has_colon || is_digit(text_[next])) {
      diagnostic.notes = {{fmt::format("what is told of the patient stands behind the pack's "
                                       "species without a colon, each fact with its name: "
                                       "`{} age 2 years, sex female`",
                                       word),
                           {}}};
    } else {
      return false;
    }
    diagnostic.instead.reset();
    return true;
  }

  // The first word of a clause that is nearest; none where the second turns the meaning round.
  [[nodiscard]] std::optional<std::string_view> nearest_alike(
      std::string_view word, std::vector<std::string_view> const& firsts,
      std::vector<std::string_view> const& phrases, std::uint32_t at, std::uint32_t end) const {
    auto const near = nearest(word, firsts);
    if (!near) return std::nullopt;
    auto const index = std::find(firsts.begin(), firsts.end(), *near) - firsts.begin();
    auto const& phrase = phrases[static_cast<std::size_t>(index)];
    if (!turns_alike(words_at(at, end, 2).first, phrase)) return std::nullopt;
    return firsts[static_cast<std::size_t>(index)];
  }

  // The name that stands behind the first word of the line, if one does.
  std::string_view value_behind(std::uint32_t at, std::uint32_t end) const {
    auto next = at + static_cast<std::uint32_t>(word_at(text_, at).size());
    while (next < end && (text_[next] == ' ' || text_[next] == '\t')) ++next;
    auto const behind = next < end ? word_at(text_, next) : std::string_view();
    return is_name(behind) && !is_reserved(behind) ? behind : std::string_view();
  }

  template <class T>
  void name_clauses(std::uint32_t at, std::uint32_t end, Diagnostic& diagnostic) {
    auto const word = word_at(text_, at);
    std::vector<std::string_view> firsts;
    std::vector<std::string_view> phrases;
    for (auto const& clause : clauses_of<T>()) {
      firsts.push_back(clause.phrase.substr(0, clause.phrase.find(' ')));
      phrases.push_back(clause.phrase);
    }
    auto const written_as_form = [](Note const& note) {
      return note.message.starts_with("written as in");
    };
    bool const has_patient =
        std::find(phrases.begin(), phrases.end(), species_line) != phrases.end();
    bool const is_fact = has_patient && std::find(patient_facts.begin(), patient_facts.end(),
                                                  word) != patient_facts.end();
    if (is_fact) {
      diagnostic.notes = {
          {fmt::format("what is told of the patient begins with the pack's species, "
                       "as in `{} {} ...`",
                       species_line, word),
           {}}};
      return;
    }
    if (has_patient && name_patient_line(at, end, diagnostic)) return;
    if (auto const* meant = meant_at<T>(at, end)) {
      meant_ = meant->clause;
      return name_meant(*meant, at, end, diagnostic);
    }
    if (word.empty()) {  // a mark; what is known of it was said
      std::erase_if(diagnostic.notes, written_as_form);
      if (!diagnostic.notes.empty()) return;
    }
    if (find_statement_words(word) != nullptr &&
        std::find(phrases.begin(), phrases.end(), word) == phrases.end()) {
      diagnostic.notes = {
          {fmt::format("`{}` begins a statement: write it in the first column", word), {}}};
      return;
    }
    if (name_whole_clause<T>(at, end, diagnostic)) return;
    if (auto const others = statements_with(word, phrases); !others.empty()) {
      diagnostic.notes = {
          {fmt::format("`{}` stands in {}: take it out here", word, fmt::join(others, ", ")), {}}};
    } else if (auto const meant = meant_clause(word, phrases)) {
      diagnostic.notes.clear();
      diagnostic.did_you_mean(*meant);
      if (meant->find(' ') != std::string_view::npos) diagnostic.instead.reset();
    } else if (auto const near = nearest_alike(word, firsts, phrases, at, end)) {
      auto const index = std::find(firsts.begin(), firsts.end(), *near) - firsts.begin();
      diagnostic.notes.clear();
      diagnostic.did_you_mean(phrases[static_cast<std::size_t>(index)]);
      diagnostic.instead = *near;  // of several words the first alone is underlined
    } else if (has_patient && !value_behind(at, end).empty()) {  // `eats nothing`
      diagnostic.notes = {
          {fmt::format("what is answered by a name or a number is told by `with`: `with {} {}`",
                       word, value_behind(at, end)),
           {}}};
    } else if (!phrases.empty()) {
      std::erase_if(diagnostic.notes, written_as_form);
      auto listed = fmt::format("clauses that fit here: {}", fmt::join(phrases, ", "));
      if (auto const line = listed.find(species_line); line != std::string::npos)
        listed.insert(line + species_line.size(), " age 2 years, sex female");
      diagnostic.notes.push_back({std::move(listed), {}});
    }
  }

  template <class T>
  void statement(std::span<Line const> lines) {
    if constexpr (opening<T>.read != nullptr)
      whole<T>(lines);
    else
      with_clauses<T>(lines);
  }

  template <class T>
  void whole(std::span<Line const> lines) {
    auto const next = first_clause<T>(lines);
    auto statement = read_with_hint<T>(head_stretch<T>(lines, next), lines.subspan(1, next - 1),
                                       opening<T>.read);
    if (!statement) return lose(lines[0]);
    read_clauses(lines.subspan(next), *statement);
    out_.statements.emplace_back(std::move(*statement));
  }

  std::string_view text_;
  FileId file_;
  Limits const& limits_;
  Report& report_;
  std::vector<Line> lines_;
  std::string_view meant_;  // the clause that took the place of the one that failed
  bool is_wide_ = false;    // a clause that failed took another with it
  File out_;
};

}  // namespace

File parse(SourceSet const& sources, FileId file, Limits const& limits, Report& report) {
  auto const text = sources[file].text();
  if (text.size() > limits.bytes) {
    report.error(
        Code::too_large, {file, {0, 0}},
        fmt::format("the file has more than {} bytes, and no more are read", limits.bytes));
    return {};
  }
  if (auto const bad = find_invalid_utf8(text); bad != std::string_view::npos) {
    auto const at = static_cast<std::uint32_t>(bad);
    report.error(Code::bad_utf8, {file, {at, at + 1}},
                 "this byte is not valid UTF-8: save the file as UTF-8");
    return {};
  }
  return FileParser(text, file, limits, report).parse();
}

}  // namespace flinch::syntax
