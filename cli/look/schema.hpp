#pragma once
// What a document for programs says of its own shape: docs/schemas.md.
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace flinch::cli {

/// A file docs/NAME.schema.json, and the version of it that the program writes.
struct Schema {
  std::string_view name;
  std::string_view version;
};

inline constexpr Schema assessment_schema{"assessment", "1.1.0"};
inline constexpr Schema audit_schema{"audit", "1.1.0"};
inline constexpr Schema batch_schema{"batch", "1.1.0"};
inline constexpr Schema book_schema{"book", "2.1.0"};
inline constexpr Schema care_schema{"care", "3.3.0"};
inline constexpr Schema check_schema{"check", "2.0.0"};
inline constexpr Schema review_schema{"review", "1.2.0"};

[[nodiscard]] inline nlohmann::ordered_json schema_json(Schema const& schema) {
  return {{"name", schema.name}, {"version", schema.version}};
}

}  // namespace flinch::cli
