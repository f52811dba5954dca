#include "flinch/syntax/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/crc.hpp>
#include <charconv>
#include <chrono>
#include <optional>

#include "flinch/syntax/print.hpp"
#include "syntax/layout.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

template <class T>
constexpr bool takes_readings = !std::is_same_v<T, Include>;

std::optional<unsigned> number(std::string_view digits) {
  unsigned out = 0;
  auto const [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), out);
  if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
  return out;
}

bool has_visible(std::string_view text) { return !std::all_of(text.begin(), text.end(), is_blank); }

struct Edit {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::string text;
};

// Where the statement's last symbol ends: behind it only blanks and comments follow.
std::size_t last_symbol_end(std::string_view text, std::size_t begin, std::size_t end) {
  std::size_t out = begin;
  for (auto at = begin; at < end;) {
    if (is_blank(text[at]))
      ++at;
    else if (text[at] == '#')
      at = std::min(text.find('\n', at), end);
    else
      at = out = symbol_end(text.substr(0, end), at);
  }
  return out;
}

}  // namespace

std::string mark_of_text(std::string_view text) {
  boost::crc_32_type crc;
  crc.process_bytes(text.data(), text.size());
  return fmt::format("{:08x}", crc.checksum());
}

std::string mark_of(Statement const& statement) {
  auto bare = statement;
  std::visit(
      []<class T>(T& s) {
        if constexpr (takes_readings<T>) s.readings.clear();
      },
      bare);
  return mark_of_text(print(bare));
}

std::vector<Reading> const& readings_of(Statement const& statement) {
  static std::vector<Reading> const none;
  return std::visit(
      []<class T>(T const& s) -> std::vector<Reading> const& {
        if constexpr (takes_readings<T>)
          return s.readings;
        else
          return none;
      },
      statement);
}

Name const* name_of(Statement const& statement) {
  return std::visit(
      []<class T>(T const& s) -> Name const* {
        if constexpr (takes_readings<T>)
          return &s.name;
        else
          return nullptr;
      },
      statement);
}

bool is_reader(std::string_view text) {
  auto const comma = text.find(',');
  return comma != std::string_view::npos && has_visible(text.substr(0, comma)) &&
         has_visible(text.substr(comma + 1));
}

bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  auto const year = number(text.substr(0, 4));
  auto const month = number(text.substr(5, 2));
  auto const day = number(text.substr(8, 2));
  return year && month && day &&
         std::chrono::year_month_day(std::chrono::year(static_cast<int>(*year)),
                                     std::chrono::month(*month), std::chrono::day(*day))
             .ok();
}

bool is_mark(std::string_view text) {
  return text.size() == 8 && std::all_of(text.begin(), text.end(), [](char c) {
           return is_digit(c) || (c >= 'a' && c <= 'f');
         });
}

std::string with_readings(std::string_view text, File const& file,
                          std::vector<std::size_t> const& statements, std::string const& reader,
                          std::string const& date) {
  Report ignored;  // the file was read without one
  std::vector<std::size_t> begins;
  for (auto const& line : read_lines(text, FileId{}, ignored))
    if (line.in_first_column) begins.push_back(line.begin);
  begins.push_back(text.size());

  std::vector<Edit> edits;
  for (auto const index : statements) {
    auto const& statement = file.statements[index];
    auto const mark = mark_of(statement);
    auto const& readings = readings_of(statement);
    auto const earlier = std::find_if(readings.begin(), readings.end(), [&](Reading const& one) {
      return one.reader.text == reader;
    });
    if (earlier != readings.end()) {
      auto const& last = earlier->mark ? *earlier->mark : earlier->date;
      edits.push_back(
          {earlier->date.at.span.begin, last.at.span.end, fmt::format("{} mark {}", date, mark)});
      continue;
    }
    Reading const added{{reader, {}}, {date, {}}, Name{mark, {}}};
    auto const symbol_end = last_symbol_end(text, begins[index], begins[index + 1]);
    auto const line_end = std::min(text.find('\n', symbol_end), text.size());
    // A file whose lines end in both characters keeps them.
    bool const has_return = line_end > 0 && line_end < text.size() && text[line_end - 1] == '\r';
    edits.push_back(
        {line_end, line_end, fmt::format("\n  {}{}", print(added), has_return ? "\r" : "")});
  }
  std::sort(edits.begin(), edits.end(),
            [](Edit const& a, Edit const& b) { return a.begin < b.begin; });
  std::string out;
  std::size_t done = 0;
  for (auto const& edit : edits) {
    out += text.substr(done, edit.begin - done);
    out += edit.text;
    done = edit.end;
  }
  out += text.substr(done);
  return out;
}

}  // namespace flinch::syntax
