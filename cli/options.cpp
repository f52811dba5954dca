#include "options.hpp"

namespace flinch::cli {

Option pack_option(std::string& pack) {
  return {"--pack", &pack, pack_help, {.shown = "PACK", .is_path = true}};
}

Option practice_option(std::string& practice) {
  return {"--practice",
          &practice,
          "Who the practice is and when it is open, in YAML (the user's own file otherwise)",
          {.shown = "FILE", .is_path = true}};
}

std::string unnamed_file(std::string const& name) {
  return name.empty() ? "the name of a file is expected" : "";
}

}  // namespace flinch::cli
