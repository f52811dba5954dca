#pragma once
// What the readers of resources share: members of a JSON tree that are asked for by name and kind,
// and mistakes that are not told for ever.
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "flinch/text/diagnostic.hpp"
#include "flinch/yaml/document.hpp"

namespace flinch::cli {

using Tree = yaml::Node;

class JsonReader {
 public:
  explicit JsonReader(Report& report) : report_(report) {}

  /// Whether so much is wrong that the rest is not looked at; says so once.
  [[nodiscard]] bool has_enough(Place at);

  Diagnostic& error(Code code, Place at, std::string message);
  /// Of something that is not taken over; after a hundred the rest is left untold.
  void unread(Place at, std::string const& message);

  /// A text; nothing, and an error when it is there and something else.
  [[nodiscard]] std::optional<std::string> text(Tree const& of, std::string_view key);
  /// The objects of a list; none when it is not there, an error when it is something else.
  [[nodiscard]] std::vector<Tree const*> objects(Tree const& of, std::string_view key);
  /// Members that are neither read nor known to be of no account are errors: the standard has no
  /// such element, or what it says would be lost.
  void refuse_others(Tree const& of, std::initializer_list<std::string_view> known);

 private:
  Report& report_;
  std::size_t unread_ = 0;
};

/// A text in the JSON, not a number, `true` or `false`.
[[nodiscard]] bool is_text(Tree const& node);

}  // namespace flinch::cli
