// What kind of way a dose is given by, told by its words.
#include <algorithm>
#include <array>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {
namespace {

template <std::size_t n>
bool ends_with_any(std::string_view route, std::array<std::string_view, n> const& places) {
  auto const last = route.substr(route.rfind(' ') + 1);
  return std::find(places.begin(), places.end(), last) != places.end();
}

}  // namespace

bool is_by_mouth(Dose const& dose) {
  constexpr std::array<std::string_view, 4> places = {"mouth", "tongue", "gums", "cheek"};
  return dose.route && ends_with_any(dose.route->text, places);
}

bool is_injected(Dose const& dose) {
  constexpr std::array<std::string_view, 6> places = {"vein",  "muscle", "joint",
                                                      "belly", "chest",  "bone"};
  if (!dose.route) return false;
  std::string_view const route = dose.route->text;
  return route.starts_with("by injection") || route == "under the skin" ||
         (route.starts_with("into the ") && ends_with_any(route, places));
}

}  // namespace flinch::syntax
