#include "flinch/model/find_named.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "flinch/text/nearest.hpp"

namespace flinch {
namespace {

std::string folded(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), [](unsigned char c) {
    return c == '-' || c == '_' ? ' ' : static_cast<char>(std::tolower(c));
  });
  return out;
}

std::vector<std::string> const none;

std::vector<std::string> const& other_words(Pack const& pack, Named thing) {
  if (thing.kind == NamedKind::cause) return pack.causes[thing.index].also_called;
  if (thing.kind == NamedKind::sign) return pack.signs[thing.index].also_said;
  return none;
}

}  // namespace

std::uint32_t how_many(Pack const& pack, NamedKind kind) {
  std::size_t out = 0;
  switch (kind) {
    case NamedKind::cause:
      out = pack.causes.size();
      break;
    case NamedKind::sign:
      out = pack.signs.size();
      break;
    case NamedKind::rule:
      out = pack.rules.size();
      break;
    case NamedKind::alarm:
      out = pack.alarms.size();
      break;
    case NamedKind::source:
      out = pack.sources.size();
      break;
    case NamedKind::family:
      out = pack.families.size();
      break;
    case NamedKind::care:
      out = pack.care.size();
      break;
  }
  return static_cast<std::uint32_t>(out);
}

std::string_view kind_text(NamedKind kind) {
  constexpr std::array<std::string_view, 7> words = {"cause",  "sign",   "rule", "alarm",
                                                     "source", "family", "care"};
  return words.at(static_cast<std::size_t>(kind));
}

std::string const& name_of(Pack const& pack, Named thing) {
  switch (thing.kind) {
    case NamedKind::cause:
      return pack.causes[thing.index].name;
    case NamedKind::sign:
      return pack.signs[thing.index].name;
    case NamedKind::rule:
      return pack.rules[thing.index].name;
    case NamedKind::alarm:
      return pack.alarms[thing.index].name;
    case NamedKind::family:
      return pack.families[thing.index].name;
    case NamedKind::care:
      return pack.care[thing.index].name;
    case NamedKind::source:
      break;
  }
  return pack.sources[thing.index].name;
}

std::string const& title_of(Pack const& pack, Named thing) {
  switch (thing.kind) {
    case NamedKind::cause:
      return pack.causes[thing.index].title;
    case NamedKind::sign:
      return pack.signs[thing.index].label;
    case NamedKind::rule:
      return pack.rules[thing.index].title;
    case NamedKind::alarm:
      return pack.alarms[thing.index].title;
    case NamedKind::family:
      return pack.families[thing.index].title;
    case NamedKind::care:
      return pack.care[thing.index].title;
    case NamedKind::source:
      break;
  }
  return pack.sources[thing.index].text;
}

NameSearch find_named(Pack const& pack, std::string_view called, std::span<NamedKind const> kinds) {
  NameSearch out;
  auto const wanted = folded(called);
  std::vector<std::string_view> names;
  for (auto const kind : kinds)
    for (std::uint32_t i = 0; i < how_many(pack, kind); ++i) {
      Named const thing{kind, i};
      names.push_back(name_of(pack, thing));
      auto const& also = other_words(pack, thing);
      if (folded(names.back()) == wanted)
        out.by_name.push_back(thing);
      else if (folded(title_of(pack, thing)) == wanted ||
               std::any_of(also.begin(), also.end(),
                           [&](std::string const& words) { return folded(words) == wanted; }))
        out.by_words.push_back(thing);
    }
  if (!out.best().empty()) return out;
  out.nearest = nearest(called, names);
  if (wanted.empty()) return out;
  for (auto const kind : kinds)
    for (std::uint32_t i = 0; i < how_many(pack, kind); ++i) {
      Named const thing{kind, i};
      // From the beginning of a word on: "aki" is nothing of shaking.
      auto const holds = [&](std::string const& words) {
        return (" " + folded(words)).find(" " + wanted) != std::string::npos;
      };
      auto const& called_also = kind == NamedKind::cause ? pack.causes[i].also_called : none;
      if (holds(name_of(pack, thing)) || holds(title_of(pack, thing)) ||
          std::any_of(called_also.begin(), called_also.end(), holds))
        out.containing.push_back(thing);
    }
  return out;
}

}  // namespace flinch
