#include "book/urgency_of_all.hpp"

#include <fmt/format.h>

#include "book/call_case.hpp"

namespace flinch::cli {

std::string name_of_tier(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].name : "";
}

std::optional<TierId> tier_of_name(Pack const& pack, std::string const& name) {
  for (std::uint32_t i = 0; i < pack.tiers.size(); ++i)
    if (pack.tiers[i].name == name) return TierId{i};
  return std::nullopt;
}

bool is_of_pack(CallLine const& call, Pack const& pack) {
  if (!call.pack.empty()) return call.pack == pack.name;
  return call.species.empty() || call.species == pack.patient_key();
}

std::string urgency_of_all(Assessor& assessor, Pack const& pack, std::string const& own,
                           CallLine const& together) {
  auto tier = tier_of_name(pack, own);
  auto const raise_to = [&](std::optional<TierId> other) {
    if (other && (!tier || *other < *tier)) tier = other;
  };
  auto const read = CallReader(pack).read(together);
  if (read) raise_to(assessor.judge(read->patient).tier);
  // What this pack does not know may be the ground of the tier that was told.
  if (!read || !read->unknown_names.empty()) raise_to(tier_of_name(pack, together.tier));
  for (auto const& told : {together.tier, own})
    if (!told.empty() && !tier_of_name(pack, told) && tier != TierId{0}) return told;
  return name_of_tier(pack, tier);
}

std::string told_otherwise(Pack const& pack, TakenInCall const& taken, std::string const& own) {
  if (taken.tier == taken.tier_before && (!taken.others_wrote || taken.tier == own)) return "";
  auto const before = tier_of_name(pack, taken.tier_before);
  auto const now = tier_of_name(pack, taken.tier);
  // Of a tier that this pack does not have nobody knows whether it was more urgent.
  bool const fell = !taken.tier_before.empty() && !(before && now && *now <= *before);
  if (!taken.others_wrote && !fell) return "";
  auto const titled = [&](std::string const& name) {
    if (name.empty()) return std::string("none");
    auto const tier = tier_of_name(pack, name);
    return fmt::format("\"{}\"", tier ? pack[*tier].title : name);
  };
  if (!taken.others_wrote)
    return fmt::format(
        "What waited lowers the urgency of call {0} to {1}: in the book stood {2}. Read it (flinch "
        "book history {0}).",
        number(taken.call), titled(taken.tier), titled(taken.tier_before));
  return fmt::format(
      "Others wrote into call {0} meanwhile. With all that was said its urgency is {1}: told at "
      "this desk was {2}, in the book stood {3}. Read it (flinch book history {0}), and ring back "
      "where that changes what was advised.",
      number(taken.call), titled(taken.tier), titled(own), titled(taken.tier_before));
}

}  // namespace flinch::cli
