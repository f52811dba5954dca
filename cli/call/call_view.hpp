#pragma once
// A call as lines of text for a screen of a given size.
#include <optional>
#include <string>
#include <vector>

#include "call/call_model.hpp"

namespace flinch::cli {

/// How a piece of a line stands out.
enum class Weight : unsigned char {
  plain,
  bold,
  chosen,  ///< reverse: what the next key acts on
  urgency  ///< bold and reverse, in the one hue where there is colour: for the tier alone
};

struct Piece {
  std::string text;
  Weight weight = Weight::plain;
};
using ViewLine = std::vector<Piece>;

struct ScreenSize {
  std::size_t columns = 80;
  std::size_t rows = 24;
};
inline constexpr ScreenSize smallest_screen{60, 20};
[[nodiscard]] bool is_large_enough(ScreenSize size);

struct Spot {
  std::size_t row = 0;
  std::size_t column = 0;
};

struct CallScreen {
  std::vector<ViewLine> lines;     ///< exactly `rows`, none wider than `columns`
  std::optional<Spot> cursor;      ///< where text is being typed
  std::size_t scroll_at_most = 0;  ///< rows of the page of advice above its last screenful
};

enum class Letters : bool { ascii, unicode };

[[nodiscard]] CallScreen call_view(CallModel const& call, ScreenSize size, Letters letters);

/// The lines as plain text.
[[nodiscard]] std::string plain_text(CallScreen const& screen);

}  // namespace flinch::cli
