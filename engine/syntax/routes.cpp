// What kind of way a dose is given by, told by its words.
#include <algorithm>
#include <array>
#include <span>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {
namespace {

using Words = std::span<std::string_view const>;

// Swallowed, or kept in the mouth.
constexpr std::array<std::string_view, 4> swallowed_by = {"mouth", "drench", "gavage", "tube"};
constexpr std::array<std::string_view, 14> swallowed_on = {
    "mouth", "tongue", "gums",  "cheek",   "lips",  "food", "feed",
    "plate", "bowl",   "water", "stomach", "rumen", "crop", "beak"};
constexpr std::array<std::string_view, 4> needled_by = {"injection", "infusion", "vein", "muscle"};
constexpr std::array<std::string_view, 8> needled_into = {"vein",  "muscle", "joint", "belly",
                                                          "chest", "bone",   "spine", "artery"};
constexpr std::array<std::string_view, 5> other_by = {"inhalation", "nebuliser", "enema", "nose",
                                                      "skin"};
constexpr std::array<std::string_view, 25> other_on = {
    "skin", "back",  "neck", "shoulder", "flank",  "leg",     "wound", "eye",  "eyes",
    "ear",  "ears",  "nose", "nostril",  "hoof",   "paw",     "foot",  "wing", "vent",
    "teat", "udder", "womb", "vagina",   "rectum", "bladder", "shell"};

bool is_among(std::string_view word, Words words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_a_place(std::string_view word) {
  return is_among(word, swallowed_on) || is_among(word, needled_into) || is_among(word, other_on);
}

std::string_view last_word(std::string_view route) { return route.substr(route.rfind(' ') + 1); }

/// `drench` of `by drench`; empty where the way begins with its place.
std::string_view word_behind_by(std::string_view route) {
  constexpr std::string_view by = "by ";
  if (!route.starts_with(by)) return {};
  auto const rest = route.substr(by.size());
  return rest.substr(0, rest.find(' '));
}

bool is_by_place(std::string_view route) { return route.find(" the ") != std::string_view::npos; }

}  // namespace

bool is_known_way(std::string_view route) {
  auto const by = word_behind_by(route);
  bool const is_known_by = by.empty() || is_among(by, swallowed_by) || is_among(by, needled_by) ||
                           is_among(by, other_by);
  return is_known_by && (!is_by_place(route) || is_a_place(last_word(route)));
}

std::vector<std::string> ways_known() {
  std::vector<std::string> out;
  for (Words const words : {Words(swallowed_by), Words(needled_by), Words(other_by)})
    for (auto const word : words) out.push_back("by " + std::string(word));
  return out;
}

std::vector<std::string> places_known() {
  std::vector<std::string> out;
  for (Words const words : {Words(swallowed_on), Words(needled_into), Words(other_on)})
    for (auto const word : words)
      if (std::find(out.begin(), out.end(), word) == out.end()) out.emplace_back(word);
  return out;
}

std::optional<std::string> meant_way(std::string_view words) {
  auto const first = words.substr(0, words.find(' '));
  std::string_view place;
  for (auto rest = words; !rest.empty();) {
    auto const word = rest.substr(0, rest.find(' '));
    if (is_a_place(word)) place = word;
    rest.remove_prefix(std::min(rest.size(), word.size() + 1));
  }
  constexpr std::array<std::string_view, 4> mouth = {"mouth", "beak", "oral", "os"};
  auto const last = last_word(words);
  bool const is_taken_in = first == "by" && (is_among(last, swallowed_on) || is_among(last, mouth));
  if (is_taken_in || place == "mouth" || is_among(last, mouth)) return "by mouth";
  if (place.empty()) return std::nullopt;
  constexpr std::array<std::string_view, 5> inside = {"in", "into", "inside", "through", "by"};
  auto const* const where = is_among(first, inside) ? "into" : first == "under" ? "under" : "onto";
  return std::string(where) + " the " + std::string(place);
}

bool is_by_mouth(Dose const& dose) {
  if (!dose.route) return false;
  std::string_view const route = dose.route->text;
  return is_among(word_behind_by(route), swallowed_by) ||
         (is_by_place(route) && is_among(last_word(route), swallowed_on));
}

bool is_injected(Dose const& dose) {
  if (!dose.route) return false;
  std::string_view const route = dose.route->text;
  return is_among(word_behind_by(route), needled_by) || route == "under the skin" ||
         (route.find("into the ") != std::string_view::npos &&
          is_among(last_word(route), needled_into));
}

}  // namespace flinch::syntax
