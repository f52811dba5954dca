#pragma once
// What the sites of a pack are called at home: their titles, and what they are also called.
#include <optional>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

class SiteCalls {
 public:
  using Words = std::vector<std::string>;

  explicit SiteCalls(Pack const& pack);

  /// The title first, then what it is also called, without the little words around a place.
  [[nodiscard]] std::vector<Words> const& of(SiteId site) const { return calls_[index(site)]; }
  /// Whether one call of the site is these words, or holds them all.
  [[nodiscard]] bool is_called(SiteId site, Words const& words) const;
  [[nodiscard]] bool holds_all(SiteId site, Words const& words) const;
  [[nodiscard]] bool holds_any(SiteId site, Words const& words) const;
  /// What is there in front and behind, by its one word: the "leg" of "front leg", "hind leg".
  [[nodiscard]] bool is_limb(std::string const& word) const;
  /// The front one or the hind one of that word.
  [[nodiscard]] bool is_limb_of(SiteId site, std::string const& word) const;

 private:
  std::vector<std::vector<Words>> calls_;
};

/// Whether it is a word around a place, such as "on", "his": no part of its name.
[[nodiscard]] bool is_around_a_place(std::string const& word);

/// "legs" is several of "leg", "feet" of "foot"; nothing for what is no plural.
[[nodiscard]] std::optional<std::string> one_of_several(std::string const& word);

}  // namespace flinch
