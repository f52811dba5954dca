// The floor under `flinch batch`: simdjson parses every line of a file, and nothing is done with
// it. parse_lines FILE; one thread. Reads in blocks of whole lines, as batch does.
#include <simdjson.h>

#include <cstring>
#include <fstream>
#include <iostream>
#include <string>

namespace {

constexpr std::size_t bytes_at_once = std::size_t{1} << 20U;

// How many documents the block holds; throws on one that is not JSON.
std::size_t parse(simdjson::dom::parser& parser, std::string& block) {
  auto const size = block.size();
  block.append(simdjson::SIMDJSON_PADDING, ' ');
  std::size_t documents = 0;
  simdjson::dom::document_stream stream;
  if (auto const error = parser.parse_many(block.data(), size, bytes_at_once).get(stream))
    throw simdjson::simdjson_error(error);
  for (auto document : stream) {
    if (document.error() != simdjson::SUCCESS) throw simdjson::simdjson_error(document.error());
    ++documents;
  }
  block.resize(size);
  return documents;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  std::ifstream file(argv[1], std::ios::binary);
  simdjson::dom::parser parser;
  parser.threaded = false;
  std::string block;
  std::string rest;
  std::size_t documents = 0;
  while (file) {
    block = rest;
    auto const before = block.size();
    block.resize(before + bytes_at_once);
    file.read(block.data() + before, static_cast<std::streamsize>(bytes_at_once));
    block.resize(before + static_cast<std::size_t>(file.gcount()));
    auto const end = file ? block.rfind('\n') + 1 : block.size();
    rest.assign(block, end);
    block.resize(end);
    if (!block.empty()) documents += parse(parser, block);
  }
  std::cout << documents << " documents\n";
  return documents == 0 ? 1 : 0;
}
