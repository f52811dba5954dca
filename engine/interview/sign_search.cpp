#include "flinch/interview/sign_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "flinch/model/tested_signs.hpp"
#include "flinch/text/nearest.hpp"
#include "interview/entry_words.hpp"

namespace flinch {
namespace {

// How well a typed word fits a word of the pack; all judgements.
constexpr double same_word = 1.0;
constexpr double same_stem = 0.8;
constexpr double beginning = 0.5;  // and a little more, the more of the word was typed
constexpr double misspelt = 0.2;

// Of a phrase, by weight, that a sentence must hold to mean it; a judgement.
constexpr double held_at_least = 0.5;

// What decides the order: judgements, in the order in which they tell.
constexpr double whole_thought = 1000;  // all that was typed fits one phrase
constexpr double most_of_a_thought = 500;
constexpr double asked_for = 800;
constexpr double exact_words = 400;
constexpr double everyday_words = 200;
constexpr double fit_of_the_worst_word = 100;
constexpr double same_polarity = 60;
constexpr double share_of_the_phrase = 40;
// While a word is only begun, letters alone tell little: what begins so, and what many ring about.
// Chosen by the keys of published calls, docs/interview.md.
constexpr double begins_the_phrase = 60;
constexpr double bears_on_causes = 60;
// Of two that fit alike, the dangerous one stands first.
constexpr double danger = 5;

constexpr double filler_weight = 0.2;   // of a word that colours, a judgement
constexpr double most_of_it = 2.0 / 3;  // of the weight of what was typed
constexpr std::size_t words_for_most = 3;
constexpr std::size_t shortest_misspelt = 4;
constexpr std::size_t shortest_stemmed = 4;
constexpr std::size_t typed_bytes = 400;

// Who it is about: they make no difference.
constexpr std::array<std::string_view, 27> small_words = {
    "a",       "an",  "and", "are",     "been", "has",  "he",  "her", "hers",
    "herself", "hes", "him", "himself", "his",  "i",    "is",  "it",  "its",
    "itself",  "my",  "or",  "our",     "she",  "shes", "the", "was", "were"};
// They colour what is said, and tell nothing by themselves.
constexpr std::array<std::string_view, 51> fillers = {
    "again",  "all",     "always", "at",    "away",    "bad",      "bit",   "but",  "day",
    "days",   "feels",   "for",    "gets",  "getting", "goes",     "going", "gone", "got",
    "had",    "have",    "hours",  "in",    "just",    "keep",     "keeps", "left", "little",
    "look",   "looking", "looks",  "lots",  "now",     "of",       "on",    "poor", "quite",
    "really", "right",   "seem",   "seems", "since",   "so",       "still", "that", "to",
    "today",  "too",     "very",   "while", "with",    "yesterday"};
constexpr std::array<std::string_view, 21> denying_words = {
    "no",   "not",     "never",   "without", "isnt",   "arent",  "doesnt",
    "dont", "didnt",   "wasnt",   "hasnt",   "havent", "cant",   "cannot",
    "wont", "couldnt", "wouldnt", "neither", "nor",    "werent", "none"};

constexpr std::array<std::string_view, 3> selves = {"himself", "herself", "itself"};

template <std::size_t Size>
bool is_among(std::string_view word, std::array<std::string_view, Size> const& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// The word without a common ending, if enough is left to mean something.
std::string_view stem(std::string_view word) {
  constexpr std::size_t shortest = 3;
  for (std::string_view const ending : {"ied", "ies", "ing", "es", "ed", "s", "y", "e"})
    if (word.ends_with(ending) && word.size() >= ending.size() + shortest)
      return word.substr(0, word.size() - ending.size());
  return word;
}

double whole_fit(std::string_view typed, std::string_view word) {
  if (typed == word) return same_word;
  bool const is_stemmed = typed.size() >= shortest_stemmed && stem(typed) == stem(word);
  if (is_stemmed) return same_stem;
  if (word.starts_with(typed))
    return beginning + 0.1 * static_cast<double>(typed.size()) / static_cast<double>(word.size());
  return 0;
}

bool is_misspelt(std::string_view typed, std::string_view word) {
  if (typed.size() < shortest_misspelt || word.size() + 1 < typed.size()) return false;
  if (typed[0] != word[0]) return false;
  if (edit_distance(typed, word, 1) <= 1) return true;
  if (typed.size() < shortest_misspelt + 1) return false;
  // The beginning of the word with one mistake in it.
  for (auto const length : {typed.size() - 1, typed.size(), typed.size() + 1})
    if (length < word.size() && edit_distance(typed, word.substr(0, length), 1) <= 1) return true;
  return false;
}

// "pale or white" is said as "pale" and as "white"; "slowly, over days or more" not as "more".
std::vector<std::string_view> alternatives(std::string_view label) {
  std::vector<std::string_view> out;
  if (label.find(',') != std::string_view::npos) return {label};
  while (!label.empty()) {
    auto const at = label.find(" or ");
    out.push_back(label.substr(0, at));
    if (at == std::string_view::npos) break;
    label.remove_prefix(at + 4);
  }
  return out;
}

}  // namespace

// How the words that were typed fit one phrase.
struct SignSearch::Fitting {
  double score = 0;
  bool is_whole = false;  ///< all telling words fit
  bool is_most = false;
  bool is_exact = false;
  bool is_turned = false;
  double worst_fit = same_word;  ///< of its telling words
};

SignSearch::WordKind SignSearch::kind_of(std::string_view word) const {
  if (is_among(word, denying_words)) return WordKind::no;
  bool const is_species = std::find(species_.begin(), species_.end(), word) != species_.end();
  if (is_species || is_among(word, small_words)) return WordKind::small;
  return is_among(word, fillers) ? WordKind::filler : WordKind::telling;
}

SignSearch::SignSearch(Pack const& pack)
    : pack_(pack), is_danger_(pack.signs.size()), may_calm_(pack.signs.size()) {
  for (auto const* words : {&pack.words.one, &pack.words.many})
    for (auto& word : entry_words(*words)) species_.push_back(std::move(word));
  for (auto const& alarm : pack.alarms) {
    mark_tested_signs(pack, alarm.trigger(), is_danger_);
    if (alarm.unless() != nullptr) mark_tested_signs(pack, *alarm.unless(), may_calm_);
  }
  for (auto const& care : pack.care)
    if (care.taken && care.fit_if) mark_tested_signs(pack, *care.fit_if, is_danger_);
  count_causes();
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.of_the_patient) continue;
    auto const said = [&](std::string_view words, std::string_view shown) {
      add({i, {}, true, false, shown, {}, false}, words);
    };
    said(sign.label, sign.label);
    said(sign.name, sign.label);
    for (auto const& words : sign.also_said) said(words, words);
    add_values(i);
    add({i, {}, false, false, sign.ask, {}, false}, sign.ask);
  }
  index_diseases();
}

// By the logarithm: a sign of thirty causes is not rung about thirty times as often as one of one.
void SignSearch::count_causes() {
  asked_about_.assign(pack_.signs.size(), 0);
  for (auto const& rule : pack_.rules) {
    std::vector<bool> tested(pack_.signs.size());
    if (rule.condition)
      mark_tested_signs(pack_, *rule.condition, tested);
    else
      tested[index(rule.over)] = true;
    for (std::size_t i = 0; i < tested.size(); ++i)
      if (tested[i]) asked_about_[i] += static_cast<double>(rule.entries.size());
  }
  for (auto& count : asked_about_) count = std::log(1 + count);
  auto const most = *std::max_element(asked_about_.begin(), asked_about_.end());
  if (most > 0)
    for (auto& count : asked_about_) count /= most;
}

void SignSearch::add_values(std::uint32_t sign) {
  auto const& s = pack_.signs[sign];
  for (std::uint32_t v = 0; v < s.values.size(); ++v) {
    auto const& value = s.values[v];
    bool const is_step = traits(s).has_order;
    auto own = alternatives(value.label);
    own.push_back(value.label);
    own.push_back(value.name);
    for (auto const words : own) {
      add({sign, v, true, is_step, value.label, {}, false}, words);
      add({sign, v, true, false, value.label, {}, false}, s.label + " " + std::string(words));
    }
    for (auto const& words : value.also_said) add({sign, v, true, false, words, {}, false}, words);
  }
}

void SignSearch::add(Phrase phrase, std::string_view text) {
  std::vector<std::uint32_t> all;
  bool is_denial_alone = true;
  bool has_self = false;
  for (auto& word : folded_words(text)) {
    auto const kind = kind_of(word);
    has_self = has_self || is_among(word, selves);
    is_denial_alone = is_denial_alone && (kind == WordKind::no || kind == WordKind::small);
    auto const next = static_cast<std::uint32_t>(words_.size());
    auto const [place, is_new] = word_index_.emplace(word, next);
    if (is_new) {
      words_.push_back(std::move(word));
      signs_of_word_.emplace_back();
    }
    all.push_back(place->second);
    if (kind != WordKind::small && phrase.told.empty()) phrase.first = place->second;
    if (kind != WordKind::small) phrase.told.push_back(place->second);
    phrase.says_no = phrase.says_no || kind == WordKind::no;
    auto& signs = signs_of_word_[place->second];
    if (signs.empty() || signs.back() != phrase.sign) signs.push_back(phrase.sign);
  }
  if (all.empty()) return;
  phrase.is_of_self = has_self && is_denial_alone;
  if (phrase.told.empty()) {
    phrase.first = all.front();
    phrase.told = std::move(all);
  }
  std::sort(phrase.told.begin(), phrase.told.end());
  phrase.told.erase(std::unique(phrase.told.begin(), phrase.told.end()), phrase.told.end());
  phrases_.push_back(std::move(phrase));
}

// The rarer, the more it tells: the logarithm of all signs against those that have the word.
double SignSearch::rarity(std::size_t signs_with_it) const {
  auto const all = static_cast<double>(pack_.signs.size());
  return filler_weight + std::log((all + 1) / (static_cast<double>(signs_with_it) + 1));
}

std::vector<SignSearch::TypedWord> SignSearch::weigh(std::vector<std::string> const& typed) const {
  std::vector<TypedWord> out;
  for (auto const& word : typed) {
    TypedWord one{kind_of(word), 0, std::vector<double>(words_.size()), {}, is_among(word, selves)};
    bool is_of_the_pack = false;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      one.fits[i] = whole_fit(word, words_[i]);
      is_of_the_pack = is_of_the_pack || one.fits[i] > 0;
      if (one.fits[i] == same_word) one.same = static_cast<std::uint32_t>(i);
    }
    if (!is_of_the_pack)
      for (std::size_t i = 0; i < words_.size(); ++i)
        if (is_misspelt(word, words_[i])) one.fits[i] = misspelt;
    // A letter or two may begin anything.
    if (one.kind == WordKind::telling && word.size() == 1) one.kind = WordKind::filler;
    std::set<std::uint32_t> having;
    for (std::size_t i = 0; i < words_.size(); ++i)
      if (one.fits[i] > 0) having.insert(signs_of_word_[i].begin(), signs_of_word_[i].end());
    one.weight = rarity(having.size());
    out.push_back(std::move(one));
  }
  return out;
}

double SignSearch::lead_of_begun(Phrase const& phrase, std::vector<TypedWord> const& typed) const {
  double last = 0;
  for (auto const word : phrase.told) last = std::max(last, typed.back().fits[word]);
  if (last < beginning || last >= same_stem) return 0;
  return (typed.front().fits[phrase.first] > 0 ? begins_the_phrase : 0) +
         bears_on_causes * asked_about_[phrase.sign];
}

SignSearch::Fitting SignSearch::fit_to(Phrase const& phrase, std::vector<TypedWord> const& typed,
                                       std::optional<SignId> asked) const {
  Fitting out;
  double all = 0;
  double fitting = 0;
  double worst = same_word;
  std::size_t telling = 0;
  bool says_no = false;
  bool is_whole = true;
  std::vector<bool> used(phrase.told.size());
  std::vector<std::uint32_t> told;
  bool is_all_known = true;
  bool has_any = false;
  bool has_self = false;
  for (auto const& word : typed) {
    has_self = has_self || word.is_self;
    double fit_here = 0;
    for (std::size_t i = 0; i < phrase.told.size(); ++i) {
      auto const one = word.fits[phrase.told[i]];
      if (one > 0) used[i] = true;
      fit_here = std::max(fit_here, one);
    }
    says_no = says_no || word.kind == WordKind::no;
    if (word.kind != WordKind::small) {
      is_all_known = is_all_known && word.same;
      if (word.same) told.push_back(*word.same);
    }
    has_any = has_any || (fit_here > 0 && word.kind != WordKind::small);
    if (word.kind != WordKind::telling) continue;
    ++telling;
    all += word.weight;
    if (fit_here > 0) {
      fitting += word.weight;
      worst = std::min(worst, fit_here);
    } else {
      is_whole = false;
    }
  }
  std::sort(told.begin(), told.end());
  told.erase(std::unique(told.begin(), told.end()), told.end());
  bool const is_asked = phrase.value && asked && index(*asked) == phrase.sign;
  out.is_exact = phrase.is_everyday && is_all_known && told == phrase.told &&
                 (has_self || !phrase.is_of_self) && (!phrase.is_of_step || is_asked);
  // Words that colour tell nothing alone, unless they are the phrase or its beginning.
  auto const covered = static_cast<double>(std::count(used.begin(), used.end(), true)) /
                       static_cast<double>(phrase.told.size());
  bool const is_most_of_phrase = covered >= 0.5 && has_any;
  out.is_whole = out.is_exact || (telling > 0 ? is_whole : is_most_of_phrase && phrase.is_everyday);
  out.is_most = phrase.is_everyday && telling >= words_for_most && fitting >= most_of_it * all;
  out.is_turned = !out.is_exact && says_no != phrase.says_no;
  out.worst_fit = worst;
  if (fitting == 0 && !out.is_whole) return out;
  out.score = (out.is_whole  ? whole_thought
               : out.is_most ? most_of_a_thought
                             : 0) +
              (is_asked ? asked_for : 0) + (out.is_exact ? exact_words : 0) +
              (phrase.is_everyday ? everyday_words : 0) + fit_of_the_worst_word * worst +
              (out.is_turned ? 0 : same_polarity) + share_of_the_phrase * covered +
              lead_of_begun(phrase, typed) + (is_danger_[phrase.sign] ? danger : 0);
  return out;
}

std::vector<FoundSign> SignSearch::find(std::string_view typed, std::size_t at_most,
                                        std::optional<SignId> asked) const {
  auto const words = weigh(folded_words(typed.substr(0, typed_bytes)));
  if (words.empty()) return {};
  struct Hit {
    FoundSign found;
    bool is_first_rate = false;
  };
  std::vector<Hit> hits;
  bool has_sound_hit = false;  // not by a spelling mistake alone
  std::vector<std::vector<bool>> fits_anywhere(pack_.signs.size());
  for (auto const& phrase : phrases_) {
    auto& anywhere = fits_anywhere[phrase.sign];
    anywhere.resize(words.size());
    for (std::size_t t = 0; t < words.size(); ++t)
      for (auto const word : phrase.told) anywhere[t] = anywhere[t] || words[t].fits[word] > 0;
    auto const fitting = fit_to(phrase, words, asked);
    if (fitting.score == 0) continue;
    has_sound_hit = has_sound_hit || ((fitting.is_whole || fitting.is_most) &&
                                      fitting.worst_fit >= beginning && phrase.is_everyday);
    auto const same = std::find_if(hits.begin(), hits.end(), [&](Hit const& hit) {
      return index(hit.found.sign) == phrase.sign && hit.found.value == phrase.value;
    });
    if (same != hits.end() && same->found.score >= fitting.score) continue;
    Hit hit{{SignId{phrase.sign}, fitting.score, phrase.text, phrase.value, fitting.is_exact,
             fitting.is_turned},
            fitting.is_whole || fitting.is_most};
    if (same != hits.end())
      *same = hit;
    else
      hits.push_back(hit);
  }
  // What fits only across the phrases of a sign is shown below what fits, or not at all.
  bool const has_first_rate =
      std::any_of(hits.begin(), hits.end(), [](Hit const& hit) { return hit.is_first_rate; });
  std::erase_if(hits, [&](Hit const& hit) {
    if (hit.is_first_rate) return false;
    auto const& anywhere = fits_anywhere[index(hit.found.sign)];
    for (std::size_t t = 0; t < words.size(); ++t)
      if (words[t].kind == WordKind::telling && !anywhere[t]) return true;
    return !has_first_rate || hit.found.value.has_value();
  });
  // A sign that is found by the words for one of its values is not listed without it as well.
  std::erase_if(hits, [&](Hit const& hit) {
    return !hit.found.value && !hit.found.is_exact &&
           std::any_of(hits.begin(), hits.end(), [&](Hit const& other) {
             return other.found.sign == hit.found.sign && other.found.value &&
                    other.is_first_rate && other.found.score >= hit.found.score;
           });
  });
  auto const exact =
      std::count_if(hits.begin(), hits.end(), [](Hit const& hit) { return hit.found.is_exact; });
  std::vector<FoundSign> found;
  for (auto& hit : hits) {
    bool const is_of_asked = asked && hit.found.sign == *asked && hit.found.value;
    hit.found.may_calm = may_calm_[index(hit.found.sign)];
    if ((exact > 1 || hit.found.may_calm) && !is_of_asked) hit.found.is_exact = false;
    found.push_back(hit.found);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](FoundSign const& a, FoundSign const& b) { return a.score > b.score; });
  // A word that begins nothing of the pack, or an abbreviation, may name a disease.
  constexpr std::size_t longest_abbreviation = 3;
  bool const may_name_one = !has_sound_hit || typed.size() <= longest_abbreviation;
  if (may_name_one && (found.empty() || !found.front().is_exact))
    if (auto of_disease = signs_of_disease(typed, at_most); !of_disease.empty()) return of_disease;
  if (found.size() > at_most) found.resize(at_most);
  return found;
}

std::vector<FoundSign> SignSearch::find_within(std::string_view sentence,
                                               std::size_t at_most) const {
  auto typed = weigh(folded_words(sentence.substr(0, typed_bytes)));
  bool const says_no = std::any_of(typed.begin(), typed.end(),
                                   [](TypedWord const& word) { return word.kind == WordKind::no; });
  std::vector<double> best_fit(words_.size());
  for (auto const& word : typed)
    for (std::size_t i = 0; i < words_.size(); ++i)
      if (word.fits[i] >= same_stem) best_fit[i] = std::max(best_fit[i], word.fits[i]);
  std::vector<FoundSign> out;
  for (auto const& phrase : phrases_) {
    if (!phrase.is_everyday || phrase.is_of_step) continue;
    double all = 0;
    double held = 0;
    bool tells = false;
    for (auto const word : phrase.told) {
      auto const kind = kind_of(words_[word]);
      auto const weight =
          kind == WordKind::telling ? rarity(signs_of_word_[word].size()) : filler_weight;
      all += weight;
      held += weight * best_fit[word];
      tells = tells || (kind == WordKind::telling && best_fit[word] > 0);
    }
    if (!tells || held < held_at_least * all) continue;
    FoundSign const one{SignId{phrase.sign},
                        held * held / all + (is_danger_[phrase.sign] ? danger / whole_thought : 0),
                        phrase.text,
                        phrase.value,
                        false,
                        says_no != phrase.says_no,
                        may_calm_[phrase.sign]};
    auto const same = std::find_if(out.begin(), out.end(), [&](FoundSign const& hit) {
      return hit.sign == one.sign && hit.value == one.value;
    });
    if (same == out.end())
      out.push_back(one);
    else if (same->score < one.score)
      *same = one;
  }
  std::stable_sort(out.begin(), out.end(),
                   [](FoundSign const& a, FoundSign const& b) { return a.score > b.score; });
  if (out.size() > at_most) out.resize(at_most);
  return out;
}

}  // namespace flinch
