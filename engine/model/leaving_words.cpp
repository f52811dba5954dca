#include "model/leaving_words.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "flinch/model/species.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

using Words = std::vector<std::string>;

constexpr std::array<std::string_view, 17> behind_leave = {
    "for",   "now",   "at",     "immediately", "straight", "today", "tonight", "home", "after",
    "right", "while", "within", "as",          "first",    "early", "then",    "and"};
constexpr std::array<std::string_view, 9> behind_come = {"to", "in",     "straight", "now", "at",
                                                         "us", "within", "today",    "here"};
constexpr std::array<std::string_view, 9> behind_go = {"to",  "straight", "now",    "at",   "there",
                                                       "for", "today",    "direct", "right"};
constexpr std::array<std::string_view, 8> before_an_order = {"",   "and",  "then",   "please",
                                                             "or", "must", "should", "so"};
constexpr std::array<std::string_view, 6> carried = {"bring", "take", "carry",
                                                     "get",   "rush", "transport"};
constexpr std::array<std::string_view, 5> closing_marks = {".", ";", ",", "!", "?"};
constexpr std::array<std::string_view, 5> places = {"clinic", "practice", "hospital", "surgery",
                                                    "us"};
// Of a text that does nothing but send, each word is one of these.
constexpr auto of_leaving = std::to_array<std::string_view>(
    {"leave",    "leaving",   "go",        "going", "come",  "drive",    "driving",     "travel",
     "set",      "out",       "off",       "bring", "take",  "carry",    "get",         "rush",
     "it",       "him",       "her",       "them",  "your",  "you",      "us",          "in",
     "to",       "for",       "the",       "a",     "an",    "our",      "nearest",     "next",
     "open",     "clinic",    "practice",  "vet",   "vets",  "hospital", "surgery",     "animal",
     "now",      "today",     "tonight",   "at",    "once",  "straight", "away",        "right",
     "and",      "then",      "telephone", "phone", "ring",  "call",     "immediately", "ahead",
     "first",    "on",        "way",       "by",    "car",   "while",    "before",      "must",
     "should",   "please",    "be",        "seen",  "there", "here",     "as",          "soon",
     "possible", "emergency", "direct",    "so",    "or",    "without",  "delay",       "waiting",
     "patient",  "also",      "wait"});

bool is_among(std::string_view word, std::span<std::string_view const> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

Words words_of(std::string_view text) {
  Words out(1);
  for (char const c : in_small_letters(text)) {
    bool const is_of_word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                            (static_cast<unsigned char>(c) & 0x80U) != 0;
    if (is_of_word)
      out.back() += c;
    else if (!out.back().empty())
      out.emplace_back();
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

// How many words from there on send somebody somewhere; none: they do not.
std::size_t leaving_at(Words const& words, std::size_t at) {
  auto const word = [&](std::size_t i) -> std::string_view {
    return i < words.size() ? std::string_view(words[i]) : std::string_view();
  };
  auto const& here = words[at];
  std::string_view const before = at == 0 ? std::string_view() : std::string_view(words[at - 1]);
  auto const next = word(at + 1);
  bool const is_order = is_among(before, before_an_order);
  bool const leaves = here == "leave" || here == "leaving";
  if (leaves && (is_among(next, behind_leave) || before == "you")) return 2;
  if (here == "drive" || here == "driving" || here == "travel" || here == "travelling") return 1;
  if (here == "set" && (next == "out" || next == "off")) return 2;
  if (here == "come" && is_order && is_among(next, behind_come)) return 2;
  if (here == "go" && is_order && is_among(next, behind_go)) return 2;
  if (here == "on" && next == "the" && word(at + 2) == "way" && before != "is" && before != "are")
    return 3;
  if ((here == "in" && next == "the" && word(at + 2) == "car") || (here == "by" && next == "car"))
    return here == "in" ? 3 : 2;
  if (!is_among(here, carried)) return 0;
  constexpr std::size_t farthest = 8;
  for (std::size_t i = at + 1; i < std::min(words.size(), at + farthest); ++i)
    if (words[i] == "to")
      for (std::size_t p = i + 1; p < std::min(words.size(), i + 5); ++p)
        if (is_among(words[p], places)) return p + 1 - at;
  return 0;
}

// Sentences and their parts by semicolons and by a comma before "and" or "also", each with its last
// mark.
std::vector<std::string_view> parts_of(std::string_view text) {
  std::vector<std::string_view> out;
  std::size_t begin = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    auto const rest = text.substr(i);
    bool const joins =
        rest.starts_with(", and ") || rest.starts_with(", then ") || rest.starts_with(", also ");
    bool const ends = text[i] == ';' || text[i] == '.' || text[i] == '!' || text[i] == '?' || joins;
    if (!ends || (i + 1 < text.size() && text[i + 1] != ' ')) continue;
    out.push_back(text.substr(begin, i + 1 - begin));
    begin = std::min(text.find_first_not_of(' ', i + 1), text.size());
  }
  if (begin < text.size()) out.push_back(text.substr(begin));
  return out;
}

std::string phrase_of_leaving(Words const& words) {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (auto const count = leaving_at(words, i); count > 0) {
      std::string out;
      for (std::size_t w = i; w < std::min(i + count, words.size()); ++w)
        out += (out.empty() ? "" : " ") + words[w];
      return out;
    }
  return {};
}

// What stands between "for" or "to" and the place says which one: "for the nearest bird clinic". Of
// other words only the one before the place may be unknown: "to water before the clinic" does more.
std::size_t place_behind(Words const& words, std::size_t at) {
  constexpr auto which =
      std::to_array<std::string_view>({"the", "a", "an", "our", "your", "nearest", "closest",
                                       "next", "open", "local", "emergency", "night", "animal"});
  constexpr std::size_t farthest = 6;
  if (words[at] != "for" && words[at] != "to") return 0;
  for (std::size_t i = at + 1; i < std::min(words.size(), at + farthest); ++i) {
    auto const is_place = [](std::string const& word) {
      return is_among(word, places) || word == "vet";
    };
    if (is_place(words[i])) return i - at;
    bool const is_before_place = i + 1 < words.size() && is_place(words[i + 1]);
    if (!is_among(words[i], which) && !is_before_place) return 0;
  }
  return 0;
}

bool only_sends(std::string_view part) {
  auto const words = words_of(part);
  if (phrase_of_leaving(words).empty()) return false;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!is_among(words[i], of_leaving)) return false;
    i += place_behind(words, i);
  }
  return true;
}

// "If it gets worse, leave at once", "Leave at once if it gets worse".
struct Conditional {
  std::string_view condition;  ///< "if it gets worse"
  std::string_view rest;       ///< "leave at once"
};
std::optional<Conditional> conditional(std::string_view part) {
  while (!part.empty() && is_among(part.substr(part.size() - 1), closing_marks))
    part.remove_suffix(1);
  auto const begins = part.starts_with("If ") || part.starts_with("if ");
  auto const inner = part.find(" if ");
  if (!begins && inner == std::string_view::npos) return std::nullopt;
  if (!begins) return Conditional{part.substr(inner + 1), part.substr(0, inner)};
  auto const comma = part.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  return Conditional{part.substr(0, comma), part.substr(comma + 1)};
}

// Where the part before it was left out, nothing is left that it could be joined to.
std::string_view without_joint(std::string_view part) {
  for (std::string_view const joint : {"and ", "then ", "also "})
    if (part.starts_with(joint)) part.remove_prefix(joint.size());
  return part;
}

}  // namespace

std::string leaving_words(std::string_view text) {
  for (auto const part : parts_of(text))
    if (auto out = phrase_of_leaving(words_of(part)); !out.empty()) return out;
  return {};
}

std::string without_leaving(std::string_view text) {
  if (leaving_words(text).empty()) return std::string(text);
  std::string out;
  bool begins_sentence = true;
  for (auto const part : parts_of(text)) {
    bool const ends_sentence = part.back() != ';' && part.back() != ',';
    auto const keep = [&](std::string const& kept) {
      out += (out.empty() ? "" : " ") + (begins_sentence ? capitalised(kept) : kept);
      begins_sentence = ends_sentence;
    };
    // When to leave at once is when to ring: a warning is never left out.
    if (auto const one = conditional(without_joint(part)); one && only_sends(one->rest)) {
      bool const has_mark = is_among(part.substr(part.size() - 1), closing_marks);
      keep(std::string(one->condition) + ", " + std::string(ring_at_once) +
           (has_mark ? std::string(1, part.back()) : ""));
    } else if (!only_sends(part)) {
      keep(std::string(begins_sentence ? without_joint(part) : part));
    } else if (ends_sentence) {
      // What stood before the semicolon ends the sentence.
      if (!begins_sentence) out.back() = '.';
      begins_sentence = true;
    }
  }
  return out;
}

}  // namespace flinch
