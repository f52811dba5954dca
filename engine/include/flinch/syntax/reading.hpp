#pragma once
// Who has read a statement, and the mark by which a later change of its words shows.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {

/// What a reading is held against: eight digits from `0` to `f`, made from the statement as `print`
/// writes it, without its `read by` clauses. Layout, comments and the order of clauses do not
/// count; every word, figure and source does. It is the CRC-32 of ISO/IEC 13239: it tells a change
/// (one in four thousand million goes unseen), it is no signature. What the statement names
/// elsewhere, such as a `means`, has a mark of its own.
[[nodiscard]] std::string mark_of(Statement const& statement);

/// The same of any bytes.
[[nodiscard]] std::string mark_of_text(std::string_view text);

/// The readings that stand in a statement; none in an `include`.
[[nodiscard]] std::vector<Reading> const& readings_of(Statement const& statement);

/// The name of a statement, or null for an `include`.
[[nodiscard]] Name const* name_of(Statement const& statement);

/// A name and, behind a comma, a licence; neither of them empty.
[[nodiscard]] bool is_reader(std::string_view text);
/// A day of the Gregorian calendar as ISO 8601 writes it: `2026-12-01`.
[[nodiscard]] bool is_date(std::string_view text);
[[nodiscard]] bool is_mark(std::string_view text);

/// The text with a reading, marked with what stands there now, in each of these statements of
/// `file`, which was parsed from it. An earlier reading by the same reader gives way; a new one
/// goes below the last clause. Everything else stays as it is, byte for byte.
[[nodiscard]] std::string with_readings(std::string_view text, File const& file,
                                        std::vector<std::size_t> const& statements,
                                        std::string const& reader, std::string const& date);

}  // namespace flinch::syntax
