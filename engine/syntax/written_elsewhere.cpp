#include "syntax/written_elsewhere.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "flinch/text/display.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

constexpr std::array<std::string_view, 8> curly_quotes = {"“", "”", "„", "‟", "«", "»", "‘", "’"};

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_letter(char32_t c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (c >= 0xC0 && c <= 0x24F && c != 0xD7 && c != 0xF7);
}

}  // namespace

std::string lowered(std::string_view word) {
  std::string out(word);
  std::transform(out.begin(), out.end(), out.begin(), lower);
  return out;
}

bool is_name(std::string_view word) {
  return !word.empty() && is_name_start(word.front()) && !is_reserved(word) &&
         std::all_of(word.begin(), word.end(), is_name_part);
}

std::size_t letter_or_digit(std::string_view text) {
  if (text.empty()) return 0;
  if (is_word_part(text.front())) return 1;
  if (static_cast<unsigned char>(text.front()) < 0x80) return 0;
  return is_letter(first_code_point(text)) ? 2 : 0;  // up to U+024F: two bytes
}

std::size_t curly_quote(std::string_view text) {
  for (auto const quote : curly_quotes)
    if (text.starts_with(quote)) return quote.size();
  return 0;
}

Span name_like(std::string_view text, Span within, std::uint32_t at) {
  auto const part = [&](std::uint32_t p) -> std::uint32_t {
    if (p >= within.end) return 0;
    if (auto const length = letter_or_digit(text.substr(p, within.end - p)))
      return static_cast<std::uint32_t>(length);
    bool const joins = text[p] == '-' && p > within.begin && p + 1 < within.end &&
                       !is_blank(text[p - 1]) && text[p - 1] != '-' &&
                       letter_or_digit(text.substr(p + 1, within.end - p - 1)) != 0;
    return joins ? 1 : 0;
  };
  auto begin = at;
  while (begin > within.begin) {
    auto back = begin - 1;
    while (back > within.begin && (static_cast<unsigned char>(text[back]) & 0xC0U) == 0x80U) --back;
    if (part(back) != begin - back) break;
    begin = back;
  }
  auto end = at;
  while (auto const length = part(end)) end += length;
  return {begin, end};
}

std::optional<std::string> as_name(std::string_view written) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 8> pairs = {{{"ä", "ae"},
                                                                                   {"ö", "oe"},
                                                                                   {"ü", "ue"},
                                                                                   {"Ä", "ae"},
                                                                                   {"Ö", "oe"},
                                                                                   {"Ü", "ue"},
                                                                                   {"ß", "ss"},
                                                                                   {"æ", "ae"}}};
  constexpr std::array<std::pair<std::string_view, char>, 7> accents = {{{"àáâãåÀÁÂÃÅ", 'a'},
                                                                         {"èéêëÈÉÊË", 'e'},
                                                                         {"ìíîïÌÍÎÏ", 'i'},
                                                                         {"òóôõøÒÓÔÕØ", 'o'},
                                                                         {"ùúûÙÚÛ", 'u'},
                                                                         {"ñÑ", 'n'},
                                                                         {"çÇ", 'c'}}};
  std::string out;
  for (std::size_t i = 0; i < written.size();) {
    char const c = written[i];
    if (static_cast<unsigned char>(c) < 0x80) {
      out += c == '-' ? '_' : lower(c);
      ++i;
      continue;
    }
    auto const letter = written.substr(i, 2);
    i += 2;
    auto const* const two = std::find_if(pairs.begin(), pairs.end(),
                                         [&](auto const& pair) { return pair.first == letter; });
    if (two != pairs.end()) {
      out += two->second;
      continue;
    }
    auto const* const one = std::find_if(accents.begin(), accents.end(), [&](auto const& accent) {
      return accent.first.find(letter) != std::string_view::npos;
    });
    if (one == accents.end()) return std::nullopt;
    out += one->second;
  }
  if (!is_name(out)) return std::nullopt;
  return out;
}

std::optional<std::string> said_here(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 31> words = {{
      {"orally", "by mouth"},
      {"oral", "by mouth"},
      {"po", "by mouth"},
      {"iv", "into the vein"},
      {"intravenously", "into the vein"},
      {"intravenous", "into the vein"},
      {"im", "into the muscle"},
      {"intramuscularly", "into the muscle"},
      {"intramuscular", "into the muscle"},
      {"sc", "under the skin"},
      {"sq", "under the skin"},
      {"subq", "under the skin"},
      {"subcut", "under the skin"},
      {"subcutaneous", "under the skin"},
      {"subcutaneously", "under the skin"},
      {"topically", "onto the skin"},
      {"topical", "onto the skin"},
      {"rectally", "into the rectum"},
      {"sid", "once a day"},
      {"od", "once a day"},
      {"daily", "once a day"},
      {"bid", "twice a day"},
      {"tid", "three times a day"},
      {"qid", "four times a day"},
      {"hourly", "every 1 hour"},
      {"weekly", "every 7 days"},
      {"monthly", "every 1 month"},
      {"eod", "every 48 hours"},
      {"nightly", "every 24 hours"},
      {"qd", "once a day"},
      {"qod", "every 48 hours"},
  }};
  auto const lowercase = lowered(word);
  for (auto const& [elsewhere, here] : words)
    if (lowercase == elsewhere) return std::string(here);
  // q24h
  if (lowercase.size() >= 3 && lowercase.front() == 'q' && lowercase.back() == 'h') {
    auto const hours = lowercase.substr(1, lowercase.size() - 2);
    if (hours.front() != '0' && std::all_of(hours.begin(), hours.end(), is_digit))
      return fmt::format("every {} hours", hours);
  }
  return std::nullopt;
}

std::optional<std::string_view> meant_statement(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 27> words = {{
      {"symptom", "sign"},     {"question", "sign"},    {"finding", "sign"},
      {"observation", "sign"}, {"disease", "cause"},    {"diagnosis", "cause"},
      {"disorder", "cause"},   {"problem", "cause"},    {"treatment", "care"},
      {"medicine", "care"},    {"drug", "care"},        {"therapy", "care"},
      {"measure", "care"},     {"medication", "care"},  {"urgency", "tier"},
      {"level", "tier"},       {"reference", "source"}, {"citation", "source"},
      {"test", "example"},     {"case", "example"},     {"import", "include"},
      {"location", "site"},    {"region", "site"},      {"emergency", "alarm"},
      {"danger", "alarm"},     {"define", "means"},     {"clue", "rule"},
  }};
  auto const lowercase = lowered(word);
  for (auto const& [elsewhere, here] : words)
    if (lowercase == elsewhere || lowercase == std::string(elsewhere) + 's') return here;
  return std::nullopt;
}

namespace {

// `fast` for `fasting`, `hurts` for `may hurt`, `pain` for `tells pain`: the one clause that has a
// word which begins so.
std::optional<std::string_view> of_the_same_word(std::string_view word,
                                                 std::vector<std::string_view> const& phrases) {
  constexpr std::size_t shortest = 4;
  if (word.size() < shortest) return std::nullopt;
  std::optional<std::string_view> out;
  for (auto const phrase : phrases) {
    bool is_it = false;
    for (std::size_t at = 0; at < phrase.size();) {
      auto const end = std::min(phrase.find(' ', at), phrase.size());
      auto const part = phrase.substr(at, end - at);
      is_it =
          is_it || part.starts_with(word) || (part.size() >= shortest && word.starts_with(part));
      at = end + 1;
    }
    if (!is_it) continue;
    if (out) return std::nullopt;
    out = phrase;
  }
  return out;
}

}  // namespace

std::optional<std::string_view> meant_clause(std::string_view word,
                                             std::vector<std::string_view> const& phrases) {
  // The same word may mean several clauses; a statement has one of them.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 44> words = {{
      {"hint", "help"},
      {"note", "help"},
      {"explain", "help"},
      {"description", "help"},
      {"question", "ask"},
      {"prompt", "ask"},
      {"values", "answer"},
      {"type", "answer"},
      {"options", "answer"},
      {"synonyms", "also said"},
      {"synonyms", "also called"},
      {"synonym", "also said"},
      {"synonym", "also called"},
      {"aka", "also called"},
      {"reason", "because"},
      {"rationale", "because"},
      {"why", "because"},
      {"reference", "cite"},
      {"references", "cite"},
      {"source", "cite"},
      {"ref", "cite"},
      {"dose", "give"},
      {"dosage", "give"},
      {"max", "at most"},
      {"maximum", "at most"},
      {"contraindicated", "never if"},
      {"contraindication", "never if"},
      {"urgency", "see"},
      {"tier", "see"},
      {"prevalence", "base"},
      {"frequency", "base"},
      {"normal", "usual"},
      {"background", "usual"},
      {"when", "if"},
      {"condition", "if"},
      {"site", "affects"},
      {"location", "affects"},
      {"tests", "next"},
      {"diagnostics", "next"},
      {"answers", "yes"},
      {"instructions", "how"},
      {"else", "otherwise"},
      {"emergency", "first aid"},
      {"immediately", "first aid"},
  }};
  auto const lowercase = lowered(word);
  for (auto const& [elsewhere, here] : words)
    if (lowercase == elsewhere && std::find(phrases.begin(), phrases.end(), here) != phrases.end())
      return here;
  return of_the_same_word(lowercase, phrases);
}

std::size_t find_curly_quote(std::string_view text) {
  auto first = std::string_view::npos;
  for (auto const quote : curly_quotes) first = std::min(first, text.find(quote));
  return first;
}

std::optional<std::string> unseen_character(std::string_view at) {
  if (at.empty() || static_cast<unsigned char>(at.front()) < 0x80) return std::nullopt;
  auto const c = first_code_point(at);
  bool const is_unseen = c == 0xA0 || c == 0xAD || c == 0x1680 || (c >= 0x2000 && c <= 0x200F) ||
                         (c >= 0x2028 && c <= 0x202F) || (c >= 0x205F && c <= 0x2064) ||
                         c == 0x3000 || c == 0xFEFF;
  if (!is_unseen) return std::nullopt;
  return fmt::format("U+{:04X}", static_cast<std::uint32_t>(c));
}

}  // namespace flinch::syntax
