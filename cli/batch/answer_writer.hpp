#pragma once
// The line that goes out for a case: a good one, as in docs/batch.schema.json.
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/assess/judgement.hpp"

namespace flinch::cli {

/// Text as JSON, in ASCII alone: whatever a caller wrote comes out inert on a terminal.
[[nodiscard]] std::string in_quotes(std::string_view text);
/// The same; `null` for none.
[[nodiscard]] std::string in_quotes_or_null(std::string_view text);

/// All that is the same from line to line is made once.
class AnswerWriter {
 public:
  explicit AnswerWriter(Pack const& pack);

  /// Appends the line of a case with its line break. `head` holds the places of the causes that it
  /// names among the posteriors.
  void write(std::uint64_t number, std::string_view name, Judgement const& judgement,
             std::span<std::uint32_t const> head, std::string& out) const;

 private:
  [[nodiscard]] std::string const& tier(std::optional<TierId> id) const {
    return tiers_[id ? index(*id) : tiers_.size() - 1];
  }

  std::vector<std::string> tiers_;   ///< names in quotes; last `null`
  std::vector<std::string> alarms_;  ///< names in quotes
  std::vector<std::string> care_;    ///< names in quotes
  std::vector<std::string> causes_;  ///< up to the posterior; last that of none of them
  std::string ending_;
};

}  // namespace flinch::cli
