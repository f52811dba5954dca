#include "book/changes_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "book/trouble.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string plain(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return inert(name);
}

// An amount that was turned into another unit is kept with all of its places: pounds in kilograms,
// say.
std::string with_fewer_places(std::string_view text) {
  constexpr std::size_t many_places = 6;
  double value = 0;
  auto const read = std::from_chars(text.data(), text.data() + text.size(), value);
  auto const number = text.substr(0, static_cast<std::size_t>(read.ptr - text.data()));
  auto const point = number.find('.');
  if (read.ec != std::errc() || point == std::string_view::npos ||
      number.size() - point <= many_places)
    return std::string(text);
  return fmt::format("{:.4g}{}", value, text.substr(number.size()));
}

std::string value_words(std::string const& name, Json const& value) {
  if (value.is_null()) return "taken back";
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  if (value == "") return "not told";
  if (value.is_string()) return inert(with_fewer_places(value.get<std::string>()));
  if (value.is_number_integer() && name == "ring back")
    return clock_text(static_cast<std::time_t>(value.get<long long>()));
  if (!value.is_array()) return inert(value.dump());
  std::string out;
  for (auto const& one : value) {
    auto const words = one.is_string() ? plain(one.get<std::string>()) : inert(one.dump());
    out += (out.empty() ? "" : ", ") + words;
  }
  return out.empty() ? "nothing" : out;
}

// What stands under these says by its own name what it is.
bool is_only_a_frame(std::string const& name) { return name == "book"; }

// With a pack answers are told by its labels, else by their names.
struct Names {
  Pack const* pack = nullptr;

  [[nodiscard]] Sign const* sign(std::string const& name) const {
    auto const found = pack == nullptr ? std::nullopt : pack->find_sign(name);
    return found ? &(*pack)[*found] : nullptr;
  }
  [[nodiscard]] std::string answered(std::string const& name, Json const& value) const {
    auto const* one = sign(name);
    if (one != nullptr && value.is_string())
      for (auto const& choice : one->values)
        if (choice.name == value.get<std::string>()) return choice.label;
    return value_words(name, value);
  }
  // Of "came for" and "cannot tell", which list signs.
  [[nodiscard]] std::string listed(std::string const& name, Json const& value) const {
    bool const are_signs = value.is_array() && (name == "came for" || name == "cannot tell");
    if (!are_signs) return value_words(name, value);
    auto labels = Json::array();
    for (auto const& item : value) {
      auto const* one = item.is_string() ? sign(item.get<std::string>()) : nullptr;
      labels.push_back(one == nullptr ? item : Json(one->label));
    }
    return value_words(name, labels);
  }
};

void add(std::string const& before, Json const& patch, Names const& names,
         std::vector<std::string>& out) {
  for (auto const& [name, value] : patch.items()) {
    auto const shown = before.empty() ? plain(name) : fmt::format("{} {}", before, plain(name));
    if (name == "answers" && value.is_object())
      for (auto const& [answered, answer] : value.items()) {
        auto const* sign = names.sign(answered);
        auto const label = sign == nullptr ? plain(answered) : sign->label;
        if (answer.is_object())
          add(label, answer, names, out);
        else
          out.push_back(fmt::format("{}: {}", label, names.answered(answered, answer)));
      }
    else if (value.is_object())
      add(is_only_a_frame(name) ? "" : shown, value, names, out);
    else
      out.push_back(fmt::format("{}: {}", shown, names.listed(name, value)));
  }
}

}  // namespace

std::vector<std::string> changes_in_words(std::string_view changes, Pack const* pack) {
  auto const patch = Json::parse(changes, nullptr, false);
  if (!patch.is_object()) throw BookTrouble("an entry of the book is no object");
  std::vector<std::string> out;
  add("", patch, Names{pack}, out);
  return out;
}

}  // namespace flinch::cli
