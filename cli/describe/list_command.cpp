// `flinch list WHAT`: the pack as pages to read.
#include <array>
#include <ostream>

#include "commands.hpp"
#include "describe/pack_lists.hpp"
#include "files/pack_source.hpp"

namespace flinch::cli {
namespace {

struct PackList {
  std::string_view name;
  std::string (*page)(Pack const&);
};
constexpr std::array pack_lists = {
    PackList{"causes", causes_page},   PackList{"rules", rules_page},
    PackList{"alarms", alarms_page},   PackList{"floors", floors_page},
    PackList{"sources", sources_page}, PackList{"figures", figures_page}};

}  // namespace

std::vector<std::string> names_of_lists() {
  std::vector<std::string> out;
  for (auto const& list : pack_lists) out.emplace_back(list.name);
  return out;
}

Status list_pack(ListOptions const& options, Session const& session) {
  auto const opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  for (auto const& list : pack_lists)
    if (list.name == options.what) session.out << list.page(**opened.outcome.value);
  return Status::fine;
}

}  // namespace flinch::cli
