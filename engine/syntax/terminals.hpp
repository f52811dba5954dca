#pragma once
// The grammar's tokens as X3 parsers with a name each, so that an expectation that fails can say
// what was expected. Each leaves where it stands as its attribute.
#include <array>
#include <boost/spirit/home/x3.hpp>
#include <concepts>
#include <string>
#include <string_view>
#include <vector>

#include "syntax/shapes.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax::terminals {

namespace x3 = boost::spirit::x3;
using shapes::Token;
using It = char const*;

/// Blanks, line breaks and comments.
inline It skip_blanks(It p, It end) {
  while (p != end) {
    if (is_blank(*p))
      ++p;
    else if (*p == '#')
      while (p != end && *p != '\n') ++p;
    else
      break;
  }
  return p;
}

inline It word_end(It p, It end) {
  while (p != end && is_word_part(*p)) ++p;
  return p;
}

enum class Keep : bool { no, yes };

/// A token whose extent is found by `Derived::match(p, end)`: the end of the token, or null. Kept
/// tokens leave where they stand as their attribute.
template <class Derived, Keep keep = Keep::yes>
struct TokenParser : x3::parser<Derived> {
  using attribute_type = std::conditional_t<keep == Keep::yes, Token, x3::unused_type>;
  static bool const has_attribute = keep == Keep::yes;

  template <class Context, class RContext, class Attribute>
  bool parse(It& first, It const& last, Context const&, RContext const&,
             Attribute& attribute) const {
    It const begin = skip_blanks(first, last);
    It const end = this->derived().match(begin, last);
    if (end == nullptr) return false;
    if constexpr (keep == Keep::yes) x3::traits::move_to(Token{begin, end}, attribute);
    first = end;
    return true;
  }
};

/// One word or several with blanks between.
template <Keep keep>
struct Phrase : TokenParser<Phrase<keep>, keep> {
  std::string_view phrase;
  explicit Phrase(std::string_view words) : phrase(words) {}
  [[nodiscard]] It match(It p, It end) const {
    for (std::size_t i = 0; i < phrase.size();) {
      if (phrase[i] == ' ') {
        p = skip_blanks(p, end);
        ++i;
        continue;
      }
      auto const length = std::min(phrase.find(' ', i), phrase.size()) - i;
      if (std::string_view(p, static_cast<std::size_t>(word_end(p, end) - p)) !=
          phrase.substr(i, length))
        return nullptr;
      p += length;
      i += length;
    }
    return p;
  }
  [[nodiscard]] std::string what() const { return "`" + std::string(phrase) + "`"; }
};
using Word = Phrase<Keep::no>;
using KeptWord = Phrase<Keep::yes>;

/// The longest of some phrases.
struct AnyPhrase : TokenParser<AnyPhrase> {
  std::vector<std::string_view> phrases;
  explicit AnyPhrase(std::vector<std::string_view> of) : phrases(std::move(of)) {}
  [[nodiscard]] It match(It p, It end) const {
    It longest = nullptr;
    for (auto const phrase : phrases)
      if (It const stop = KeptWord(phrase).match(p, end))
        if (longest == nullptr || stop > longest) longest = stop;
    return longest;
  }
  /// "`a`, `b` or `c`"
  [[nodiscard]] std::string what() const {
    std::string out;
    for (auto const& phrase : phrases) {
      out += &phrase == &phrases.front() ? "" : &phrase == &phrases.back() ? " or " : ", ";
      out += "`" + std::string(phrase) + "`";
    }
    return out;
  }
};

/// Certain characters, such as `)` or `>=`.
template <Keep keep>
struct Characters : TokenParser<Characters<keep>, keep> {
  std::string_view characters;
  explicit Characters(std::string_view wanted) : characters(wanted) {}
  [[nodiscard]] It match(It p, It end) const {
    auto const left = static_cast<std::size_t>(end - p);
    return std::string_view(p, left).substr(0, characters.size()) == characters
               ? p + characters.size()
               : nullptr;
  }
  [[nodiscard]] std::string what() const { return "`" + std::string(characters) + "`"; }
};
using Mark = Characters<Keep::no>;
using KeptMark = Characters<Keep::yes>;

struct NameToken : TokenParser<NameToken> {
  char const* called;
  explicit NameToken(char const* what_it_names) : called(what_it_names) {}
  [[nodiscard]] static It match(It p, It end) {
    It const stop = word_end(p, end);
    std::string_view const word(p, static_cast<std::size_t>(stop - p));
    if (word.empty() || !is_name_start(word[0]) || is_reserved(word)) return nullptr;
    for (char const c : word)
      if (!is_name_part(c)) return nullptr;
    return stop;
  }
  [[nodiscard]] std::string what() const { return called; }
};

struct TextToken : TokenParser<TextToken> {
  [[nodiscard]] static It match(It p, It end) {
    if (p == end || *p != '"') return nullptr;
    for (++p; p != end && *p != '"'; ++p)
      if (*p == '\\' && ++p == end) return nullptr;
    return p == end ? nullptr : p + 1;
  }
  [[nodiscard]] static std::string what() { return "a text in double quotes"; }
};

struct NumberToken : TokenParser<NumberToken> {
  char const* called;
  explicit NumberToken(char const* what_it_counts) : called(what_it_counts) {}
  [[nodiscard]] static It match(It p, It end) {
    auto const digits = [&] {
      It const start = p;
      while (p != end && is_digit(*p)) ++p;
      return p != start;
    };
    if (p != end && *p == '-') ++p;
    if (!digits()) return nullptr;
    if (p != end && *p == '.') {
      ++p;
      if (!digits()) return nullptr;
    }
    return p;
  }
  [[nodiscard]] std::string what() const { return called; }
};

/// Any word after a number that may be meant as its unit, `%` and rates included; whether it is one
/// is checked later, where the units that fit are known.
struct PlainUnitToken : TokenParser<PlainUnitToken> {
  [[nodiscard]] static It match(It p, It end) {
    if (p != end && *p == '%') return p + 1;
    for (auto const* rate : {"per minute", "per hour", "per day"})
      if (It const found = Word(rate).match(p, end)) return found;
    It const stop = word_end(p, end);
    std::string_view const word(p, static_cast<std::size_t>(stop - p));
    if (word.empty() || is_digit(word[0]) || is_reserved(word)) return nullptr;
    for (auto const* next :
         {"every", "by", "for", "into", "onto", "on", "once", "twice", "three", "four"})
      if (word == next) return nullptr;                         // a dose goes on
    if (word == "because" || word == "unless") return nullptr;  // a floor goes on
    return stop;
  }
  [[nodiscard]] static std::string what() { return "a unit"; }
};

/// The same, or so much in a volume: `mmol per L`.
struct UnitToken : TokenParser<UnitToken> {
  [[nodiscard]] static It match(It p, It end) {
    It const stop = PlainUnitToken::match(p, end);
    if (stop == nullptr || *p == '%') return stop;
    for (auto const* in_volume : {"per L", "per dL"})
      if (It const volume = Word(in_volume).match(skip_blanks(stop, end), end)) return volume;
    return stop;
  }
  [[nodiscard]] static std::string what() { return "a unit"; }
};

/// The way by which something is given: `by mouth`, `by injection into the muscle`, `under the
/// skin`.
struct RouteToken : TokenParser<RouteToken> {
  static constexpr std::array<std::string_view, 4> places = {"under", "into", "onto", "on"};
  [[nodiscard]] static It match(It p, It end) {
    if (It const by = Word("by").match(p, end)) {
      It const way = NameToken::match(skip_blanks(by, end), end);
      if (way == nullptr) return nullptr;
      It const place = match_place(skip_blanks(way, end), end);
      return place == nullptr ? way : place;
    }
    return match_place(p, end);
  }
  [[nodiscard]] static It match_place(It p, It end) {
    for (auto const where : places)
      if (It const found = Word(where).match(p, end)) {
        It const the = Word("the").match(skip_blanks(found, end), end);
        return the == nullptr ? nullptr : NameToken::match(skip_blanks(the, end), end);
      }
    return nullptr;
  }
  [[nodiscard]] static std::string what() {
    return "a way such as `by mouth`, `under the skin`, `into the vein`";
  }
};

/// Everything up to the next blank: an address, a grade.
struct VisibleToken : TokenParser<VisibleToken> {
  char const* called;
  explicit VisibleToken(char const* what_it_is) : called(what_it_is) {}
  [[nodiscard]] static It match(It p, It end) {
    It const begin = p;
    while (p != end && !is_blank(*p) && *p != '"') ++p;  // a quote opens a text
    return p == begin ? nullptr : p;
  }
  [[nodiscard]] std::string what() const { return called; }
};

/// `per kg` or `per kg^0.75`.
struct PerWeightToken : TokenParser<PerWeightToken> {
  [[nodiscard]] static It match(It p, It end) {
    constexpr std::string_view power = "^0.75";
    It const kg = Word("per kg").match(p, end);
    if (kg == nullptr) return nullptr;
    bool const has_power =
        std::string_view(kg, static_cast<std::size_t>(end - kg)).starts_with(power);
    return has_power ? kg + power.size() : kg;
  }
  [[nodiscard]] static std::string what() { return "`per kg`"; }
};

/// Nothing may be left.
struct EndOfClause : TokenParser<EndOfClause, Keep::no> {
  [[nodiscard]] static It match(It p, It end) { return p == end ? p : nullptr; }
  [[nodiscard]] static std::string what() { return "the end of the clause"; }
};

}  // namespace flinch::syntax::terminals

namespace boost::spirit::x3 {
template <class T>
requires requires(T const& t) {
  { t.what() } -> std::convertible_to<std::string>;
}
struct get_info<T> {
  using result_type = std::string;
  std::string operator()(T const& token) const { return token.what(); }
};
}  // namespace boost::spirit::x3
