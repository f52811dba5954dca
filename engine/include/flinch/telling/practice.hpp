#pragma once
// The practice that answers: who it is, when it is open, and where to go when it is not.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"
#include "flinch/model/reader.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Minutes since midnight, [from, to); at most 1440.
struct OpenHours {
  int from = 0;
  int to = 0;
};

/// The hours of each day, from Sunday on.
using WeekHours = std::array<std::vector<OpenHours>, 7>;

struct Practice {
  std::string name;
  std::string telephone;
  std::string address;
  std::string out_of_hours;  ///< where to go when it is closed; may be empty
  std::string initials;      ///< of who answers; may be empty
  WeekHours hours;           ///< from Sunday on
  /// When a vet comes to the patient; at all other times it is brought. Told in the place of
  /// `seen_at`.
  std::optional<WeekHours> home_visits{};
  std::optional<SeenAt> seen_at{};  ///< in the place of what the pack says
};

/// When something is told, and by whom.
struct Setting {
  std::optional<Practice> practice;
  int weekday = 0;      ///< 0 to 6, from Sunday on
  int minute = 0;       ///< since midnight
  std::string written;  ///< the time in words, "2026-11-25 15:40"; may be empty
};

/// Reads `name`, `telephone`, `address`, `hours`, `out of hours`, `initials`, `seen at` and
/// `home visits` (docs/practice.md); the first two are needed.
[[nodiscard]] Outcome<Practice> read_practice(SourceSet const& sources, FileId file);

/// Without hours it is never known to be closed.
[[nodiscard]] bool is_open(Practice const& practice, int weekday, int minute);

/// As the practice says for that hour, else as the pack says. While it is closed, nobody comes out
/// and it says of nobody else, the words of the pack's tiers stand, and so does this.
[[nodiscard]] SeenAt seen_at(Pack const& pack, Setting const& setting);

/// Where to go for this tier, as the nurse says it ("Come straight to us") or as a page does ("Go
/// straight to ..."); what the tier says when no practice is known, or none is open and nothing is
/// said of where to go. The first tier, and any within the hour, sends straight there. Where the
/// vet comes nobody is sent anywhere: whom to telephone, and what to ask for; of the pack's own
/// words those that only send somebody are left out.
[[nodiscard]] std::string where_to_go(Tier const& tier, TierId id, Setting const& setting,
                                      Reader reader, SeenAt seen_at);

}  // namespace flinch
