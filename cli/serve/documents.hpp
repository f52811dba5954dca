#pragma once
// The texts that are open in the editor. Each change brings the whole text.
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli::serve {

struct Document {
  std::string text;
  std::optional<std::int64_t> version;  ///< the editor's count of its changes
};

struct DocumentLimits {
  std::size_t documents = 2000;
  std::size_t bytes = std::size_t{64} << 20U;  ///< of all texts together
};

class Documents {
 public:
  explicit Documents(DocumentLimits const& limits = {}) : limits_(limits) {}

  /// Opens the document or gives it another text; false when that would pass the limits, and then
  /// it is not open any more: a stale text would be worse than none.
  [[nodiscard]] bool put(std::string const& uri, Document document);
  void close(std::string const& uri);
  [[nodiscard]] Document const* find(std::string_view uri) const;
  /// By address.
  [[nodiscard]] std::map<std::string, Document, std::less<>> const& all() const { return open_; }

 private:
  DocumentLimits limits_;
  std::map<std::string, Document, std::less<>> open_;
  std::size_t bytes_ = 0;
};

}  // namespace flinch::cli::serve
