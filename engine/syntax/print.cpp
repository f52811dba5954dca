#include "flinch/syntax/print.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>

#include "syntax/clauses.hpp"
#include "syntax/written.hpp"

namespace flinch::syntax {
namespace {

std::string title_of(std::optional<Text> const& title) {
  return title ? ' ' + written(*title) : std::string();
}

// What stands behind the keyword.
std::string first_line(Include const& s) { return written(s.file); }
std::string first_line(Head const& s) { return s.name.text + title_of(s.title); }
std::string first_line(Site const& s) {
  return s.name.text + title_of(s.title) + (s.inside ? " in " + s.inside->text : "") +
         (s.paired ? " paired" : "");
}
std::string first_line(Breeds const& s) { return s.name.text + ' ' + written(s.members); }
std::string first_line(Means const& s) {
  return s.name.text + title_of(s.title) + ": " + written(s.condition);
}
std::string first_line(Family const& s) {
  return s.name.text + title_of(s.title) + ": " + written(s.members);
}
std::string first_line(Overlap const& s) {
  return fmt::format("{} shares {}: {}", s.name.text, written(s.shares), written(s.rules));
}

}  // namespace

std::string print_number(double value) {
  std::array<char, 400> digits{};
  auto const [end, error] =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return {digits.data(), error == std::errc{} ? end : digits.data()};
}

std::string print(Condition const& condition) { return written(condition); }

std::string print(Frequencies const& frequencies) { return written(frequencies); }

std::string print(Dose const& dose) { return written(dose); }

std::string print(Form const& form) { return written(form); }

std::string print(Promise const& promise) { return written(promise); }

std::string print(Reading const& reading) { return "read by " + written(reading); }

std::string print(Statement const& statement) {
  return std::visit(
      []<class T>(T const& s) {
        auto out = fmt::format("{} {}\n", opening<T>.keyword(), first_line(s));
        for (auto const& clause : clauses_of<T>()) clause.write(clause, s, out);
        return out;
      },
      statement);
}

std::string print(File const& file) {
  std::string out;
  for (auto const& statement : file.statements) out += (out.empty() ? "" : "\n") + print(statement);
  return out;
}

}  // namespace flinch::syntax
