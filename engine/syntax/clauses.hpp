#pragma once
// Which clauses each statement has. A row is all that the syntax knows of a clause: reading,
// writing, its names, its messages and the words of editors follow from it.
#include <span>
#include <string>
#include <string_view>

#include "flinch/syntax/vocabulary.hpp"
#include "syntax/grammar.hpp"
#include "syntax/name_collector.hpp"

namespace flinch::syntax {

enum class Often : bool { once, repeatedly };

/// One kind of clause of a statement `T`. Made by the functions of clause_rows.hpp.
template <class T>
struct Clause : ClauseWords {
  Often often = Often::once;
  bool (*read)(Stretch const&, Report&, T&) = nullptr;
  /// Its lines in the text of a statement, none where it is not there.
  void (*write)(ClauseWords const&, T const&, std::string& out) = nullptr;
  void (*collect)(ClauseWords const&, T const&, NameCollector& out) = nullptr;

  /// The same row, whose names stand for that.
  [[nodiscard]] constexpr Clause of(NameKind kind) const {
    auto out = *this;
    out.refers = kind;
    return out;
  }
  /// The same row, which holds that.
  [[nodiscard]] constexpr Clause as(Holds what) const {
    auto out = *this;
    out.holds = what;
    return out;
  }
  /// The same row, of which the grammar says that.
  [[nodiscard]] constexpr Clause written_as(std::string_view ebnf) const {
    auto out = *this;
    out.grammar = ebnf;
    return out;
  }
};

/// How a statement begins, as a whole.
template <class T>
inline constexpr std::string_view head_form{};
template <>
inline constexpr std::string_view head_form<Include> = R"(include "signs.flinch")";
template <>
inline constexpr std::string_view head_form<PackHead> = R"(pack leg_pain "Pain in the legs")";
template <>
inline constexpr std::string_view head_form<Source> = "source smith2020";
template <>
inline constexpr std::string_view head_form<Tier> = R"(tier now "See a vet now")";
template <>
inline constexpr std::string_view head_form<Site> = R"(site elbow "elbow" in forelimb paired)";
template <>
inline constexpr std::string_view head_form<Breeds> = "breeds long_backed BREED, BREED";
template <>
inline constexpr std::string_view head_form<Sign> = R"(sign lame "limping")";
template <>
inline constexpr std::string_view head_form<Means> = R"(means old "old": age >= 8 years)";
template <>
inline constexpr std::string_view head_form<Cause> = R"(cause sprain "Sprain")";
template <>
inline constexpr std::string_view head_form<Family> =
    R"(family shock "collapse of the circulation": bleeding, heat_stroke)";
template <>
inline constexpr std::string_view head_form<Rule> = R"(rule limps "Limping")";
template <>
inline constexpr std::string_view head_form<Alarm> = R"(alarm collapse "Collapse")";
template <>
inline constexpr std::string_view head_form<Overlap> =
    "overlap stiffness shares 50%: stiff_after_rest, slow_to_rise";
template <>
inline constexpr std::string_view head_form<Care> = R"(care cold_pack "Cold pack")";
template <>
inline constexpr std::string_view head_form<Example> = "example limps_since_a_jump";

/// What that line holds: nearly always a name.
template <class T>
inline constexpr Holds head_holds = Holds::names;
template <>
inline constexpr Holds head_holds<Include> = Holds::other;
template <>
inline constexpr Holds head_holds<Means> = Holds::meaning;

/// The clauses of a statement in the order in which they are printed.
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
