#pragma once
// The words that steer an interview, beside the answers themselves.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flinch::cli {

enum class LineKey : std::uint8_t { skip, skipped, back, why, how, so_far, stop, more, keys };

/// A line in small letters, without blanks around it or a full stop behind.
[[nodiscard]] std::string trimmed_small(std::string_view line);

/// The key that a line is, by its word or its letter; letter case and blanks around do not matter.
[[nodiscard]] std::optional<LineKey> read_key(std::string_view line);

/// All keys in one sentence.
inline constexpr std::string_view keys_text =
    "Answer yes (y), no (n) or can't tell (?). At any question: skip (s), go back (b), why am I "
    "asked this (w), how do I check (h), so far (f), stop (q), keys (k).";

/// The numbers that are true of a list, and those that nobody can tell; the others are no.
struct ListReply {
  std::vector<std::size_t> yes;          ///< places in the list, from 0, ascending, each once
  std::vector<std::size_t> cannot_tell;  ///< likewise
  std::string remark;                    ///< when it was not understood: what would be
};

/// Whether the line says no to all of a list.
[[nodiscard]] bool means_none_of_them(std::string_view line);

/// The lines of a list of so many that the reply leaves out, from 0.
[[nodiscard]] std::vector<std::size_t> left_out(ListReply const& reply, std::size_t lines);

/// What both say of a list: what is so in either counts, before what nobody can tell.
[[nodiscard]] ListReply joined_replies(ListReply const& first, ListReply const& second);

/// "2 5", "none", "1, ?4", "?" (none can be told) for a list of so many lines.
[[nodiscard]] ListReply read_list_reply(std::string_view line, std::size_t lines);

}  // namespace flinch::cli
