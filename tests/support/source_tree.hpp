#pragma once
// Files of the source tree, for tests that read docs, rules and golden cases.
#include <string>
#include <vector>

namespace flinch::test {

/// The bytes of a file, by its path from the top of the tree; throws when there is none.
[[nodiscard]] std::string source_file(std::string const& path);
/// Full path of something in the tree.
[[nodiscard]] std::string source_path(std::string const& path);
/// The fenced blocks of a page that are marked with `language`, in order.
[[nodiscard]] std::vector<std::string> fenced_blocks(std::string const& page,
                                                     std::string const& language);

}  // namespace flinch::test
