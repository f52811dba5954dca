// `flinch list WHAT`: the pack as pages to read.
#include "describe/list_command.hpp"

#include <array>
#include <memory>
#include <ostream>

#include "describe/pack_lists.hpp"
#include "files/pack_source.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct ListOptions {
  std::string what;  ///< one of `names_of_lists`
  std::string pack;
};

struct PackList {
  std::string_view name;
  std::string (*page)(Tables const&);
};

template <std::string (*page)(Pack const&)>
std::string of_pack(Tables const& tables) {
  return page(tables.pack());
}

constexpr std::array pack_lists = {
    PackList{"causes", of_pack<causes_page>},   PackList{"rules", of_pack<rules_page>},
    PackList{"alarms", of_pack<alarms_page>},   PackList{"floors", of_pack<floors_page>},
    PackList{"care", of_pack<care_list_page>},  PackList{"sources", of_pack<sources_page>},
    PackList{"figures", of_pack<figures_page>}, PackList{"unread", unread_page}};

std::vector<std::string> names_of_lists() {
  std::vector<std::string> out;
  for (auto const& list : pack_lists) out.emplace_back(list.name);
  return out;
}

Status list_pack(ListOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  for (auto const& list : pack_lists)
    if (list.name == options.what) session.out << list.page(tables);
  return Status::fine;
}

CommandUse use_list() {
  auto const options = std::make_shared<ListOptions>();
  return {{{"what",
            &options->what,
            "causes, rules, alarms, floors, care, sources, figures, or what is unread",
            {.shown = "WHAT", .is_required = true, .choices = names_of_lists()}},
           pack_option(options->pack)},
          [options](Session const& session) { return list_pack(*options, session); },
          {{"flinch list causes", "Every cause, with how common it is and how soon it is seen"},
           {"flinch list care", "First aid, food and water, home care, doses and what bars each"},
           {"flinch list unread", "What no licensed vet has read, the heaviest first"}}};
}

}  // namespace

Command const list_command{
    "list", "The pack as a page in Markdown: its causes, rules, alarms, care and more", use_list};

}  // namespace flinch::cli
