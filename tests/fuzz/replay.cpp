// Runs a fuzz target over the files of its corpus, without a fuzzer.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "fuzz/target.hpp"

int main(int argc, char** argv) {
  std::size_t files = 0;
  for (int i = 1; i < argc; ++i)
    for (auto const& entry : std::filesystem::directory_iterator(argv[i])) {
      std::ifstream file(entry.path(), std::ios::binary);
      std::string const bytes(std::istreambuf_iterator<char>(file), {});
      LLVMFuzzerTestOneInput(reinterpret_cast<std::uint8_t const*>(bytes.data()), bytes.size());
      ++files;
    }
  std::cout << files << " files replayed\n";
  return files == 0 ? 1 : 0;
}
