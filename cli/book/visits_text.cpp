#include "book/visits_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/call_text.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

// Columns are as wide as what stands in them.
void write_visits(std::vector<CallLine> const& calls, Pack const& pack, Page& page) {
  CallReader reader(pack);
  std::vector<CallWords> words;
  std::size_t tier = 0;
  std::size_t pain = 0;
  std::size_t weight = 0;
  for (auto const& call : calls) {
    words.push_back(words_of_call(call, pack, reader));
    tier = std::max(tier, display_width(words.back().tier));
    pain = std::max(pain, display_width(words.back().pain));
    weight = std::max(weight, display_width(words.back().weight));
  }
  constexpr std::size_t day = 10;
  auto const digits = calls.empty() ? 0 : std::to_string(number(calls.back().call)).size();
  for (std::size_t i = 0; i < calls.size(); ++i) {
    auto line = fmt::format("  {}  call {:<{}}", clock_text(calls[i].begun).substr(0, day),
                            number(calls[i].call), digits);
    for (auto const& [text, columns] :
         {std::pair{&words[i].tier, tier}, {&words[i].pain, pain}, {&words[i].weight, weight}})
      if (columns > 0) line += "  " + fitted(*text, columns);
    auto const whole = line + "  " + words[i].complaint;
    bool const fits = display_width(whole) <= page.look().width;
    page.line(fits ? whole : line);
    if (!fits) page.paragraph(words[i].complaint, 6);
    if (!words[i].outcome.empty()) page.paragraph(words[i].outcome, 6, "outcome: ");
  }
}

}  // namespace flinch::cli
