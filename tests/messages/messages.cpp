// Mistakes of pack writers, one edit each in a sound pack, and every word of what is said of them.
//
//   messages FOLDER [--update]
//
// FOLDER/mistakes.txt lists them; an entry is
//
//   == what the mistake is
//   in signs.flinch            (or `case`: the case that stands in FOLDER/case.yaml)
//   - the text as it is, a line or several
//   + the text with the mistake; none takes the text away
//   says
//   the whole message, up to the next entry; empty where nothing is wrong
//
// `in FILE` alone, with `remove` below it, takes the file away.
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "flinch/casefile/read_case.hpp"
#include "flinch/model/load.hpp"

namespace {

using flinch::SourceSet;

using Files = std::map<std::string, std::string>;

struct Edit {
  std::string file;
  std::string before;
  std::string after;
  bool removes_file = false;
};

struct Mistake {
  std::string title;
  std::vector<Edit> edits;
  std::string head;  // all lines up to `says`, as they stand
  std::string says;
};

std::string read_file(std::filesystem::path const& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::string without_end(std::string text) {
  while (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

// What stands before the first entry is kept as it is.
std::vector<Mistake> read_mistakes(std::string const& text, std::string& preface) {
  std::vector<Mistake> out;
  std::istringstream lines(text);
  bool is_said = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("== ", 0) == 0) {
      out.push_back({line.substr(3), {}, line + '\n', {}});
      is_said = false;
      continue;
    }
    if (out.empty()) {
      preface += line + '\n';
      continue;
    }
    auto& mistake = out.back();
    if (is_said) {
      mistake.says += line + '\n';
      continue;
    }
    mistake.head += line + '\n';
    auto const joined = [](std::string& to, std::string const& more) {
      to += (to.empty() ? "" : "\n") + more;
    };
    if (line == "says")
      is_said = true;
    else if (line.rfind("in ", 0) == 0)
      mistake.edits.push_back({line.substr(3), {}, {}, false});
    else if (line == "remove")
      mistake.edits.back().removes_file = true;
    else if (line.rfind("- ", 0) == 0)
      joined(mistake.edits.back().before, line.substr(2));
    else if (line.rfind("+ ", 0) == 0)
      joined(mistake.edits.back().after, line.substr(2));
  }
  for (auto& mistake : out) mistake.says = without_end(mistake.says);
  return out;
}

// What the program says of the pack, or of a case with the pack.
std::string said(Mistake const& mistake, Files files, std::string& trouble) {
  bool is_of_case = false;
  for (auto const& edit : mistake.edits) {
    auto const name = edit.file == "case" ? "case.yaml" : edit.file;
    is_of_case = is_of_case || edit.file == "case";
    if (edit.removes_file) {
      files.erase(name);
      continue;
    }
    auto& text = files[name];
    auto const at = text.find(edit.before);
    if (at == std::string::npos)
      trouble = fmt::format("`{}` is nowhere in {}", edit.before, name);
    else
      text.replace(at, edit.before.size(), edit.after);
  }
  flinch::ReadFile const read = [&](std::string_view path) -> flinch::FileRead {
    auto const found = files.find(std::string(path));
    if (found == files.end()) return {std::nullopt};
    return {found->second};
  };
  auto const list = [&](std::string_view) {
    std::vector<std::string> out;
    for (auto const& [name, text] : files)
      if (name.ends_with(".flinch") || (name.ends_with(".yaml") && name != "case.yaml"))
        out.push_back(name);
    return out;
  };
  SourceSet sources;
  auto const pack = flinch::load_pack("pack.flinch", read, sources, {}, list);
  if (!is_of_case || !pack) return without_end(render(pack.diagnostics, sources));
  auto const file = sources.add("case.yaml", files.at("case.yaml"));
  auto const result = flinch::read_case(sources, file, **pack.value);
  return without_end(render(result.diagnostics, sources));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  std::filesystem::path const folder = argv[1];
  bool const is_update = argc > 2 && std::string(argv[2]) == "--update";
  Files files;
  for (auto const& entry : std::filesystem::directory_iterator(folder / "pack"))
    files[entry.path().filename().string()] = read_file(entry.path());
  files["case.yaml"] = read_file(folder / "case.yaml");
  std::string preface;
  auto const mistakes = read_mistakes(read_file(folder / "mistakes.txt"), preface);
  auto out = preface;
  int wrong = 0;
  for (auto const& mistake : mistakes) {
    std::string trouble;
    auto const now = said(mistake, files, trouble);
    if (!trouble.empty()) {
      std::cout << "== " << mistake.title << ": " << trouble << '\n';
      ++wrong;
    }
    out += mistake.head + now + (now.empty() ? "\n" : "\n\n");
    if (is_update || now == mistake.says) continue;
    ++wrong;
    std::cout << "== " << mistake.title << "\nsays now\n"
              << now << "\nnot\n"
              << mistake.says << "\n\n";
  }
  if (is_update) std::ofstream(folder / "mistakes.txt", std::ios::binary) << out;
  std::cout << mistakes.size() << " mistakes, " << wrong << " with another message\n";
  return wrong == 0 && mistakes.size() > 200 ? 0 : 1;
}
