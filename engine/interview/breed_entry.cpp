// Breeds as people call them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/text/nearest.hpp"
#include "interview/entry_words.hpp"

namespace flinch {
namespace {

// The breeds whose names come nearest to what was typed, best first.
std::vector<std::string> near_breeds(BreedTable const& table, std::string const& wanted) {
  struct Near {
    std::size_t distance;
    std::string name;
  };
  std::vector<Near> near;
  auto const limit = std::max<std::size_t>(2, wanted.size() / 3);
  for (auto const& breed : table.breeds) {
    auto best = limit + 1;
    auto const look_at = [&](std::string_view name) {
      auto const plain = joined(entry_words(name));
      best = std::min(best, edit_distance(wanted, plain, limit));
      // A word of the name alone: "shepherd".
      for (auto const& word : entry_words(name))
        if (wanted.size() > 3 && edit_distance(wanted, word, 1) <= 1) best = std::min(best, limit);
    };
    look_at(breed.name);
    for (auto const& also : breed.also) look_at(also);
    if (best <= limit) near.push_back({best, breed.name});
  }
  std::stable_sort(near.begin(), near.end(),
                   [](Near const& a, Near const& b) { return a.distance < b.distance; });
  // A slip of a letter or two: what is far from it was not meant.
  if (near.size() > 1 && near[0].distance <= 2 && near[1].distance > near[0].distance + 1)
    near.resize(1);
  constexpr std::size_t offered = 4;
  std::vector<std::string> names;
  for (auto& one : near)
    if (names.size() < offered) names.push_back(std::move(one.name));
  return names;
}

// "Black lab", "a male Yorkie": the breed, without what stands before it.
std::string without_looks(std::vector<std::string> words) {
  constexpr std::array<std::string_view, 22> looks = {
      "hes",    "shes",  "its",    "he",        "is",       "a",       "an",      "black",
      "white",  "brown", "yellow", "chocolate", "red",      "blue",    "brindle", "male",
      "female", "boy",   "girl",   "pedigree",  "purebred", "neutered"};
  while (words.size() > 1 && is_one_of(words.front(), looks)) words.erase(words.begin());
  return joined(words);
}

}  // namespace

Entry read_breed(Pack const& pack, std::string_view typed) {
  auto const words = entry_words(typed);
  auto const wanted = joined(words);
  auto const bare = without_looks(words);
  for (auto const& name :
       {wanted, bare, bare.substr(0, bare.size() - (bare.ends_with('s') ? 1 : 0))})
    if (auto const breed = pack.breeds.find(name)) return {Answer(Choice{*breed}), false, {}};
  // Half of something is a mixture.
  for (std::string_view const mixture : {" mix", " cross", " x"}) {
    if (!wanted.ends_with(mixture)) continue;
    auto const half = wanted.substr(0, wanted.size() - mixture.size());
    for (auto const& name : {half + " cross", half + " mix", std::string("crossbreed")})
      if (auto const breed = pack.breeds.find(name)) return {Answer(Choice{*breed}), false, {}};
  }
  auto const near = near_breeds(pack.breeds, wanted);
  std::string hint = near.empty() ? "Type another name, crossbreed, or ? if unknown." : "";
  if (near.size() == 1) hint = fmt::format("Did you mean {}?", near.front());
  if (near.size() > 1) {
    for (std::size_t i = 0; i < near.size(); ++i)
      hint += fmt::format("{}{} {}", i == 0 ? "Did you mean " : ", ", i + 1, near[i]);
    hint += "? Type its number, or another name.";
  }
  auto out = remark(fmt::format("No breed is called \"{}\". {}", quoted(typed), hint));
  for (auto const& name : near)
    if (auto const breed = pack.breeds.find(name)) out.suggested.push_back(Choice{*breed});
  return out;
}

}  // namespace flinch
