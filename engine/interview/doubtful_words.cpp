#include "interview/doubtful_words.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "interview/entry_words.hpp"

namespace flinch {
namespace {

// Not "can't" and "won't": what a patient can't or won't do is what is wrong with it.
constexpr std::array<std::string_view, 14> denying = {
    "no",    "not",    "never", "without", "isnt",   "doesnt", "dont",
    "hasnt", "havent", "didnt", "wasnt",   "werent", "hadnt",  "arent"};
constexpr std::array<std::string_view, 7> takes_back_alone = {"didnt",  "hasnt", "wasnt", "isnt",
                                                              "doesnt", "hadnt", "not"};
constexpr std::array<std::string_view, 9> subjects = {"he", "she", "it",  "they",  "i",
                                                      "my", "the", "now", "really"};
constexpr std::array<std::string_view, 12> asking = {
    "is", "are", "does", "do", "did", "has", "can", "could", "should", "will", "would", "was"};
constexpr std::array<std::string_view, 5> asked_of = {"he", "she", "it", "they", "i"};
// Not "has the runs" or "did the splits".
constexpr std::array<std::string_view, 6> asking_of_named = {"is",  "are",   "does",
                                                             "can", "could", "should"};
constexpr std::array<std::string_view, 10> guesses = {"might", "may",      "maybe",  "perhaps",
                                                      "could", "possibly", "nearly", "almost",
                                                      "would", "thought"};
constexpr std::array<std::string_view, 7> well = {"fine",   "ok",      "okay", "better",
                                                  "normal", "alright", "well"};
// Of how it eats "fine now" tells no more than that; "dropped, then fine again" is a faint.
constexpr std::array<std::string_view, 5> well_in_that = {"eating", "drinking", "eats", "drinks",
                                                          "then"};

bool follows(std::vector<std::string> const& words, std::size_t at, std::string_view first,
             std::string_view second) {
  return at + 1 < words.size() && words[at] == first && words[at + 1] == second;
}

// "Was limping", "used to limp"; not "was hit by a car", which stays so.
bool is_past(std::vector<std::string> const& words, std::size_t at) {
  if (follows(words, at, "used", "to") || follows(words, at, "had", "been")) return true;
  return (words[at] == "was" || words[at] == "were") && at + 1 < words.size() &&
         words[at + 1].ends_with("ing");
}

// "Dog" or "dogs", where the pack calls its patients so.
bool names_species(std::string const& word, SpeciesWords const& species) {
  for (auto const* const called : {&species.one, &species.many})
    if (auto const words = entry_words(*called); !words.empty() && words.back() == word)
      return true;
  return false;
}

bool is_of_another(std::vector<std::string> const& words, std::size_t at,
                   SpeciesWords const& species) {
  if (words[at] != "other" || at + 1 >= words.size()) return false;
  if (words[at + 1] != "one" && !names_species(words[at + 1], species)) return false;
  return at > 0 && (words[at - 1] == "my" || words[at - 1] == "our" || words[at - 1] == "the");
}

bool is_feared(std::vector<std::string> const& words, std::size_t at) {
  return words[at] == "if" || follows(words, at, "in", "case") ||
         follows(words, at, "rule", "out") || follows(words, at, "ruled", "out") ||
         words[at] == "prevent";
}

}  // namespace

DoubtReach doubt_in(std::vector<std::string> const& part, SpeciesWords const& species) {
  auto reach = DoubtReach::none;
  for (std::size_t i = 0; i < part.size(); ++i) {
    if (is_past(part, i) || is_of_another(part, i, species) || is_feared(part, i))
      return DoubtReach::line;
    if (is_one_of(part[i], denying) || is_one_of(part[i], guesses)) reach = DoubtReach::clause;
  }
  return reach;
}

bool is_asked(std::vector<std::string> const& part, SpeciesWords const& species) {
  if (part.size() < 2) return false;
  bool const names_it = part[1] == "my" || part[1] == "the" || part[1] == "this";
  return names_it ? is_one_of(part[0], asking_of_named)
                  : is_one_of(part[0], asking) &&
                        (is_one_of(part[1], asked_of) || names_species(part[1], species));
}

bool is_over(std::vector<std::string> const& part) {
  for (std::size_t i = 0; i < part.size(); ++i)
    if (is_past(part, i)) return true;
  return false;
}

bool takes_back(std::vector<std::string> const& complaint, SpeciesWords const& species) {
  bool is_told_as_past = false;
  for (std::size_t i = 0; i < complaint.size(); ++i) {
    auto const& word = complaint[i];
    is_told_as_past = is_told_as_past || word == "was" || word == "were" || word == "had";
    bool const is_denied = (i > 0 && is_one_of(complaint[i - 1], denying)) ||
                           (i > 1 && is_one_of(complaint[i - 2], denying));
    bool const is_of_one_thing = i > 0 && is_one_of(complaint[i - 1], well_in_that);
    bool const is_well = is_one_of(word, well) && !is_denied && !is_of_one_thing;
    for (auto const* const when : {"now", "today", "again"})
      if (is_well && follows(complaint, i, word, when)) return true;
    if (i > 0 && complaint[i - 1] == "now" && is_well) return true;
    if (word == "recovered" && !is_denied) return true;
    bool const is_last = i + 1 == complaint.size() || complaint[i + 1] == ",";
    if (is_last && word == "stopped" && is_told_as_past && !is_denied) return true;
    if (follows(complaint, i, "back", "to") && i + 2 < complaint.size() &&
        complaint[i + 2] == "normal" && !is_denied)
      return true;
    if (word != "but") continue;
    // "But didn't", "but he didn't really": nothing else follows.
    auto const start = complaint.begin() + static_cast<std::ptrdiff_t>(i) + 1;
    std::vector<std::string> rest(start, std::find(start, complaint.end(), ","));
    std::erase_if(rest, [&](std::string const& one) {
      return is_one_of(one, subjects) || names_species(one, species);
    });
    if (rest.size() == 1 && is_one_of(rest[0], takes_back_alone)) return true;
  }
  return false;
}

}  // namespace flinch
