// Facts of the patient told in one line. In doubt the whole line is refused: half a line that was
// corrected would keep what the correction takes back.
#include "flinch/interview/fact_entry.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "flinch/text/display.hpp"
#include "interview/entry_words.hpp"

namespace flinch {
namespace {

using Facts = std::vector<std::pair<SignId, Answer>>;

constexpr std::size_t words_at_most = 30;
constexpr std::size_t words_of_a_piece = 8;  // "2 years and 3 months old", a long breed's name

bool is_a_digit(char c) { return c >= '0' && c <= '9'; }

// Small letters, no colon and no apostrophe: what a word is compared by.
std::string as_compared(std::string_view word) { return joined(entry_words(word)); }

// Of a line that takes back what it said, or leaves it open, nothing stands.
bool is_a_correction(std::string const& word) {
  constexpr std::array<std::string_view, 17> words = {
      "no",     "nope", "sorry", "or",      "maybe",    "perhaps", "actually", "now", "was",
      "rather", "wait", "oops",  "instead", "possibly", "mean",    "used",     "were"};
  return is_one_of(word, words);
}

// Says nothing by itself, and stands before what does.
bool is_filler(Pack const& pack, std::string const& word) {
  constexpr std::array<std::string_view, 16> words = {"and",  "a",    "an",    "the", "he",   "she",
                                                      "it",   "is",   "its",   "hes", "shes", "my",
                                                      "with", "this", "weigh", "of"};
  return is_one_of(word, words) || word == as_compared(pack.words.one);
}

bool is_a_pronoun(std::string const& word) {
  constexpr std::array<std::string_view, 6> words = {"he", "she", "him", "her", "hes", "shes"};
  return is_one_of(word, words);
}

// "Age: 8", "weighs 30 kg".
std::optional<SignId> fact_named(std::string const& word) {
  if (word == "age" || word == "aged") return patient_sign::age;
  if (word == "weight" || word == "weighs" || word == "weighing") return patient_sign::weight;
  if (word == "sex" || word == "gender") return patient_sign::sex;
  if (word == "breed") return patient_sign::breed;
  return std::nullopt;
}

// "8,30 kg" is 8.3 kg, or 8 years and 30 kg; "31,5 kg" can only be a weight.
std::optional<std::string> comma_in_doubt(Pack const& pack, std::string_view line) {
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    if (line[i] != ',' || !is_a_digit(line[i - 1]) || !is_a_digit(line[i + 1])) continue;
    auto from = i;
    while (from > 0 && is_a_digit(line[from - 1])) --from;
    auto end = i + 1;
    while (end < line.size() && is_a_digit(line[end])) ++end;
    auto const before = line.substr(from, i - from);
    auto const behind = line.substr(i + 1, end - i - 1);
    double whole = 0;
    for (char const c : before.substr(0, 6)) whole = 10 * whole + (c - '0');
    bool const may_be_age = whole <= pack[patient_sign::age].high;
    if (behind.size() == 1 && !may_be_age) continue;
    return fmt::format(
        "{0},{1}: one number, or two? Write {0}.{1} with a point, or {0} years, {1} "
        "kg, each with its unit. Nothing of the line was taken.",
        before, behind);
  }
  return std::nullopt;
}

// "Cria", "only a cria": young, and how young is not said.
bool is_word_for_young(Pack const& pack, std::string_view typed) {
  auto words = entry_words(typed);
  std::erase_if(words, [&](std::string const& word) {
    return is_filler(pack, word) || word == "only" || word == "just" || word == "still";
  });
  return std::any_of(
      pack.words.young.begin(), pack.words.young.end(),
      [&](std::string const& young) { return joined(entry_words(young)) == joined(words); });
}

// "5 years old", "7yo": 5 years alone may be since when.
bool names_an_age(std::vector<std::string> const& words) {
  static constexpr std::array<std::string_view, 5> names = {"old", "aged", "age", "born", "yo"};
  return std::any_of(words.begin(), words.end(),
                     [](std::string const& word) { return is_one_of(word, names); });
}

// "Labrador" is a breed and nothing else; a nickname by itself may be another word: "sausage",
// "cross", "chow".
bool is_surely_a_breed(Pack const& pack, std::vector<std::string> words) {
  constexpr std::size_t letters_at_least = 5;
  std::erase_if(words, [&](std::string const& word) { return is_filler(pack, word); });
  auto const typed = joined(words);
  auto const at = pack.breeds.find(typed);
  if (!at) return false;
  auto const name = joined(entry_words(pack.breeds.breeds[*at].name));
  return typed == name || (typed.size() >= letters_at_least && name.starts_with(typed + " "));
}

class LineReader {
 public:
  LineReader(Pack const& pack, std::vector<SignId> const& facts, EntryContext const& context)
      : pack_(pack), facts_(facts), context_(context) {}

  FactsEntry read(std::string_view line) {
    if (auto const why = refusal(line)) return refused(*why);
    if (means_cannot_tell(line)) return {{}, true, {}, {}};
    if (auto const doubt = comma_in_doubt(pack_, line)) return refused(*doubt);
    cut(line);
    if (words_.empty()) return refused("Type what you know, with commas; or ?.");
    if (words_.size() > words_at_most)
      return refused("That is too much for one line: type only the facts.");
    for (auto const& word : words_) {
      if (word.text.find('?') != std::string::npos)
        return refused(
            "Which is not known? Type what you know without ?; the others are asked again, and ? "
            "can be typed then. Nothing of the line was taken.");
      if (is_a_correction(as_compared(word.text)) && !is_or_so(word))
        return refused(
            fmt::format("\"{}\" leaves open what holds: type the line once more with only what is "
                        "so. Nothing of it was taken.",
                        inert(word.text)));
    }
    go_on(0, {});
    if (readings_.size() == 1) return {std::move(readings_.front()), false, {}, {}};
    if (readings_.size() > 1)
      return refused(
          "That can be read in two ways: put a comma between the facts. Nothing of the "
          "line was taken.");
    return with_reason();
  }

 private:
  struct Word {
    std::string text;
    std::size_t part = 0;  // between two commas
    std::size_t at = 0;
  };

  static FactsEntry refused(std::string why) { return {{}, false, std::move(why), {}}; }

  [[nodiscard]] bool is_asked(SignId sign) const {
    return std::find(facts_.begin(), facts_.end(), sign) != facts_.end();
  }

  // At blanks, and at commas that stand in no number.
  void cut(std::string_view line) {
    std::size_t part = 0;
    std::string text;
    auto const end_word = [&] {
      while (!text.empty() && (text.back() == ':' || text.back() == '.')) text.pop_back();
      if (!text.empty()) words_.push_back({text, part, words_.size()});
      text.clear();
    };
    for (std::size_t i = 0; i < line.size(); ++i) {
      char const c = line[i];
      bool const is_in_number = c == ',' && i > 0 && i + 1 < line.size() &&
                                is_a_digit(line[i - 1]) && is_a_digit(line[i + 1]);
      if (c == ' ' || c == '\t' || c == ';' || (c == ',' && !is_in_number)) {
        end_word();
        if (c == ',' || c == ';') ++part;
      } else {
        text += c;
      }
    }
    end_word();
  }

  // "8 years or so".
  [[nodiscard]] bool is_or_so(Word const& word) const {
    return as_compared(word.text) == "or" && word.at + 1 < words_.size() &&
           as_compared(words_[word.at + 1].text) == "so";
  }

  [[nodiscard]] std::string text_of(std::size_t from, std::size_t end) const {
    std::string out;
    for (auto i = from; i < end; ++i) out += (out.empty() ? "" : " ") + words_[i].text;
    return out;
  }

  // Every way to read the words from here on.
  void go_on(std::size_t from, Facts const& told) {
    while (from < words_.size() && is_filler(pack_, as_compared(words_[from].text)) &&
           !begins_an_amount(from))
      ++from;
    if (from == words_.size()) {
      keep(told);
      return;
    }
    for (auto end = from + 1; end <= words_.size() && end <= from + words_of_a_piece &&
                              words_[end - 1].part == words_[from].part;
         ++end)
      for (auto const& facts : readings_of(from, end)) {
        auto more = told;
        bool const is_new = std::none_of(facts.begin(), facts.end(), [&](auto const& one) {
          return std::any_of(told.begin(), told.end(),
                             [&](auto const& two) { return one.first == two.first; });
        });
        if (!is_new) {
          is_told_twice_ = true;
          continue;
        }
        more.insert(more.end(), facts.begin(), facts.end());
        furthest_ = std::max(furthest_, end);
        go_on(end, more);
      }
  }

  // "A year and a half".
  [[nodiscard]] bool begins_an_amount(std::size_t at) const {
    return as_compared(words_[at].text) == "a" && at + 1 < words_.size() &&
           typed_amounts(entry_words(text_of(at, at + 2)), UpperLimit::tells_nothing).has_value();
  }

  void keep(Facts told) {
    if (told.empty()) return;
    std::sort(told.begin(), told.end(),
              [](auto const& a, auto const& b) { return a.first < b.first; });
    if (std::find(readings_.begin(), readings_.end(), told) == readings_.end())
      readings_.push_back(std::move(told));
  }

  std::vector<Facts> const& readings_of(std::size_t from, std::size_t end) {
    auto const [place, is_new] = read_.try_emplace({from, end});
    if (!is_new) return place->second;
    auto& out = place->second;
    auto const named = fact_named(as_compared(words_[from].text));
    if (named && end == from + 1) return out;
    auto const typed = text_of(from + (named ? 1 : 0), end);
    if (!named || named == patient_sign::sex)
      if (auto sex = read_as_sex(typed); !sex.empty()) out.push_back(std::move(sex));
    for (auto const sign : {patient_sign::age, patient_sign::weight, patient_sign::breed}) {
      if (!is_asked(sign) || (named && named != sign)) continue;
      bool const is_number = sign != patient_sign::breed;
      if (is_number && !named && (is_bare(typed) || is_month_or_male(typed))) continue;
      if (!is_number && holds_sex(typed)) continue;
      if (auto entry = read_entry(pack_, sign, typed, context_); entry.answer)
        out.push_back({{sign, std::move(*entry.answer)}});
    }
    return out;
  }

  // A number without its unit, in whatever words.
  static bool is_bare(std::string const& typed) {
    auto const amounts = typed_amounts(entry_words(typed), UpperLimit::tells_nothing);
    return amounts && std::all_of(amounts->begin(), amounts->end(),
                                  [](TypedAmount const& one) { return one.unit.empty(); });
  }

  // "8 m lab": months, or a male of 8 years.
  [[nodiscard]] bool is_month_or_male(std::string const& typed) const {
    auto const words = entry_words(typed);
    return is_asked(patient_sign::sex) &&
           std::find(words.begin(), words.end(), std::string("m")) != words.end();
  }

  // A breed does not swallow the sex that stands beside it, unless it is called so.
  [[nodiscard]] bool holds_sex(std::string const& typed) const {
    auto const words = entry_words(typed);
    if (pack_.breeds.find(joined(words))) return false;
    return std::any_of(words.begin(), words.end(), [&](std::string const& word) {
      auto const sex = read_sex(pack_, word);
      return sex.sex || sex.neutered;
    });
  }

  // "He" says of whom, not what it is.
  [[nodiscard]] Facts read_as_sex(std::string const& typed) const {
    if (!is_asked(patient_sign::sex) && !is_asked(patient_sign::neutered)) return {};
    auto const words = entry_words(typed);
    constexpr std::array<std::string_view, 3> denies = {"not", "isnt", "hasnt"};
    if (words.empty() || is_one_of(words.back(), denies) ||
        std::any_of(words.begin(), words.end(), is_a_pronoun))
      return {};
    auto const entry = read_sex(pack_, typed);
    if (!entry.remark.empty()) return {};
    Facts out;
    if (entry.sex) out.emplace_back(patient_sign::sex, *entry.sex);
    if (entry.neutered) out.emplace_back(patient_sign::neutered, *entry.neutered);
    return out;
  }

  // Why nothing fits: of the part where reading ended.
  FactsEntry with_reason() {
    auto at = std::min(furthest_, words_.size() - 1);
    auto const part = words_[at].part;
    while (at > 0 && words_[at - 1].part == part && at > furthest_) --at;
    while (at + 1 < words_.size() && is_filler(pack_, as_compared(words_[at].text))) ++at;
    auto end = at + 1;
    while (end < words_.size() && words_[end].part == part) ++end;
    auto const typed = text_of(at, end);
    bool reads_on = false;
    for (auto i = at + 1; i <= end; ++i) reads_on = reads_on || !readings_of(at, i).empty();
    if (is_told_twice_ && reads_on)
      return refused(
          fmt::format("\"{}\" tells a fact a second time: type the line once more, each "
                      "fact once. Nothing of it was taken.",
                      quoted(typed)));
    if (is_word_for_young(pack_, typed))
      return refused(
          fmt::format("\"{}\" tells no age: type how old it is, such as 4 months, or its birth "
                      "date. Nothing of the line was taken.",
                      quoted(typed)));
    auto const words = entry_words(text_of(at, std::min(at + 1, end)));
    if (is_bare(typed) || (words.size() == 1 && is_bare(words[0])))
      return refused(fmt::format(
          "{}: the age or the weight? Say it with its unit, such as 8 years or {}. Nothing of the "
          "line was taken.",
          quoted(typed), weight_example(pack_)));
    if (is_asked(patient_sign::breed)) {
      auto breed = read_entry(pack_, patient_sign::breed, typed, context_);
      if (!breed.suggested.empty()) return suggest(at, end, breed);
    }
    return refused(
        fmt::format("Not understood: \"{}\". Type each fact so: 8 years (or born 2019-04-12); "
                    "{}; {}; a breed, or crossbreed. Nothing of the line was taken.",
                    quoted(typed), weight_example(pack_), sexes_to_name(pack_)));
  }

  // The rest of the line stands with the breed that is meant, or not at all.
  FactsEntry suggest(std::size_t from, std::size_t end, Entry const& breed) {
    auto out = refused(breed.remark);
    for (auto const& one : breed.suggested) {
      read_[{from, end}] = {{{patient_sign::breed, one}}};
      readings_.clear();
      go_on(0, {});
      if (readings_.size() == 1) out.suggested.push_back(readings_.front());
    }
    if (out.suggested.size() != breed.suggested.size()) out.suggested.clear();
    return out;
  }

  Pack const& pack_;
  std::vector<SignId> const& facts_;
  EntryContext const& context_;
  std::vector<Word> words_;
  std::map<std::pair<std::size_t, std::size_t>, std::vector<Facts>> read_;
  std::vector<Facts> readings_;
  std::size_t furthest_ = 0;
  bool is_told_twice_ = false;
};

}  // namespace

FactsEntry read_facts(Pack const& pack, std::vector<SignId> const& facts, std::string_view line,
                      EntryContext const& context) {
  return LineReader(pack, facts, context).read(line);
}

FactsUnasked facts_unasked(Pack const& pack, std::string_view words, EntryContext const& context) {
  static std::vector<SignId> const all = {patient_sign::age, patient_sign::sex,
                                          patient_sign::neutered, patient_sign::breed,
                                          patient_sign::weight};
  if (refusal(words) || means_cannot_tell(words)) return {};
  auto plain = entry_words(words);
  if (is_word_for_young(pack, words)) return {{}, true};
  auto told = read_facts(pack, all, words, context).answers;
  std::erase_if(plain, [](std::string const& word) {
    constexpr std::array<std::string_view, 7> beside = {"old",    "aged",   "age",     "born",
                                                        "weighs", "weight", "weighing"};
    return is_one_of(word, beside);
  });
  bool const is_named = plain.size() < entry_words(words).size();
  auto const amounts = typed_amounts(plain, UpperLimit::tells_nothing);
  bool const is_amount =
      amounts && std::all_of(amounts->begin(), amounts->end(), [](TypedAmount const& amount) {
        auto const unit = find_unit(amount.unit);
        return unit && (unit->dimension == Dimension::time || unit->dimension == Dimension::mass);
      });
  if (is_amount && (!is_named || told.empty())) return {{}, true};
  bool const is_age_unsure =
      !names_an_age(entry_words(words)) &&
      std::erase_if(told, [](auto const& fact) { return fact.first == patient_sign::age; }) > 0;
  bool const is_sex_told = std::any_of(told.begin(), told.end(), [](auto const& fact) {
    return fact.first == patient_sign::sex || fact.first == patient_sign::neutered;
  });
  bool const is_other_told = std::any_of(told.begin(), told.end(), [](auto const& fact) {
    return fact.first != patient_sign::neutered;
  });
  // "Spayed" alone may be the operation of last week, and "he" is no telling of the sex.
  bool const is_only_sex = std::all_of(told.begin(), told.end(), [](auto const& fact) {
    return fact.first == patient_sign::sex || fact.first == patient_sign::neutered;
  });
  if (is_sex_told && (!is_other_told || (is_only_sex && is_age_unsure && !names_sex(pack, words)) ||
                      (told.size() == 1 && !names_sex(pack, words))))
    return {};
  if (is_age_unsure) return {{}, true};
  if (told.size() == 1 && told.front().first == patient_sign::breed &&
      !is_surely_a_breed(pack, entry_words(words)))
    return {{}, true};
  return {std::move(told), false};
}

}  // namespace flinch
