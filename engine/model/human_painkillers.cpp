#include "model/human_painkillers.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace flinch {
namespace {

// International nonproprietary names (WHO), and the usual ones beside them, of what people take for
// pain without a prescription; from memory.
constexpr std::array<std::string_view, 10> painkillers = {
    "paracetamol", "acetaminophen", "ibuprofen", "naproxen",   "aspirin",
    "acetylsalic", "diclofenac",    "codeine",   "ketoprofen", "metamizole"};

}  // namespace

std::optional<std::string_view> human_painkiller_in(std::string_view text) {
  std::string small(text);
  std::transform(small.begin(), small.end(), small.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (auto const name : painkillers)
    if (auto const at = small.find(name); at != std::string::npos)
      return text.substr(at, name.size());
  return std::nullopt;
}

}  // namespace flinch
