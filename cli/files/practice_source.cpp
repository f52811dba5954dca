#include "files/practice_source.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "files/clock.hpp"
#include "files/environment.hpp"
#include "files/read_bytes.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::string practice_of_the_user() {
  auto const configuration = folder_of_environment("XDG_CONFIG_HOME");
  auto const home = folder_of_environment("HOME");
  if (!configuration.empty()) return configuration + "/flinch/practice.yaml";
  return home.empty() ? "" : home + "/.config/flinch/practice.yaml";
}

}  // namespace

void set_clock(Setting& setting, std::time_t now) {
  std::tm local{};
  localtime_r(&now, &local);
  setting.weekday = local.tm_wday;
  setting.minute = local.tm_hour * 60 + local.tm_min;
  setting.written = clock_text(now);
}

std::optional<Setting> open_setting(std::string const& path, std::ostream& err) {
  Setting setting;
  set_clock(setting, now_or_fixed());

  auto const file = path.empty() ? practice_of_the_user() : path;
  std::error_code trouble;
  bool const is_there = !file.empty() && std::filesystem::exists(file, trouble);
  if (path.empty() && !is_there) return setting;
  auto bytes = read_file(file);
  if (!bytes) {
    err << fmt::format("{}: error: cannot read this practice file: {}\n", inert(file),
                       why_unreadable(file).value_or("it may not be read"));
    return std::nullopt;
  }
  SourceSet sources;
  auto read = read_practice(sources, sources.add(file, std::move(*bytes)));
  err << render(read.diagnostics, sources);
  if (!read) return std::nullopt;
  setting.practice = std::move(read.value);
  return setting;
}

}  // namespace flinch::cli
