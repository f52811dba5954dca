#include "look/name_help.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "look/named_command.hpp"

namespace flinch::cli {
namespace {

// How to look at a thing of the kind.
std::string way_to(Pack const& pack, Named thing, GoesOnWith const& on) {
  auto const& name = name_of(pack, thing);
  switch (thing.kind) {
    case NamedKind::cause:
      return "--cause " + name;
    case NamedKind::rule:
    case NamedKind::alarm:
      return "--rule " + name;
    case NamedKind::sign:
    case NamedKind::source:
    case NamedKind::family:
    case NamedKind::care:
      break;
  }
  return named_command("describe", {name}, on);
}

// "a care" is not said.
std::string_view words_for(NamedKind kind) {
  return kind == NamedKind::care ? "measure of care" : kind_text(kind);
}

std::string names(Pack const& pack, std::vector<Named> const& things) {
  constexpr std::size_t shown = 6;
  std::string out;
  for (std::size_t i = 0; i < std::min(shown, things.size()); ++i)
    out += fmt::format("{}`{}`", out.empty() ? "" : ", ", name_of(pack, things[i]));
  return things.size() > shown ? fmt::format("{} and {} more", out, things.size() - shown) : out;
}

}  // namespace

std::vector<std::string> name_help(Pack const& pack, std::string_view called,
                                   std::span<NamedKind const> kinds, NameSearch const& search,
                                   std::string const& pack_path) {
  GoesOnWith const on{pack_path, {}};
  auto const list = [&](std::string const& what) {
    return "`" + named_command("list", {what}, on) + "`";
  };
  constexpr std::array all = {NamedKind::cause, NamedKind::sign,   NamedKind::rule,
                              NamedKind::alarm, NamedKind::source, NamedKind::family,
                              NamedKind::care};
  std::vector<std::string> out;
  if (kinds.size() < all.size()) {
    auto const others = find_named(pack, called, all);
    for (auto const thing : others.best())
      out.push_back(fmt::format("`{}` is a{} {}: {}", name_of(pack, thing),
                                thing.kind == NamedKind::alarm ? "n" : "", words_for(thing.kind),
                                way_to(pack, thing, on)));
  }
  if (out.empty() && search.nearest && search.containing.empty())
    out.push_back(fmt::format("did you mean `{}`?", *search.nearest));
  if (!search.containing.empty())
    out.push_back(fmt::format("with these words: {}", names(pack, search.containing)));
  if (out.empty()) {
    if (kinds.size() == all.size())
      out.push_back(fmt::format("{}, {}, {} and `{}` show all names", list("causes"), list("rules"),
                                list("care"), named_command("signs", {}, on)));
    else if (kinds.front() == NamedKind::cause)
      out.push_back(list("causes") + " shows all names");
    else
      out.push_back(list("rules") + " and " + list("alarms") + " show all names");
  }
  return out;
}

}  // namespace flinch::cli
