// Sex and whether it is neutered, told together.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "interview/entry_words.hpp"

namespace flinch {
namespace {

// The pack's everyday words made `male` and `female`. A word for the young, or for the species,
// says nothing of the sex; where such a word means a sex as well, it does so only if it is all that
// was said: a "female dog" is no male.
std::vector<std::string> with_plain_sexes(SpeciesWords const& said,
                                          std::vector<std::string> words) {
  std::erase_if(words, [](std::string const& word) { return word == "a" || word == "the"; });
  auto const is_called = [&](std::vector<std::string> const& names) {
    return std::any_of(names.begin(), names.end(), [&](std::string const& name) {
      return joined(entry_words(name)) == joined(words);
    });
  };
  if (is_called(said.neutered_male)) return {"male", "neutered"};
  if (is_called(said.neutered_female)) return {"female", "neutered"};
  if (is_called(said.male)) return {"male"};
  if (is_called(said.female)) return {"female"};
  auto const replace = [&](std::string const& name, std::vector<std::string> const& by) {
    auto const sought = entry_words(name);
    for (auto at = words.begin(); !sought.empty();) {
      at = std::search(at, words.end(), sought.begin(), sought.end());
      if (at == words.end()) return;
      at = words.erase(at, at + static_cast<std::ptrdiff_t>(sought.size()));
      at = words.insert(at, by.begin(), by.end()) + static_cast<std::ptrdiff_t>(by.size());
    }
  };
  for (auto const* neutral : {&said.one, &said.many}) replace(*neutral, {});
  for (auto const& name : said.young) replace(name, {});
  for (auto const& name : said.neutered_male) replace(name, {"male", "neutered"});
  for (auto const& name : said.neutered_female) replace(name, {"female", "neutered"});
  for (auto const& name : said.male) replace(name, {"male"});
  for (auto const& name : said.female) replace(name, {"female"});
  return words;
}

// " (buck)"
std::string shown_beside(std::vector<std::string> const& words) {
  return words.empty() ? std::string() : fmt::format(" ({})", words.front());
}

}  // namespace

std::string sexes_to_name(Pack const& pack) {
  auto const neutered = [&](std::uint32_t sex, std::string_view words,
                            std::vector<std::string> const& everyday) {
    if (pack.is_never_neutered || pack.sex_never_neutered == sex) return std::string();
    return fmt::format("{}{}, ", words, shown_beside(everyday));
  };
  return fmt::format("{}male{}, {}female{}", neutered(0, "male neutered", pack.words.neutered_male),
                     shown_beside(pack.words.male),
                     neutered(1, "female spayed", pack.words.neutered_female),
                     shown_beside(pack.words.female));
}

bool names_sex(Pack const& pack, std::string_view typed) {
  auto const entry = read_sex(pack, typed);
  if (!entry.sex && !entry.neutered) return false;
  // Two letters begin other words ("fi" of "fits"): as practices write it, only where it is asked.
  constexpr std::array<std::string_view, 25> weak = {
      "he",   "she",   "him",   "her", "hes", "shes", "m",   "f",    "done",
      "snip", "fixed", "whole", "its", "is",  "a",    "lad", "lass", "mn",
      "mc",   "fn",    "fs",    "me",  "fe",  "mi",   "fi"};
  auto const words = entry_words(typed);
  return std::any_of(words.begin(), words.end(), [&](std::string const& word) {
    return word.size() > 1 && word != pack.words.one && word != pack.words.many &&
           !is_one_of(word, weak);
  });
}

SexEntry read_sex(Pack const& pack, std::string_view typed) {
  SexEntry out;
  if (auto const why = refusal(typed)) {
    out.remark = *why;
    return out;
  }
  if (means_cannot_tell(typed)) {
    out.cannot_tell = true;
    return out;
  }
  constexpr std::array<std::string_view, 8> male = {"m",   "male", "males", "boy",
                                                    "lad", "he",   "him",   "hes"};
  constexpr std::array<std::string_view, 8> female = {"f",   "female", "girl", "lady",
                                                      "she", "her",    "shes", "lass"};
  constexpr std::array<std::string_view, 8> neutered = {
      "neutered", "spayed", "castrated", "desexed", "done", "fixed", "sterilised", "snip"};
  constexpr std::array<std::string_view, 5> entire = {"entire", "intact", "unneutered", "unspayed",
                                                      "whole"};
  // As practices write it.
  constexpr std::array<std::array<std::string_view, 3>, 8> letters = {{{"mn", "male", "neutered"},
                                                                       {"mc", "male", "neutered"},
                                                                       {"fn", "female", "neutered"},
                                                                       {"fs", "female", "spayed"},
                                                                       {"me", "male", "entire"},
                                                                       {"fe", "female", "entire"},
                                                                       {"mi", "male", "entire"},
                                                                       {"fi", "female", "entire"}}};
  constexpr std::array<std::string_view, 19> beside = {
      ",", "and", "is",     "a",   "been", "has",   "was",     "the", "its",  "had",
      "/", "got", "little", "big", "old",  "young", "already", "yet", "still"};
  auto const value = [&](std::string_view name) -> Answer {
    auto const& values = pack[patient_sign::sex].values;
    auto const found =
        std::find_if(values.begin(), values.end(), [&](Value const& v) { return v.name == name; });
    return Choice{static_cast<std::uint32_t>(found - values.begin())};
  };
  bool is_denied = false;
  bool is_clear = true;
  auto const set = [&](std::optional<Answer>& slot, Answer answer) {
    is_clear = is_clear && (!slot || *slot == answer);
    slot = std::move(answer);
  };
  std::vector<std::string> words;
  auto all = entry_words(typed);
  // "F/S" as "FS".
  if (all.size() == 3 && all[1] == "/" && all[0].size() == 1 && all[2].size() == 1)
    all = {all[0] + all[2]};
  for (auto const& word : with_plain_sexes(pack.words, std::move(all))) {
    auto const* const both =
        std::find_if(letters.begin(), letters.end(), [&](auto const& l) { return l[0] == word; });
    if (both == letters.end()) {
      words.push_back(word);
      continue;
    }
    words.emplace_back((*both)[1]);
    words.emplace_back((*both)[2]);
  }
  for (auto const& word : words) {
    // "Not a male" says nothing that may be written down.
    if (is_denied && (is_one_of(word, male) || is_one_of(word, female))) is_clear = false;
    if (is_one_of(word, male))
      set(out.sex, value("male"));
    else if (is_one_of(word, female))
      set(out.sex, value("female"));
    else if (is_one_of(word, neutered))
      set(out.neutered, !is_denied);
    else if (is_one_of(word, entire))
      set(out.neutered, is_denied);
    else if (!is_one_of(word, beside))
      is_clear = is_clear && (word == "not" || word == "isnt" || word == "hasnt");
    is_denied = word == "not" || word == "isnt" || word == "hasnt" ||
                (is_denied && is_one_of(word, beside));
  }
  if (is_clear && (out.sex || out.neutered)) return out;
  out = {};
  out.remark =
      fmt::format("Not understood: \"{}\". Type {}; or ?.", quoted(typed), sexes_to_name(pack));
  return out;
}

}  // namespace flinch
