#include "reference/outside.hpp"

#include <array>
#include <cstdio>
#include <sstream>

namespace flinch::test {

std::string output_of(std::string const& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return out;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    out.append(buffer.data(), got);
  return pclose(pipe) == 0 ? out : "";
}

std::vector<std::string> words(std::string const& line) {
  std::istringstream in(line);
  std::vector<std::string> out;
  for (std::string word; in >> word;) out.push_back(word);
  return out;
}

}  // namespace flinch::test
