#pragma once
// From a syntax tree back to text: one layout for every tree, and parse(print(tree)) == tree.
#include <string>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {

[[nodiscard]] std::string print(File const& file);
[[nodiscard]] std::string print(Statement const& statement);
/// One line, with parentheses where `and` and `or` meet.
[[nodiscard]] std::string print(Condition const& condition);
/// As a rule's `usual` or `in` writes them, the sample included.
[[nodiscard]] std::string print(Frequencies const& frequencies);
/// As `give` and `form` of care write them.
[[nodiscard]] std::string print(Dose const& dose);
[[nodiscard]] std::string print(Form const& form);
/// As an example's `expect` writes it.
[[nodiscard]] std::string print(Promise const& promise);
/// As a statement's `read by` clause.
[[nodiscard]] std::string print(Reading const& reading);
/// A number as the language writes it: shortest digits that read back the same, no exponent.
[[nodiscard]] std::string print_number(double value);

}  // namespace flinch::syntax
