#include "call/call_desk.hpp"

#include <stdexcept>

#include "flinch/model/load.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {

std::shared_ptr<Pack const> desk_pack() {
  static auto const made = [] {
    SourceSet sources;
    auto const loaded = load_pack(
        "desk.flinch",
        [](std::string_view path) -> std::optional<std::string> {
          return source_file("tests/call/" + std::string(path));
        },
        sources);
    if (!loaded) throw std::runtime_error(render(loaded.diagnostics, sources));
    return *loaded.value;
  }();
  return made;
}

void press(cli::CallModel& call, std::string_view keys) {
  using Kind = cli::Key::Kind;
  for (char const c : keys) {
    switch (c) {
      case '\n':
        call.press({Kind::enter, {}});
        break;
      case '\t':
        call.press({Kind::next_page, {}});
        break;
      case '\b':
        call.press({Kind::erase, {}});
        break;
      case '\x1b':
        call.press({Kind::escape, {}});
        break;
      case '\x1a':
        call.press({Kind::undo, {}});
        break;
      case '\x03':
        call.press({Kind::leave, {}});
        break;
      case '\x15':
        call.press({Kind::clear_line, {}});
        break;
      case '\x0b':
        call.press({Kind::show_keys, {}});
        break;
      case '\x0e':
        call.press({Kind::down, {}});
        break;
      case '\x10':
        call.press({Kind::up, {}});
        break;
      default:
        call.press({Kind::text, std::string(1, c)});
    }
  }
}

}  // namespace flinch::test
