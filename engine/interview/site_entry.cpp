// Typed places, the numbered walk over the patient, and what is clear when nothing else was found.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "flinch/explain/reasons.hpp"
#include "flinch/text/nearest.hpp"
#include "interview/entry_words.hpp"
#include "interview/site_calls.hpp"
#include "model/fit.hpp"

namespace flinch {
namespace {

bool fits(Pack const& pack, SignId sign, SiteMark const& mark) {
  Report unused;
  return site_fits(pack, pack[sign], mark, {}, unused);
}

// "left front leg, spine"
std::string such_as(Pack const& pack, SignId sign) {
  std::string out;
  for (auto const& mark : places_to_name(pack, sign))
    out += (out.empty() ? "" : ", ") + site_text(pack, mark);
  return out;
}

// The sites directly inside one; of the whole patient for none. In the order of the pack.
std::vector<SiteId> sites_inside(Pack const& pack, std::optional<SiteId> outer) {
  std::vector<SiteId> out;
  for (std::uint32_t i = 0; i < pack.sites.size(); ++i)
    if (pack.sites[i].inside == outer) out.push_back(SiteId{i});
  return out;
}

void walk(Pack const& pack, SignId sign, SiteId site, Side side, std::vector<SiteMark>& out) {
  auto inside = sites_inside(pack, site);
  for (auto part = inside.rbegin(); part != inside.rend(); ++part)
    walk(pack, sign, *part, side, out);
  SiteMark const mark{site, side};
  if ((side != Side::any) == pack[site].paired && fits(pack, sign, mark)) out.push_back(mark);
}

bool sides_meet(Side a, Side b) { return a == Side::any || b == Side::any || a == b; }

void clear_outside(Pack const& pack, SignId sign, SiteMark const& mark,
                   std::vector<SiteMark> const& found, std::vector<SiteMark>& out) {
  if (!fits(pack, sign, mark)) return;
  bool holds_one = false;
  for (auto const& one : found) {
    if (!sides_meet(mark.side, one.side)) continue;
    if (pack.covers(one.site, mark.site) && mark.side == one.side) return;
    if (pack.covers(one.site, mark.site) && one.side == Side::any) return;
    holds_one = holds_one || pack.covers(mark.site, one.site) || pack.covers(one.site, mark.site);
  }
  bool const is_whole = pack[sign].within.empty() ||
                        std::any_of(pack[sign].within.begin(), pack[sign].within.end(),
                                    [&](SiteId within) { return pack.covers(within, mark.site); });
  if (!holds_one && is_whole) {
    out.push_back(mark);
    return;
  }
  if (mark.side == Side::any && pack[mark.site].paired) {
    for (auto const side : {Side::left, Side::right})
      clear_outside(pack, sign, {mark.site, side}, found, out);
    return;
  }
  for (auto const part : sites_inside(pack, mark.site))
    clear_outside(pack, sign, {part, mark.side}, found, out);
}

class SiteReader {
 public:
  SiteReader(Pack const& pack, SignId sign, std::optional<Side> walk_side)
      : pack_(pack), calls_(pack), sign_(sign), walk_side_(walk_side) {}

  Entry read(std::string_view typed) {
    for (auto& part : parts_of(typed)) read_place(std::move(part));
    if (!problem_.empty()) return {std::nullopt, false, problem_};
    if (marks_.empty())
      return {std::nullopt, false,
              fmt::format("Name the places, such as {}; or none, or ? if nobody can tell.",
                          such_as(pack_, sign_))};
    return {Answer(Findings{true, false, marks_, {}}), false, {}};
  }

 private:
  using Words = std::vector<std::string>;

  // Cut at commas and "and"; a side that stands alone goes with its place: "right, hind leg".
  [[nodiscard]] std::vector<Words> parts_of(std::string_view typed) const {
    auto words = entry_words(typed);
    // "Yes, the left hind": the places say so too.
    if (words.size() > 1 && (words.front() == "yes" || words.front() == "y"))
      words.erase(words.begin());
    // "Back right, I think".
    if (words.size() > 2 && words[words.size() - 2] == "i" &&
        (words.back() == "think" || words.back() == "believe"))
      words.resize(words.size() - 2);
    std::vector<Words> parts(1);
    for (auto& word : words)
      if (word == "," || word == ";" || word == "and" || word == "&")
        parts.emplace_back();
      else
        parts.back().push_back(std::move(word));
    std::erase_if(parts, [](Words const& part) { return part.empty(); });
    auto const has_side = [](Words const& part) {
      return std::any_of(part.begin(), part.end(),
                         [](std::string const& word) { return side_of(word, true).has_value(); });
    };
    for (std::size_t i = 0; i < parts.size() && !is_told_by_side(pack_, sign_); ++i) {
      if (parts[i].size() != 1 || !has_side(parts[i])) continue;
      bool const is_before = i + 1 < parts.size() && !has_side(parts[i + 1]);
      bool const is_behind = !is_before && i == 1 && parts.size() == 2 && !has_side(parts[0]);
      if (!is_before && !is_behind) continue;
      auto const side = parts[i].front();
      parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
      auto& place = parts[is_before ? i : i - 1];
      place.insert(place.begin(), side);
    }
    return parts;
  }

  // One place: its side, then a name or numbers of the walk.
  void read_place(std::vector<std::string> words) {
    if (words.empty() || !problem_.empty()) return;
    auto const whole = joined(words);
    // "Near the knee" names no side, and not quite the knee.
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
      if ((words[i] == "near" || words[i] == "off") && is_article(words[i + 1])) {
        problem_ = fmt::format("\"{}\": which place is that? Name it, such as {}.", quoted(whole),
                               such_as(pack_, sign_));
        return;
      }
    bool const is_of_a_site = drop_part_of_place(words);
    words = in_full(std::move(words));
    std::erase_if(words, is_around_a_place);
    if (words.empty()) words = {whole};
    bool const is_alone = words.size() == 1;
    auto const is_side = [&](std::string const& word) {
      auto const side = side_of(word, is_alone);
      if (side) side_ = *side;
      return side.has_value();
    };
    auto const rest = std::remove_if(words.begin(), words.end(), is_side);
    bool const names_side = rest != words.end();
    words.erase(rest, words.end());
    if (!names_side && !is_number(words.front())) side_.reset();
    if (words.empty() && is_told_by_side(pack_, sign_)) {
      add(pack_[sign_].within.front(), side_, quoted(whole));
      return;
    }
    if (is_all(words)) {
      problem_ = fmt::format("{} of what? Name the places, such as {}.", quoted(whole),
                             such_as(pack_, sign_));
      return;
    }
    if (take_all_limbs(words, quoted(whole))) return;
    words = in_plain_words(std::move(words), names_side);
    if (words.empty()) {
      problem_ =
          fmt::format("{} what? Name the place, such as {}.", quoted(whole), such_as(pack_, sign_));
      return;
    }
    if (std::all_of(words.begin(), words.end(), is_number)) {
      for (auto const& word : words) take_number(word);
      return;
    }
    auto const site = named(words);
    if (!site) return unknown(words);
    // "The left side of the chest", which has no sides of its own, is the chest.
    if (is_of_a_site && !pack_[*site].paired) side_.reset();
    add(*site, side_, quoted(whole));
  }

  static bool is_article(std::string const& word) {
    return word == "the" || word == "his" || word == "her" || word == "its" || word == "a";
  }

  // "Top of the tail", "inside the back leg": the place that it is a part of.
  static bool drop_part_of_place(Words& words) {
    constexpr std::array<std::string_view, 9> parts = {"top",  "end",    "tip",     "base",  "side",
                                                       "root", "inside", "outside", "bottom"};
    for (std::size_t i = 0; i + 1 < words.size(); ++i) {
      if (std::find(parts.begin(), parts.end(), words[i]) == parts.end()) continue;
      auto const next = words[i + 1];
      if (next != "of" && !is_article(next)) continue;
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
      return true;
    }
    return false;
  }

  static bool is_number(std::string const& word) {
    return !word.empty() && word.front() >= '0' && word.front() <= '9';
  }

  // "LH" is the left hind leg.
  static std::vector<std::string> in_full(std::vector<std::string> words) {
    std::vector<std::string> out;
    for (auto& word : words) {
      if (word == "offside" || word == "nearside") word.resize(word.size() - 4);
      bool const is_leg = word.size() == 2 && (word[0] == 'l' || word[0] == 'r') &&
                          (word[1] == 'h' || word[1] == 'f');
      if (!is_leg) {
        out.push_back(std::move(word));
        continue;
      }
      out.emplace_back(word[0] == 'l' ? "left" : "right");
      out.emplace_back(word[1] == 'h' ? "hind" : "front");
    }
    return out;
  }

  // "All over", "all of them": of what is not said.
  static bool is_all(std::vector<std::string> const& words) {
    return !words.empty() && words.front() == "all" &&
           std::all_of(words.begin(), words.end(),
                       [](std::string const& word) { return word == "all" || word == "them"; });
  }

  // "Paws", "all four legs", "all four": front and hind.
  bool take_all_limbs(std::vector<std::string> words, std::string const& typed) {
    bool const has_all = !words.empty() && words.front() == "all";
    std::erase_if(words, [](std::string const& w) {
      return w == "all" || w == "four" || w == "4" || w == "them";
    });
    if (words.empty() && has_all) words = {"legs"};
    if (words.size() != 1) return false;
    auto const limb = one_of_several(words[0]);
    if (!limb || !calls_.is_limb(*limb)) return false;
    for (std::uint32_t i = 0; i < pack_.sites.size(); ++i)
      if (calls_.is_limb_of(SiteId{i}, *limb)) add(SiteId{i}, side_, typed);
    return true;
  }

  // In the words that places have: of what has a side, the back is the hind.
  [[nodiscard]] std::vector<std::string> in_plain_words(std::vector<std::string> words,
                                                        bool has_side) const {
    auto const is_limb = [&](std::string const& word) {
      auto const one = one_of_several(word);
      return calls_.is_limb(word) || (one && calls_.is_limb(*one));
    };
    if (!has_side && std::none_of(words.begin(), words.end(), is_limb)) return words;
    for (auto& word : words) {
      if (word == "back" || word == "rear") word = "hind";
      if (word == "fore" || word == "fronts") word = "front";
      if (word == "backs" || word == "hinds" || word == "rears") word = "hind";
      if (is_limb(word) && !calls_.is_limb(word)) word = *one_of_several(word);
    }
    return words;
  }

  struct Sides {
    bool left = false;
    bool right = false;
  };

  // The near side is the left one, the off side the right one; "off" alone may mean anything.
  static std::optional<Sides> side_of(std::string const& word, bool is_alone) {
    if (word == "left" || word == "l" || (word == "near" && !is_alone)) return Sides{true, false};
    if (word == "right" || word == "r" || (word == "off" && !is_alone)) return Sides{false, true};
    if (word == "both") return Sides{true, true};
    return std::nullopt;
  }

  void take_number(std::string const& word) {
    std::vector<Side> sides;
    if (!side_ && walk_side_) sides.push_back(*walk_side_);
    if (side_) {
      if (side_->left) sides.push_back(Side::left);
      if (side_->right) sides.push_back(Side::right);
    }
    constexpr auto no_list =
        "Numbers are those of a list: type left, right or middle for it, or a name.";
    if (sides.empty()) problem_ = no_list;
    for (auto const side : sides) {
      auto const places = site_walk(pack_, sign_, side);
      std::size_t number = 0;
      auto const read = std::from_chars(word.data(), word.data() + word.size(), number);
      bool const is_whole = read.ec == std::errc{} && read.ptr == word.data() + word.size();
      if (places.empty()) {
        problem_ = no_list;
        return;
      }
      if (!is_whole || number < 1 || number > places.size()) {
        problem_ = fmt::format("There is no place {} in that list; it has 1 to {}.", quoted(word),
                               places.size());
        return;
      }
      insert(places[number - 1]);
    }
  }

  // The site of this name or title; or the only one whose title holds all the words, with those
  // inside it; of the sign's own choice if of all there are several: a limp is in the "left hind"
  // leg, not in its toes.
  [[nodiscard]] std::optional<SiteId> named(std::vector<std::string> const& words) const {
    std::optional<SiteId> holder;
    std::optional<SiteId> choice;
    bool is_only = true;
    bool is_only_choice = true;
    for (std::uint32_t i = 0; i < pack_.sites.size(); ++i) {
      if (calls_.is_called(SiteId{i}, words) ||
          joined(entry_words(pack_.sites[i].name)) == joined(words))
        return SiteId{i};
      if (!calls_.holds_all(SiteId{i}, words)) continue;
      if (holder && pack_.covers(*holder, SiteId{i})) continue;
      is_only = !holder;
      holder = SiteId{i};
      auto const& within = pack_[sign_].within;
      if (std::find(within.begin(), within.end(), SiteId{i}) == within.end()) continue;
      is_only_choice = !choice;
      choice = SiteId{i};
    }
    if (is_only) return holder;
    return is_only_choice ? choice : std::nullopt;
  }

  void unknown(std::vector<std::string> const& words) {
    std::vector<std::string> near;
    std::vector<std::string_view> titles;
    for (std::uint32_t i = 0; i < pack_.sites.size(); ++i) {
      auto const& title = pack_.sites[i].title;
      if (calls_.holds_any(SiteId{i}, words)) near.push_back(title);
      titles.push_back(title);
    }
    if (near.empty())
      if (auto const one = nearest(joined(words), titles)) near.push_back(*one);
    constexpr std::size_t offered = 4;
    if (near.size() > offered) near.resize(offered);
    problem_ = fmt::format("No place is called \"{}\"{}", quoted(joined(words)),
                           near.empty() ? "; type left, right or middle for a numbered list."
                                        : fmt::format("; did you mean {}?", fmt::join(near, ", ")));
  }

  void add(SiteId site, std::optional<Sides> sides, std::string const& typed) {
    std::vector<Side> each = {Side::any};
    if (sides) {
      each.clear();
      if (sides->left) each.push_back(Side::left);
      if (sides->right) each.push_back(Side::right);
    }
    for (auto const side : each) {
      if (side != Side::any && !pack_[site].paired) {
        problem_ = fmt::format("{} has no left and right.", pack_[site].title);
        return;
      }
      if (!fits(pack_, sign_, {site, side})) {
        problem_ = fmt::format("\"{}\" is not among the places of this question.", typed);
        return;
      }
      insert({site, side});
    }
  }

  void insert(SiteMark const& mark) {
    if (std::find(marks_.begin(), marks_.end(), mark) == marks_.end()) marks_.push_back(mark);
  }

  Pack const& pack_;
  SiteCalls calls_;
  SignId sign_;
  std::optional<Side> walk_side_;
  std::optional<Sides> side_;
  std::vector<SiteMark> marks_;
  std::string problem_;
};

}  // namespace

bool asks_only_where(Sign const& sign) {
  return sign.ask.starts_with("Where ") || sign.ask.starts_with("Which ");
}

bool is_told_by_side(Pack const& pack, SignId sign) {
  auto const& within = pack[sign].within;
  return within.size() == 1 && pack[within.front()].paired;
}

std::vector<SiteMark> places_to_name(Pack const& pack, SignId sign) {
  std::vector<SiteMark> out;
  constexpr std::size_t enough = 2;
  auto side = Side::left;
  for (auto const site : pack[sign].within) {
    if (out.size() == enough) break;
    out.push_back({site, pack[site].paired ? side : Side::any});
    side = side == Side::left ? Side::right : Side::left;
  }
  if (!pack[sign].within.empty()) return out;
  for (bool const is_paired : {true, false}) {
    auto const site = std::find_if(pack.sites.begin(), pack.sites.end(),
                                   [&](Site const& s) { return s.paired == is_paired; });
    if (site != pack.sites.end())
      out.push_back({SiteId{static_cast<std::uint32_t>(site - pack.sites.begin())},
                     is_paired ? Side::left : Side::any});
  }
  return out;
}

std::vector<SiteMark> site_walk(Pack const& pack, SignId sign, Side side) {
  std::vector<SiteMark> out;
  for (auto const region : sites_inside(pack, std::nullopt)) walk(pack, sign, region, side, out);
  return out;
}

std::vector<SiteMark> clear_elsewhere(Pack const& pack, SignId sign,
                                      std::vector<SiteMark> const& found) {
  std::vector<SiteMark> out;
  for (auto const region : sites_inside(pack, std::nullopt))
    clear_outside(pack, sign, {region, Side::any}, found, out);
  return out;
}

Entry read_sites(Pack const& pack, SignId sign, std::string_view typed,
                 std::optional<Side> walk_side) {
  return SiteReader(pack, sign, walk_side).read(typed);
}

}  // namespace flinch
