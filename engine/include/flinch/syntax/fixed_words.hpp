#pragma once
// Words of the language that stand for one of a few things: each once, for the grammar, the writer,
// hints and editors.
#include <array>
#include <optional>
#include <string_view>

#include "flinch/syntax/names.hpp"

namespace flinch::syntax {

/// What an example may promise.
struct PromiseWords {
  std::string_view words;
  Promise::Kind kind;
  std::optional<NameKind> refers{};  ///< what its name stands for; none: it has no name
  bool takes_rank = false;           ///< a number before the name
  bool takes_amount = false;         ///< maybe an amount behind the name
};

/// In the order of `Promise::Kind`.
inline constexpr std::array<PromiseWords, 13> promise_words = {{
    {"first", Promise::Kind::first, NameKind::cause},
    {"not first", Promise::Kind::not_first, NameKind::cause},
    {"among", Promise::Kind::among, NameKind::cause, true},
    {"tier", Promise::Kind::tier, NameKind::tier},
    {"tier at least", Promise::Kind::tier_at_least, NameKind::tier},
    {"ceiling", Promise::Kind::ceiling, NameKind::tier},
    {"alarm", Promise::Kind::alarm, NameKind::alarm},
    {"not alarm", Promise::Kind::not_alarm, NameKind::alarm},
    {"offered", Promise::Kind::offered, NameKind::care, false, true},
    {"not offered", Promise::Kind::not_offered, NameKind::care},
    {"withheld", Promise::Kind::withheld, NameKind::care},
    {"ask first", Promise::Kind::ask_first, NameKind::care, false, true},
    {"nothing told", Promise::Kind::nothing_told},
}};

[[nodiscard]] constexpr PromiseWords const& words_of(Promise::Kind kind) {
  return promise_words.at(static_cast<std::size_t>(kind));
}

/// In the order of `SeenBy`.
inline constexpr std::array<std::string_view, 3> seen_by_words = {"anyone", "hands", "clinic"};

/// In the order of `SeenAt`.
inline constexpr std::array<std::string_view, 2> seen_at_words = {"clinic", "home"};

/// In the order of `ReadAs`.
inline constexpr std::array<std::string_view, 4> read_as_words = {"in full", "abstract", "quoted",
                                                                  "from memory"};

/// Which of a table's words these are; they must be there.
template <std::size_t n>
[[nodiscard]] constexpr std::size_t place_of(std::array<std::string_view, n> const& table,
                                             std::string_view words) {
  std::size_t at = 0;
  while (table.at(at) != words) ++at;
  return at;
}

}  // namespace flinch::syntax
