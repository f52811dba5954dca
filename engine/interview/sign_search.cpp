#include "flinch/interview/sign_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/text/display.hpp"
#include "text/nearest.hpp"

namespace flinch {
namespace {

// How much a fit is worth by the text that it is found in: a judgement. What people say, and the
// label that stands on the screen, tell more than a word somewhere in a question.
constexpr double label_worth = 1.0;
constexpr double said_worth = 1.0;
constexpr double name_worth = 0.9;
constexpr double question_worth = 0.5;

constexpr double enough = 1.0 / 3;    // of the weight of what was typed
constexpr double small_word = 0.05;   // weight of a word that stands in every sentence
constexpr double elsewhere = 0.3;     // worth of words that fit outside the best phrase
constexpr double whole_phrase = 0.6;  // more for a phrase of which nothing is left over
// More for a sign that an alarm asks for: of two that fit alike, the dangerous one stands first.
constexpr double danger_bonus = 0.25;
constexpr std::size_t shortest_misspelt = 4;

constexpr std::array<std::string_view, 34> small_words = {
    "a",  "an",  "and", "are",  "at",  "been", "bit",  "but", "dog", "for", "has", "have",
    "he", "her", "hes", "hers", "him", "his",  "i",    "in",  "is",  "it",  "its", "my",
    "of", "on",  "or",  "our",  "she", "shes", "that", "the", "to",  "was"};

bool is_small(std::string_view word) {
  return std::find(small_words.begin(), small_words.end(), word) != small_words.end();
}

// Base letters of U+00C0 to U+017F (Unicode's canonical decompositions; ligatures and letters
// without one by their usual spelling); `*` stands for no letter.
constexpr std::string_view base_letters =
    "aaaaaaaceeeeiiii"
    "dnooooo*ouuuuyts"
    "aaaaaaaceeeeiiii"
    "dnooooo*ouuuuyty"
    "aaaaaaccccccccdd"
    "ddeeeeeeeeeegggg"
    "gggghhhhiiiiiiii"
    "iiiijjkkklllllll"
    "lllnnnnnnnnnoooo"
    "oooorrrrrrssssss"
    "ssttttttuuuuuuuu"
    "uuuuwwyyyzzzzzzs";

char32_t decode(std::string_view character) {
  auto const lead = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return lead;
  char32_t point = lead & (0xFFU >> (character.size() + 1));
  for (auto const c : character.substr(1))
    point = (point << 6U) | (static_cast<unsigned char>(c) & 0x3FU);
  return point;
}

// What a code point adds to a word; a blank parts words.
std::string folded(char32_t c, std::string_view character) {
  if (c == '\'' || c == 0x2019 || (c >= 0x300 && c < 0x370)) return "";
  if (c == 0xC6 || c == 0xE6) return "ae";
  if (c == 0xDF) return "ss";
  if (c == 0x152 || c == 0x153) return "oe";
  if (c >= 'A' && c <= 'Z') return std::string(1, static_cast<char>(c - 'A' + 'a'));
  if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) return std::string(1, static_cast<char>(c));
  if (c >= 0xC0 && c < 0xC0 + base_letters.size()) {
    auto const base = base_letters[c - 0xC0];
    return std::string(1, base == '*' ? ' ' : base);
  }
  return c < 0x100 ? " " : std::string(character);  // other scripts as they are
}

// The word without a common ending, if enough is left to mean something.
std::string_view stem(std::string_view word) {
  constexpr std::size_t shortest = 3;
  for (std::string_view const ending : {"ing", "es", "ed", "s", "y", "e"})
    if (word.ends_with(ending) && word.size() >= ending.size() + shortest)
      return word.substr(0, word.size() - ending.size());
  return word;
}

// How well a word that was typed fits a word of the pack: 0 (not) to 1 (the same).
double fit(std::string_view typed, std::string_view word) {
  if (typed == word) return 1;
  if (word.starts_with(typed))
    return 0.6 + 0.3 * static_cast<double>(typed.size()) / static_cast<double>(word.size());
  if (stem(typed) == stem(word)) return 0.8;
  if (typed.size() < shortest_misspelt || word.size() + 1 < typed.size()) return 0;
  if (edit_distance(typed, word, 1) <= 1) return 0.6;
  if (typed.size() < shortest_misspelt + 1 || typed[0] != word[0]) return 0;
  // The beginning of the word with one mistake in it.
  for (auto const length : {typed.size() - 1, typed.size(), typed.size() + 1})
    if (length < word.size() && edit_distance(typed, word.substr(0, length), 1) <= 1) return 0.4;
  return 0;
}

void mark_tested_signs(Pack const& pack, Condition const& condition, std::vector<bool>& signs) {
  if (condition.kind == Condition::Kind::test) signs[index(condition.test.sign)] = true;
  if (condition.kind == Condition::Kind::meaning)
    mark_tested_signs(pack, pack[condition.meaning].condition, signs);
  for (auto const& part : condition.parts) mark_tested_signs(pack, part, signs);
}

}  // namespace

std::vector<std::string> folded_words(std::string_view text) {
  std::vector<std::string> words(1);
  while (!text.empty()) {
    std::size_t length = 1;
    while (length < text.size() && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U)
      ++length;
    auto const character = text.substr(0, length);
    bool const is_sound = find_invalid_utf8(character) == std::string_view::npos;
    auto const piece = is_sound ? folded(decode(character), character) : " ";
    if (piece != " ")
      words.back() += piece;
    else if (!words.back().empty())
      words.emplace_back();
    text.remove_prefix(is_sound ? length : 1);
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

SignSearch::SignSearch(Pack const& pack) : pack_(pack), is_danger_(pack.signs.size()) {
  for (auto const& alarm : pack.alarms) mark_tested_signs(pack, alarm.condition, is_danger_);
  for (auto const& care : pack.care)
    if (care.taken && care.fit_if) mark_tested_signs(pack, *care.fit_if, is_danger_);
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.of_the_dog) continue;
    add(i, label_worth, sign.label, sign.label);
    add(i, name_worth, sign.name, sign.label);
    for (auto const& said : sign.also_said) add(i, said_worth, said, said);
    add(i, question_worth, sign.ask, sign.ask);
  }
}

void SignSearch::add(std::uint32_t sign, double worth, std::string_view text,
                     std::string_view shown) {
  Phrase phrase{sign, worth, shown, {}};
  for (auto& word : folded_words(text)) {
    auto const next = static_cast<std::uint32_t>(words_.size());
    auto const [place, is_new] = word_index_.emplace(word, next);
    if (is_new) {
      words_.push_back(std::move(word));
      signs_of_word_.emplace_back();
    }
    phrase.words.push_back(place->second);
    auto& signs = signs_of_word_[place->second];
    if (signs.empty() || signs.back() != sign) signs.push_back(sign);
  }
  if (!phrase.words.empty()) phrases_.push_back(std::move(phrase));
}

std::vector<SignSearch::TypedWord> SignSearch::weigh(std::vector<std::string> const& typed) const {
  std::vector<TypedWord> out;
  for (auto const& word : typed) {
    TypedWord one{0, std::vector<double>(words_.size())};
    std::vector<bool> has(pack_.signs.size());
    for (std::size_t i = 0; i < words_.size(); ++i) {
      one.fits[i] = fit(word, words_[i]);
      if (one.fits[i] > 0)
        for (auto const sign : signs_of_word_[i]) has[sign] = true;
    }
    // The rarer, the more it tells: the logarithm of all signs against those that have the word.
    auto const having = static_cast<double>(std::count(has.begin(), has.end(), true));
    auto const all = static_cast<double>(pack_.signs.size());
    one.weight = is_small(word) ? small_word : 0.2 + std::log((all + 1) / (having + 1));
    out.push_back(std::move(one));
  }
  return out;
}

std::vector<FoundSign> SignSearch::find(std::string_view typed, std::size_t at_most) const {
  auto const words = weigh(folded_words(typed.substr(0, 400)));
  if (words.empty()) return {};
  double all = 0;
  for (auto const& word : words) all += word.weight;

  struct Best {
    double score = 0;
    std::string_view words;
    std::vector<double> fits;  // of each typed word, anywhere in the sign
  };
  std::vector<Best> best(pack_.signs.size());
  for (auto const& phrase : phrases_) {
    auto& sign = best[phrase.sign];
    sign.fits.resize(words.size());
    double sum = 0;
    std::vector<bool> used(phrase.words.size());
    for (std::size_t t = 0; t < words.size(); ++t) {
      double fit_here = 0;
      for (std::size_t i = 0; i < phrase.words.size(); ++i) {
        auto const one = words[t].fits[phrase.words[i]];
        if (one > 0) used[i] = true;
        fit_here = std::max(fit_here, one);
      }
      sum += words[t].weight * fit_here;
      sign.fits[t] = std::max(sign.fits[t], fit_here);
    }
    auto const covered = static_cast<double>(std::count(used.begin(), used.end(), true)) /
                         static_cast<double>(phrase.words.size());
    auto const score = phrase.worth * sum * (1 + whole_phrase * covered);
    if (score > sign.score) {
      sign.score = score;
      sign.words = phrase.text;
    }
  }

  std::vector<FoundSign> found;
  for (std::uint32_t i = 0; i < best.size(); ++i) {
    double fitting = 0;
    double anywhere = 0;
    for (std::size_t t = 0; t < best[i].fits.size(); ++t) {
      anywhere += words[t].weight * best[i].fits[t];
      if (best[i].fits[t] > 0) fitting += words[t].weight;
    }
    if (anywhere == 0 || fitting <= enough * all) continue;
    auto const score = best[i].score + elsewhere * anywhere;
    found.push_back({SignId{i}, score * (is_danger_[i] ? 1 + danger_bonus : 1), best[i].words});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](FoundSign const& a, FoundSign const& b) { return a.score > b.score; });
  if (found.size() > at_most) found.resize(at_most);
  return found;
}

}  // namespace flinch
