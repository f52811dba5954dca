#include "exchange/without_texts.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "flinch/casefile/without_words.hpp"

namespace flinch::cli {
namespace {

constexpr std::array<std::string_view, 8> of_the_form = {"linkId",       "system", "code", "unit",
                                                         "resourceType", "status", "type", "url"};

std::size_t character_size(char lead) {
  auto const byte = static_cast<unsigned char>(lead);
  return byte < 0xC0 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

}  // namespace

std::string without_texts(std::string text, std::vector<Diagnostic> const& mistakes) {
  std::vector<bool> stays(text.size());
  for (auto const& mistake : mistakes)
    for (auto i = mistake.at.span.begin; i < mistake.at.span.end && i < text.size(); ++i)
      stays[i] = true;
  std::string key;
  for (auto at = text.find('"'); at < text.size(); at = text.find('"', at)) {
    auto end = at + 1;
    while (end < text.size() && text[end] != '"') end += text[end] == '\\' ? 2 : 1;
    end = std::min(end, text.size());
    auto const next = text.find_first_not_of(" \t\r\n", end + 1);
    if (next < text.size() && text[next] == ':') {
      key = text.substr(at + 1, end - at - 1);
    } else if (std::find(of_the_form.begin(), of_the_form.end(), key) == of_the_form.end()) {
      for (auto i = at + 1; i < end;) {
        auto const size = std::min(character_size(text[i]), end - i);
        if (!stays[i]) text.replace(i, size, blot_of(size));
        i += size;
      }
    }
    at = std::min(end + 1, text.size());
  }
  return text;
}

}  // namespace flinch::cli
