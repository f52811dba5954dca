#include "model/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace flinch {

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string in_small_letters(std::string_view text) {
  std::string out(text);
  for (auto& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

std::string text_or_empty(std::optional<syntax::Text> const& text) {
  return text ? text->text : "";
}

std::string title_or_name(syntax::Head const& head) {
  return head.title ? head.title->text : spoken(head.name.text);
}

std::string floor_title(Pack const& pack, Test const& test) {
  auto const& sign = pack[test.sign];
  auto const amount = [&](double value) {
    return sign.unit.name.empty() ? fmt::format("{:.4g}", value)
                                  : fmt::format("{:.4g} {}", value, sign.unit.name);
  };
  std::string what;
  switch (test.kind) {
    case Test::Kind::at_site:
      what = fmt::format("{}{}",
                         test.mark.side == Side::left    ? "left "
                         : test.mark.side == Side::right ? "right "
                                                         : "",
                         pack[test.mark.site].title);
      break;
    case Test::Kind::at_least:
      what = sign.values[test.values.front()].label;
      if (test.values.front() + 1 < sign.values.size()) what += " or worse";
      break;
    case Test::Kind::is_value:
      for (auto const value : test.values)
        what += (what.empty() ? "" : " or ") + sign.values[value].label;
      break;
    case Test::Kind::in_range:
      if (std::isfinite(test.low) && std::isfinite(test.high))
        what = amount(test.low) + " to " + amount(test.high);
      else if (std::isfinite(test.low))
        what = test.low_included ? amount(test.low) + " or more" : "over " + amount(test.low);
      else
        what = test.high_included ? amount(test.high) + " or less" : "under " + amount(test.high);
      break;
    case Test::Kind::holds:
    case Test::Kind::in_group:
      break;
  }
  auto out = what.empty() ? sign.label : sign.label + ": " + what;
  if (!out.empty())
    out.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(out.front())));
  return out;
}

}  // namespace flinch
