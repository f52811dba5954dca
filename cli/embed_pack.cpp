// At build time: writes the pack in FOLDER as a C++ file that the program holds, its texts as they
// are and all that was read from them made ready.
//
//   embed_pack FOLDER OUTPUT
#include <cstdio>
#include <fstream>
#include <iostream>
#include <string>
#include <string_view>

#include "files/prepared_pack.hpp"
#include "flinch/model/load.hpp"
#include "flinch/text/diagnostic.hpp"

namespace {

using namespace flinch;

std::optional<std::string> bytes_of(std::string const& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(file), {});
}

// Octal, since it ends after three digits whatever follows.
void write_literal(std::ostream& out, std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (i % 128 == 0) out << (i == 0 ? "\"" : "\"\n\"");
    char octal[8];
    std::snprintf(octal, sizeof octal, "\\%03o", static_cast<unsigned char>(bytes[i]));
    out << octal;
  }
  out << (bytes.empty() ? "\"\"" : "\"");
}

void write_view(std::ostream& out, std::string_view bytes) {
  out << "std::string_view(";
  write_literal(out, bytes);
  out << ", " << bytes.size() << ")";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: embed_pack FOLDER OUTPUT\n";
    return 2;
  }
  std::string const folder(argv[1]);
  SourceSet texts;
  auto const pack = load_pack(
      "pack.flinch",
      [&](std::string_view path) { return bytes_of(folder + '/' + std::string(path)); }, texts);
  std::cerr << render(pack.diagnostics, texts);
  // The program says nothing of the pack that it holds, so there must be nothing to say.
  if (!pack.value || !pack.diagnostics.empty()) return 1;

  std::ofstream out(argv[2], std::ios::binary);
  out << "// Generated from the shipped pack.\n#include \"files/pack_source.hpp\"\n\n"
         "namespace flinch::cli {\n\nEmbeddedPack const& embedded_pack() {\n"
         "  static EmbeddedPack const pack = {{\n";
  for (std::size_t i = 0; i < texts.size(); ++i) {
    auto const& text = texts[static_cast<FileId>(i)];
    out << "{\"" << text.name() << "\", ";
    write_view(out, text.text());
    out << "},\n";
  }
  out << "},\n";
  write_view(out, cli::prepare_pack(**pack.value));
  out << "};\n  return pack;\n}\n\n}  // namespace flinch::cli\n";
  return out.flush() ? 0 : 1;
}
