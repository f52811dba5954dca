#pragma once
// Cases for commands that go through many: files, or, where none is named, the book.
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "command.hpp"
#include "flinch/audit/audit.hpp"
#include "flinch/casefile/read_case.hpp"

namespace flinch::cli {

/// Where they come from, as a command line says it.
struct CasesChosen {
  std::vector<std::string> places;  ///< files, or folders of them; empty: the book
  std::string book;
  std::string since;  ///< days, of the book
  std::string until;

  [[nodiscard]] bool are_of_the_book() const { return places.empty(); }
};

/// The command with a place for cases, `--book`, `--since` and `--until` after its own options.
[[nodiscard]] CommandUse with_case_options(CommandUse use, CasesChosen& chosen);

/// A pack for which cases are read, and whether their outcomes are.
struct CasesFor {
  Pack const* pack = nullptr;
  Outcomes outcomes = Outcomes::read;
};

/// For each pack the same cases in the same order. From the book without names, each called by its
/// number; what a pack does not know is left out of it as unknown, and calls that one of the packs
/// cannot take are left out, both told on `session.err`. Nothing when a file cannot be read or a
/// book opened; why is told on `session.err`. `months`: of the book, the month in which each began,
/// such as "2026-10".
[[nodiscard]] std::optional<std::vector<std::vector<NamedCase>>> read_chosen(
    CasesChosen const& chosen, Calls::Which which, std::vector<CasesFor> const& packs,
    Session const& session, std::vector<std::string>* months = nullptr);

}  // namespace flinch::cli
