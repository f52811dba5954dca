#include "interview/site_calls.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "interview/entry_words.hpp"

namespace flinch {
namespace {

bool has(SiteCalls::Words const& words, std::string const& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_front_or_hind(SiteCalls::Words const& call) {
  return call.size() == 2 && (call[0] == "front" || call[0] == "hind");
}

}  // namespace

bool is_around_a_place(std::string const& word) {
  // "On his back", "the one on the side of her chest".
  constexpr std::array<std::string_view, 16> around = {"on", "in", "his",  "her", "its",  "my",
                                                       "of", "at", "the",  "one", "just", "it",
                                                       "a",  "an", "over", "side"};
  return std::find(around.begin(), around.end(), word) != around.end();
}

std::optional<std::string> one_of_several(std::string const& word) {
  if (word == "feet") return "foot";
  constexpr std::string_view several = "ves";  // "hooves"
  if (word.size() > several.size() + 1 && word.ends_with(several))
    return word.substr(0, word.size() - several.size()) + "f";
  if (word.size() < 2 || word.back() != 's') return std::nullopt;
  return word.substr(0, word.size() - 1);
}

SiteCalls::SiteCalls(Pack const& pack) {
  calls_.reserve(pack.sites.size());
  for (auto const& site : pack.sites) {
    auto& calls = calls_.emplace_back();
    calls.push_back(entry_words(site.title));
    for (auto const& also : site.also_called) {
      auto words = entry_words(also);
      std::erase_if(words, is_around_a_place);
      if (!words.empty()) calls.push_back(std::move(words));
    }
  }
}

bool SiteCalls::is_called(SiteId site, Words const& words) const {
  auto const wanted = joined(words);
  auto one = words;
  if (auto const last = words.empty() ? std::nullopt : one_of_several(words.back()))
    one.back() = *last;
  auto const wanted_one = joined(one);
  return std::any_of(of(site).begin(), of(site).end(), [&](Words const& call) {
    auto const name = joined(call);
    return name == wanted || name == wanted_one;
  });
}

bool SiteCalls::holds_all(SiteId site, Words const& words) const {
  return std::any_of(of(site).begin(), of(site).end(), [&](Words const& call) {
    return std::all_of(words.begin(), words.end(),
                       [&](std::string const& word) { return has(call, word); });
  });
}

bool SiteCalls::holds_any(SiteId site, Words const& words) const {
  return std::any_of(of(site).begin(), of(site).end(), [&](Words const& call) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string const& word) { return has(call, word); });
  });
}

bool SiteCalls::is_limb(std::string const& word) const {
  for (std::uint32_t i = 0; i < calls_.size(); ++i)
    if (is_limb_of(SiteId{i}, word)) return true;
  return false;
}

bool SiteCalls::is_limb_of(SiteId site, std::string const& word) const {
  return std::any_of(of(site).begin(), of(site).end(),
                     [&](Words const& call) { return is_front_or_hind(call) && call[1] == word; });
}

}  // namespace flinch
