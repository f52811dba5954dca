#pragma once
// Which clauses each statement has, and which production reads each of them.
#include <span>
#include <string_view>

#include "flinch/syntax/vocabulary.hpp"
#include "syntax/grammar.hpp"

namespace flinch::syntax {

enum class Often : bool { once, repeatedly };

/// One kind of clause of a statement `T`.
template <class T>
struct Clause {
  std::string_view phrase;  ///< the words it begins with
  bool (*read)(Stretch const&, Report&, T&);
  Often often = Often::once;
  Content content = Content::symbols;
};

/// The clauses of a statement, longer phrases before shorter ones with the same start.
template <class T>
[[nodiscard]] std::span<Clause<T> const> clauses_of();

template <>
std::span<Clause<PackHead> const> clauses_of();
template <>
std::span<Clause<Source> const> clauses_of();
template <>
std::span<Clause<Tier> const> clauses_of();
template <>
std::span<Clause<Include> const> clauses_of();
template <>
std::span<Clause<Site> const> clauses_of();
template <>
std::span<Clause<Breeds> const> clauses_of();
template <>
std::span<Clause<Means> const> clauses_of();
template <>
std::span<Clause<Family> const> clauses_of();
template <>
std::span<Clause<Overlap> const> clauses_of();
template <>
std::span<Clause<Sign> const> clauses_of();
template <>
std::span<Clause<Cause> const> clauses_of();
template <>
std::span<Clause<Rule> const> clauses_of();
template <>
std::span<Clause<Alarm> const> clauses_of();
template <>
std::span<Clause<Care> const> clauses_of();
template <>
std::span<Clause<Example> const> clauses_of();

}  // namespace flinch::syntax
