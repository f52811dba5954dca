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
  std::string_view form;  ///< how it is written as a whole
  Often often = Often::once;
  Content content = Content::symbols;
  About about = About::other;
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

/// What that line is about: nearly always a name.
template <class T>
inline constexpr About head_about = About::names;
template <>
inline constexpr About head_about<Include> = About::other;
template <>
inline constexpr About head_about<Means> = About::meaning;

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
