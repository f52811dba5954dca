// Writes docs/call.md as it should be: the page itself, with the screen and the table of efforts as
// they come out now.
#include <algorithm>
#include <fstream>
#include <iostream>

#include "call/call_desk.hpp"
#include "call/call_view.hpp"
#include "call/scripted_calls.hpp"
#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

// Replaces what stands between the first `opening` and the next `closing` behind it.
void replace_between(std::string& page, std::string_view opening, std::string_view closing,
                     std::string_view text) {
  auto const from = page.find(opening) + opening.size();
  auto const to = page.find(closing, from);
  if (from < opening.size() || to == std::string::npos)
    throw std::runtime_error("docs/call.md has lost: " + std::string(opening));
  page.replace(from, to - from, text);
}

std::string page_now() {
  auto page = source_file("docs/call.md");
  Tables const tables(shipped_pack());
  cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
  press(call, "bloated1");
  replace_between(page, "```screen\n", "```",
                  plain_text(call_view(call, {80, 24}, cli::Letters::unicode)));
  auto const table = effort_table(tables);
  auto const heading = table.substr(0, table.find('\n') + 1);
  replace_between(
      page, heading, "\n\n",
      std::string_view(table).substr(heading.size(), table.size() - heading.size() - 1));
  return page;
}

}  // namespace
}  // namespace flinch::test

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: call_page PAGE\n";
    return 2;
  }
  auto const page = flinch::test::page_now();
  std::ofstream out(argv[1], std::ios::binary);
  out << page;
  return out.flush() ? 0 : 1;
}
