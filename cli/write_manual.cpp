// Writes the manual into a folder, one page a command; run while the program is built.
#include <fstream>
#include <iostream>
#include <string>

#include "command_list.hpp"
#include "manual/manual_page.hpp"

namespace {

flinch::cli::Edition const edition{FLINCH_VERSION, FLINCH_RELEASED};

bool write(std::string const& path, std::string const& text) {
  std::ofstream file(path, std::ios::binary);
  file << text << std::flush;
  if (!file) std::cerr << path << ": cannot be written\n";
  return static_cast<bool>(file);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "write_manual FOLDER, or --examples\n";
    return 2;
  }
  std::string const folder = argv[1];
  auto const commands = flinch::cli::all_commands();
  if (folder == "--examples") {
    for (auto const* command : commands)
      for (auto const& example : command->use().examples) std::cout << example.line << '\n';
    return 0;
  }
  bool is_written = write(folder + "/flinch.1", flinch::cli::program_manual(commands, edition));
  for (auto const* command : commands)
    if (!command->is_hidden)
      is_written = write(folder + "/flinch-" + command->name + ".1",
                         flinch::cli::command_manual(*command, edition)) &&
                   is_written;
  return is_written ? 0 : 2;
}
