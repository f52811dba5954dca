#pragma once
// How far a run has come, kept beside its output so that another can go on from there.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli {

/// FNV-1a, 64 bits. Source: Fowler, Noll, Vo; IETF draft-eastlake-fnv. Tells accidents, not
/// attacks.
[[nodiscard]] std::uint64_t fingerprint(std::string_view bytes,
                                        std::uint64_t so_far = 0xCBF29CE484222325U);

struct Progress {
  std::uint64_t input_bytes = 0;
  std::uint64_t output_bytes = 0;
  std::uint64_t next_line = 1;   ///< number of the line that begins at `input_bytes`
  std::uint64_t lines = 0;       ///< answered so far
  std::uint64_t bad = 0;         ///< of them, with an error
  std::uint64_t settings = 0;    ///< fingerprint of the pack and the options that shape the output
  std::uint64_t tail_bytes = 0;  ///< how many bytes of the input before `input_bytes` ...
  std::uint64_t tail = 0;        ///< ... have this fingerprint
};

[[nodiscard]] std::string progress_text(Progress const& progress);
/// Nothing when it is no such text.
[[nodiscard]] std::optional<Progress> read_progress(std::string_view text);

}  // namespace flinch::cli
