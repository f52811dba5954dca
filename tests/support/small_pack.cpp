#include "support/small_pack.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

#include "flinch/casefile/read_case.hpp"

namespace flinch::test {

char const* const preamble = R"(pack small "Small"
  species dog "dog", "dogs"
  called male "dog", female "bitch", young "puppy" or "pup"
  age up to 30 years
  weight from 0.1 to 130 kg
  doses from 0.5 to 100 kg
  unlisted 100 per 1000
source judgement
  text "Judgement"
  grade judgement
tier now "Now"
  within 1 hour
  harm 19
  say "Go now."
tier soon "Soon"
  within 3 days
  harm 4
  say "Go soon."
tier watch "Watch"
  within 28 days
  say "Watch."
site foreleg "front leg" paired
site elbow "elbow" in foreleg
site carpus "wrist" in foreleg
site belly "belly"
)";

Loaded load(Files files, LoadLimits const& limits) {
  Loaded out;
  out.outcome = load_pack(
      "pack.flinch",
      [&](std::string_view path) -> std::optional<std::string> {
        auto const found = files.find(std::string(path));
        if (found == files.end()) return std::nullopt;
        return found->second;
      },
      out.sources, limits);
  return out;
}

std::shared_ptr<Pack const> sound_pack(Files files) {
  auto loaded = load(std::move(files));
  if (!loaded.outcome) throw std::runtime_error(loaded.messages());
  return *loaded.outcome.value;
}

std::shared_ptr<Pack const> pack_of(std::string const& rest) {
  return sound_pack({{"pack.flinch", preamble + rest}});
}

std::string yes_or_no_signs(std::initializer_list<std::string_view> names) {
  std::string out;
  for (auto const name : names)
    out +=
        fmt::format("sign {0} \"{0}\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n", name);
  return out;
}

Case case_of(Pack const& pack, std::string const& yaml) {
  SourceSet sources;
  auto const file = sources.add("case.yaml", yaml);
  auto read = read_case(sources, file, pack);
  if (!read) throw std::runtime_error(render(read.diagnostics, sources));
  return *read.value;
}

Assessment assess(std::shared_ptr<Pack const> const& pack, std::string const& yaml) {
  Tables const tables(pack);
  return Assessor(tables).assess(case_of(*pack, yaml));
}

double posterior(Pack const& pack, Assessment const& result, std::string const& cause) {
  for (auto const& ranked : result.ranking) {
    if (!ranked.cause && cause.empty()) return ranked.posterior;
    if (ranked.cause && pack[*ranked.cause].name == cause) return ranked.posterior;
  }
  throw std::runtime_error("no cause " + cause);
}

std::string tier_name(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].name : "none";
}

}  // namespace flinch::test
