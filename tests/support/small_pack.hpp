#pragma once
// Packs and cases written in a few lines, for tests.
#include <initializer_list>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "flinch/assess/assessment.hpp"
#include "flinch/model/load.hpp"

namespace flinch::test {

using Files = std::map<std::string, std::string>;

struct Loaded {
  SourceSet sources;
  Outcome<std::shared_ptr<Pack const>> outcome;
  [[nodiscard]] std::string messages() const { return render(outcome.diagnostics, sources); }
};

/// Loads `pack.flinch` of these files.
[[nodiscard]] Loaded load(Files files, LoadLimits const& limits = {});

/// What every pack needs and few tests are about: a head, the source `judgement`, the tiers `now`
/// (harm 19), `soon` (harm 4) and `watch`, and a few sites.
extern char const* const preamble;

/// The pack of files that must be sound; throws with the messages when they are not.
[[nodiscard]] std::shared_ptr<Pack const> sound_pack(Files files);

/// A sound pack of the preamble and `rest`; throws with the messages when it is not.
[[nodiscard]] std::shared_ptr<Pack const> pack_of(std::string const& rest);

/// Statements of signs with nothing to them but that anyone can answer yes or no.
[[nodiscard]] std::string yes_or_no_signs(std::initializer_list<std::string_view> names);

/// The case in YAML for this pack; throws with the messages when it is not sound.
[[nodiscard]] Case case_of(Pack const& pack, std::string const& yaml);

[[nodiscard]] Assessment assess(std::shared_ptr<Pack const> const& pack, std::string const& yaml);

/// Posterior of a cause by name; of none of the listed causes for an empty name.
[[nodiscard]] double posterior(Pack const& pack, Assessment const& result,
                               std::string const& cause);

/// The name of the tier, or "none".
[[nodiscard]] std::string tier_name(Pack const& pack, std::optional<TierId> tier);

}  // namespace flinch::test
