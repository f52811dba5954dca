#pragma once
// HTML pages that stand alone: no network, no script, nothing from outside but inert text.
#include <string>
#include <string_view>
#include <vector>

namespace flinch::cli {

/// Text from anywhere as it may stand in an element or a quoted attribute: control characters are
/// shown, and nothing of it is markup.
[[nodiscard]] std::string escaped(std::string_view text);

/// The same for what a stranger wrote: kept from turning its surroundings round where it is written
/// from right to left.
[[nodiscard]] std::string from_outside(std::string_view text);

enum class Paper : unsigned char { a4, letter };

/// A whole page. `title` is plain text; `body` is markup for the inside of <body>. Its policy
/// allows the style sheets that stand in it (by their hashes) and nothing else.
[[nodiscard]] std::string html_page(std::string_view title, std::string_view body, Paper paper);

/// A part under <h2>, with an id made of plain letters, digits and `-`; `content` is markup.
[[nodiscard]] std::string section(std::string_view id, std::string_view heading,
                                  std::string_view content);

/// Plain text as a paragraph, and as an item of a list.
[[nodiscard]] std::string paragraph(std::string_view text);
[[nodiscard]] std::string item(std::string_view text);

/// A list of items, which are markup.
[[nodiscard]] std::string list(std::string_view items);
[[nodiscard]] std::string numbered_list(std::string_view items);

/// Pictures that stand side by side where there is room, and what is said below them, as markup.
[[nodiscard]] std::string figure(std::string_view pictures, std::string_view caption = {});

/// The head of a column. Numbers stand to the right.
struct Column {
  std::string title;
  bool is_number = false;
};

/// What a narrow screen makes of a table: it scrolls sideways in its own frame, or each row becomes
/// a block of its own.
enum class Narrow : unsigned char { scrolls, stacks };

/// A table with its caption and heads as plain text, and cells as markup. The first cell of a row
/// is its head.
[[nodiscard]] std::string table(std::string_view caption, std::vector<Column> const& columns,
                                std::vector<std::vector<std::string>> const& rows,
                                Narrow narrow = Narrow::scrolls);

}  // namespace flinch::cli
