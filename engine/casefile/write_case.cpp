#include "flinch/casefile/write_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <functional>

#include "casefile/free_texts.hpp"
#include "flinch/model/choice.hpp"
#include "flinch/text/display.hpp"
#include "model/told.hpp"

namespace flinch {
namespace {

constexpr bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

// Words that YAML takes as they stand: it reads some others (`null`, `-`, `a: b`) as something
// else.
bool is_plain(std::string_view text) {
  if (text.empty() || !is_letter_or_digit(text.front()) || text.back() == ' ') return false;
  if (text == "null" || text == "Null" || text == "NULL") return false;
  return std::all_of(text.begin(), text.end(), [](char c) {
    return is_letter_or_digit(c) || c == '_' || c == ' ' || c == '.' || c == '\'' || c == '%';
  });
}

// Code points that a screen or an editor would act upon, not show.
bool acts_on_a_screen(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x200E || c == 0x200F ||
         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF;
}

std::string quoted(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";
  std::string out = "\"";
  while (!text.empty()) {
    // The valid characters up to the next bad byte, which is replaced.
    auto const bad = std::min(find_invalid_utf8(text), text.size());
    for (std::size_t at = 0; at < bad;) {
      auto end = at + 1;
      while (end < bad && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
      auto const character = text.substr(at, end - at);
      auto const point = first_code_point(character);
      if (character == "\"" || character == "\\")
        out += '\\' + std::string(character);
      else if (character == "\n")
        out += "\\n";
      else if (acts_on_a_screen(point))
        out += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(point));
      else
        out += character;
      at = end;
    }
    if (bad < text.size()) out += replacement;
    text.remove_prefix(std::min(bad + 1, text.size()));
  }
  return out + '"';
}

// The shortest digits that read back as the same number, without an exponent.
std::string exact(double value) {
  std::array<char, 512> digits{};  // the longest double takes 327
  auto const [end, error] =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return error == std::errc{} ? std::string(digits.data(), end) : "0";
}

// Whether words stand as they are where YAML takes them so, or all in quotes, as JSON has it.
enum class Quotes : bool { where_needed, always };

class CaseWriter {
 public:
  CaseWriter(Case const& patient, Pack const& pack, Quotes quotes)
      : patient_(patient), pack_(pack), quotes_(quotes) {}

  std::string write() {
    for (auto const& one : free_texts)
      if (auto const& text = patient_.*(one.member); !text.empty())
        out_ += fmt::format("{}: {}\n", one.key, quoted(text));
    gather();
    auto const heading = fmt::format("{}:\n", pack_.patient_key());
    out_ += heading;
    if (!pack_.species.empty()) out_ += fmt::format("  species: {}\n", word(pack_.species));
    lines([](Sign const& sign) { return sign.of_the_patient; });
    if (out_.ends_with(heading)) out_.insert(out_.size() - 1, " {}");
    came_for();
    out_ += "answers:\n";
    lines([](Sign const& sign) { return !sign.of_the_patient; });
    if (patient_.outcome) outcome(*patient_.outcome);
    return out_;
  }

  std::string write_line() {
    gather();
    for (auto const& one : free_texts)
      if (auto const& text = patient_.*(one.member); !text.empty()) member(one.key, quoted(text));
    auto const on_the_patient = [](Sign const& sign) { return sign.of_the_patient; };
    if (auto const patient = members(
            pack_.species.empty() ? "" : "\"species\": " + quoted(pack_.species), on_the_patient);
        !patient.empty())
      member(pack_.patient_key(), '{' + patient + '}');
    if (auto const names = complaint(); !names.empty()) member("came for", '[' + names + ']');
    member("answers", '{' + members("", std::not_fn(on_the_patient)) + '}');
    if (auto const& closed = patient_.outcome;
        closed && (closed->is_cause_known || closed->needed)) {
      std::string both;
      if (closed->is_cause_known) both = "\"cause\": " + quoted(cause_name(*closed));
      if (closed->needed)
        both += (both.empty() ? "" : ", ") + ("\"needed\": " + quoted(pack_[*closed->needed].name));
      member("outcome", '{' + both + '}');
    }
    return '{' + out_ + '}';
  }

 private:
  [[nodiscard]] std::string word(std::string_view text) const {
    return quotes_ == Quotes::where_needed && is_plain(text) ? std::string(text) : quoted(text);
  }

  [[nodiscard]] std::string cause_name(CaseOutcome const& closed) const {
    return closed.cause ? pack_[*closed.cause].name : "none";
  }

  void member(std::string_view key, std::string const& value) {
    out_ += fmt::format("{}{}: {}", out_.empty() ? "" : ", ", quoted(key), value);
  }

  template <class Wanted>
  [[nodiscard]] std::string members(std::string out, Wanted const& wanted) const {
    for (auto const& [sign, text] : answers_)
      if (wanted(pack_[sign]))
        out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", quoted(pack_[sign].name), text);
    return out;
  }

  void outcome(CaseOutcome const& closed) {
    out_ += "outcome:\n";
    if (closed.is_cause_known) out_ += fmt::format("  cause: {}\n", word(cause_name(closed)));
    if (closed.needed) out_ += fmt::format("  needed: {}\n", word(pack_[*closed.needed].name));
  }

  // What is no longer answered so that it is there would not be read back.
  [[nodiscard]] std::string complaint() const {
    std::string names;
    if (patient_.came_for.empty()) return names;
    Told const is_told(pack_);
    for (auto const sign : patient_.came_for)
      if (std::any_of(patient_.answers.begin(), patient_.answers.end(), [&](auto const& answer) {
            return answer.first == sign && is_told(sign, answer.second);
          }))
        names += (names.empty() ? "" : ", ") + word(pack_[sign].name);
    return names;
  }

  void came_for() {
    if (auto const names = complaint(); !names.empty())
      out_ += fmt::format("came for: [{}]\n", names);
  }

  void gather() {
    for (auto const& [sign, answer] : patient_.answers)
      if (auto const text = answer_text(pack_[sign], answer); !text.empty())
        answers_.emplace_back(sign, text);
    for (auto const sign : patient_.cannot_tell) answers_.emplace_back(sign, word("can't tell"));
    std::stable_sort(answers_.begin(), answers_.end(),
                     [](auto const& a, auto const& b) { return a.first < b.first; });
  }

  template <class Wanted>
  void lines(Wanted const& wanted) {
    for (auto const& [sign, text] : answers_)
      if (wanted(pack_[sign])) out_ += fmt::format("  {}: {}\n", word(pack_[sign].name), text);
  }

  [[nodiscard]] std::string answer_text(Sign const& sign, Answer const& answer) const {
    if (auto const* yes = std::get_if<bool>(&answer)) return word(*yes ? "yes" : "no");
    if (auto const* choice = std::get_if<Choice>(&answer))
      return word(choice_name(pack_, sign, *choice));
    if (auto const* number = std::get_if<double>(&answer)) {
      auto const amount = exact(*number);
      return word(sign.unit.name.empty() ? amount : fmt::format("{} {}", amount, sign.unit.name));
    }
    return findings_text(std::get<Findings>(answer));
  }

  [[nodiscard]] std::string findings_text(Findings const& findings) const {
    if (findings.clear.empty() && findings.found.empty())
      return findings.found_somewhere ? word("yes") : findings.clear_everywhere ? word("no") : "";
    auto const yes = quotes_ == Quotes::always ? "true" : "yes";
    auto const found = !findings.found.empty()    ? word("found") + ": " + sites(findings.found)
                       : findings.found_somewhere ? word("found") + ": " + yes
                                                  : std::string();
    auto const clear = findings.clear.empty() ? "" : word("clear") + ": " + sites(findings.clear);
    return fmt::format("{{{}{}{}}}", found, found.empty() || clear.empty() ? "" : ", ", clear);
  }

  [[nodiscard]] std::string sites(std::vector<SiteMark> const& marks) const {
    std::string out;
    for (auto const& mark : marks) {
      auto const side = mark.side == Side::left    ? "left "
                        : mark.side == Side::right ? "right "
                                                   : "";
      out += (out.empty() ? "" : ", ") + word(side + pack_[mark.site].name);
    }
    return '[' + out + ']';
  }

  Case const& patient_;
  Pack const& pack_;
  Quotes quotes_;
  std::vector<std::pair<SignId, std::string>> answers_;
  std::string out_;
};

}  // namespace

std::string write_case(Case const& patient, Pack const& pack) {
  return CaseWriter(patient, pack, Quotes::where_needed).write();
}

std::string write_case_line(Case const& patient, Pack const& pack) {
  return CaseWriter(patient, pack, Quotes::always).write_line();
}

}  // namespace flinch
