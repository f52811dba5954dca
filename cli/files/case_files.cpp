#include "files/case_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "files/read_bytes.hpp"
#include "flinch/casefile/without_words.hpp"
#include "flinch/text/display.hpp"
#include "look/headway.hpp"

namespace flinch::cli {
namespace {

std::optional<std::vector<std::string>> yaml_files(std::string const& folder) {
  std::error_code trouble;
  std::vector<std::string> out;
  for (std::filesystem::directory_iterator at(folder, trouble), end; !trouble && at != end;
       at.increment(trouble))
    if (at->path().extension() == ".yaml") out.push_back(at->path().lexically_normal().string());
  if (trouble) return std::nullopt;
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

std::optional<std::vector<std::string>> case_files(std::vector<std::string> const& places,
                                                   std::ostream& err) {
  std::vector<std::string> out;
  bool is_sound = true;
  auto const refuse = [&](std::string const& place, char const* why) {
    err << fmt::format("{}: error: {}\n", inert(place), why);
    is_sound = false;
  };
  for (auto const& place : places) {
    std::error_code ignored;
    if (!std::filesystem::is_directory(place, ignored)) {
      out.push_back(place);
      continue;
    }
    auto const found = yaml_files(place);
    if (!found)
      refuse(place, "cannot read this folder");
    else if (found->empty())
      refuse(place, "this folder holds no case: their names end in .yaml");
    else
      out.insert(out.end(), found->begin(), found->end());
  }
  if (!is_sound) return std::nullopt;
  return out;
}

std::optional<std::vector<NamedCase>> read_cases(std::vector<std::string> const& files,
                                                 Pack const& pack, Session const& session,
                                                 Outcomes outcomes) {
  std::vector<NamedCase> out;
  Headway headway(session.err, session.look, "reading cases", files.size());
  bool is_sound = true;
  std::size_t done = 0;
  for (auto const& file : files) {
    headway.reach(done++);
    auto bytes = read_file(file);
    if (!bytes) {
      headway.hide();
      session.err << fmt::format("{}: error: cannot read this case file: {}\n", inert(file),
                                 why_unreadable(file).value_or("it may not be read"));
      is_sound = false;
      continue;
    }
    SourceSet sources;
    auto const id = sources.add(file, std::move(*bytes));
    auto patient = read_case(sources, id, pack, outcomes);
    if (!patient.diagnostics.empty()) headway.hide();
    session.err << render_without_words(patient.diagnostics, sources, id);
    if (patient)
      out.push_back({file, std::move(*patient.value)});
    else
      is_sound = false;
  }
  if (!is_sound) return std::nullopt;
  return out;
}

}  // namespace flinch::cli
