#pragma once
// The statements of a pack as somebody reads them who answers for them: what weighs most comes
// first, by body region, and who has read what.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/assess/tables.hpp"

namespace flinch {

enum class StatementKind : std::uint8_t {
  pack,
  source,
  tier,
  site,
  breeds,
  sign,
  means,
  cause,
  family,
  rule,
  alarm,
  overlap,
  care,
  example
};

/// The keyword that such a statement begins with.
[[nodiscard]] std::string_view keyword(StatementKind kind);

/// What a statement weighs when it is wrong, the heaviest first.
enum class StatementWeight : std::uint8_t {
  alarm,             ///< an alarm
  floor,             ///< a sign with a floor
  dose,              ///< care with an amount to give, or of which so much does harm
  strong_judgement,  ///< a rule with a judged figure of `strong_clues`
  rest
};
inline constexpr std::size_t statement_weights = 5;
/// "Alarms", "Floors of signs", "Doses", "Strong judgements", "The rest".
[[nodiscard]] std::string_view heading(StatementWeight weight);

struct PackStatement {
  StatementKind kind{};
  std::uint32_t index = 0;  ///< in the pack's list of its kind
  std::string name;
  std::string title;
  StatementWeight weight = StatementWeight::rest;
  /// The body region that it is about most: of a rule, that of the causes which it moves furthest;
  /// of what rules use, that of those rules. Empty: none.
  std::string region;
  Place at;
  Reading const* read = nullptr;   ///< one that stands; it lives in the pack
  Reading const* stale = nullptr;  ///< without one that stands: one that does not
};

/// All of them, the heaviest first: alarms and floors by tier, strong judgements by how strong they
/// are, the rest by kind and in the order of the pack.
[[nodiscard]] std::vector<PackStatement> statements_by_weight(Tables const& tables);

struct ReadCounts {
  std::size_t statements = 0;
  std::size_t read = 0;
  std::size_t changed = 0;   ///< and not read since
  std::size_t unmarked = 0;  ///< and not otherwise read
};
[[nodiscard]] ReadCounts count_read(Pack const& pack);

/// "Read by A. Smith, MRCVS 123, on 2026-12-01.", for the statement whose name stands at this
/// place; or that it was not, or has changed since.
[[nodiscard]] std::string reading_text(Pack const& pack, Place statement);

/// "No statement of this pack has been read by a licensed vet.", and what else there is to say.
[[nodiscard]] std::string read_sentence(Pack const& pack);

}  // namespace flinch
