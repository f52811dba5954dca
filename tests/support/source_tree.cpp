#include "support/source_tree.hpp"

#include <fstream>
#include <iterator>
#include <stdexcept>

namespace flinch::test {

std::string source_path(std::string const& path) {
  return std::string(FLINCH_SOURCE_DIR) + "/" + path;
}

std::string source_file(std::string const& path) {
  std::ifstream file(source_path(path), std::ios::binary);
  if (!file) throw std::runtime_error("no such file in the tree: " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> fenced_blocks(std::string const& page, std::string const& language) {
  std::vector<std::string> blocks;
  std::string const opening = "```" + language + "\n";
  for (std::size_t at = 0; (at = page.find(opening, at)) != std::string::npos;) {
    auto const begin = at + opening.size();
    auto const end = page.find("\n```", begin);
    blocks.push_back(page.substr(begin, end - begin + 1));
    at = end;
  }
  return blocks;
}

}  // namespace flinch::test
