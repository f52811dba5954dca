#pragma once
// Who a call is about, as far as that was told; harmless to show.
#include <string>

namespace flinch::cli {

struct BookWords {
  /// Of the words of a call, as JSON.
  explicit BookWords(std::string const& json);
  [[nodiscard]] bool are_empty() const {
    return name.empty() && client.empty() && telephone.empty();
  }

  std::string name;
  std::string client;
  std::string telephone;
};

}  // namespace flinch::cli
