// Words of a pack that send the patient somewhere, where the vet comes to it.
#include <fmt/format.h>

#include "model/leaving_words.hpp"
#include "proofread/remarks.hpp"

namespace flinch {

void find_sent_away(Pack const& pack, Remarks& remarks) {
  if (pack.seen_at != SeenAt::home) return;
  auto const look_at = [&](std::string_view kind, std::string const& name, Place at,
                           std::initializer_list<std::string_view> texts) {
    for (auto const text : texts) {
      auto const words = leaving_words(text);
      if (words.empty()) continue;
      remarks.add(
          Code::sent_away, at, {at},
          fmt::format("the words of the {} `{}` send the patient away (`{}`)", kind, name, words),
          "the pack says `seen at home`: the vet comes, and all other texts send nobody "
          "anywhere",
          "write whom to telephone and what to do until the vet is there, or accept this "
          "where it must leave all the same");
      return;
    }
  };
  for (auto const& tier : pack.tiers) look_at("tier", tier.name, tier.at, {tier.say});
  for (auto const& alarm : pack.alarms)
    if (!alarm.floor_of) look_at("alarm", alarm.name, alarm.at, {alarm.say});
  for (auto const& care : pack.care)
    if (!care.for_clinician)
      look_at("care", care.name, care.at,
              {care.say, care.how, care.avoid, care.otherwise, care.watch});
}

}  // namespace flinch
