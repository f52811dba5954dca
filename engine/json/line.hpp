#pragma once
// A strict reading of one JSON object: no key twice, nothing behind it, and each piece with its
// place. It becomes the same tree as a YAML document does, so that one reader of cases serves both.
#include <memory>
#include <optional>
#include <string_view>

#include "flinch/yaml/document.hpp"

namespace flinch::json {

/// Reads line after line; keeps its memory from one to the next. One a thread.
class LineParser {
 public:
  explicit LineParser(yaml::Limits const& limits);
  ~LineParser();
  LineParser(LineParser&&) noexcept;
  LineParser& operator=(LineParser&&) noexcept;

  /// The object on this line, or nothing when there is none; mistakes are in the report, with
  /// places as offsets into the line. Numbers and texts become scalars as written, `true` and
  /// `false` inside of maps become `yes` and `no`.
  [[nodiscard]] std::optional<yaml::Node> read(std::string_view line, Report& report);

 private:
  struct Memory;
  std::unique_ptr<Memory> memory_;
};

}  // namespace flinch::json
