#pragma once
// HTML pages that stand alone: no network, no script, nothing from outside but inert text.
#include <string>
#include <string_view>

namespace flinch::cli {

/// Text from anywhere as it may stand in an element or a quoted attribute: control characters are
/// shown, and nothing of it is markup.
[[nodiscard]] std::string escaped(std::string_view text);

enum class Paper : unsigned char { a4, letter };

/// A whole page. `title` is plain text; `body` is markup for the inside of <body>. Its policy
/// allows the one style sheet that stands in it (by its hash) and nothing else.
[[nodiscard]] std::string html_page(std::string_view title, std::string_view body, Paper paper);

/// <h2>, or a lower heading, with an id made of plain letters.
[[nodiscard]] std::string section(std::string_view id, std::string_view heading,
                                  std::string_view content);

}  // namespace flinch::cli
