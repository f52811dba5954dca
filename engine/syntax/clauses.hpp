#pragma once
// Which clauses each statement has. A row is all that the syntax knows of a clause: reading,
// writing, its names, its messages and the words of editors follow from it.
#include <optional>
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

/// What the syntax knows of a kind of statement besides its clauses.
template <class T>
struct Opening {
  std::string_view form;       ///< its first line as it may be written
  NameKind defines{};          ///< what its name is a name of, where it has one
  Holds holds = Holds::names;  ///< what that line holds
  Content content = Content::symbols;
  /// Reads that line, of a statement with more there than a name and a title.
  std::optional<T> (*read)(Stretch const&, Report&) = nullptr;

  [[nodiscard]] constexpr std::string_view keyword() const {
    return form.substr(0, form.find(' '));
  }
};

template <class T>
inline constexpr Opening<T> opening{};
template <>
inline constexpr Opening<Include> opening<Include> = {
    R"(include "signs.flinch")", {}, Holds::other, Content::symbols, grammar::include};
template <>
inline constexpr Opening<PackHead> opening<PackHead> = {R"(pack leg_pain "Pain in the legs")",
                                                        NameKind::pack};
template <>
inline constexpr Opening<Source> opening<Source> = {"source smith2020", NameKind::source};
template <>
inline constexpr Opening<Tier> opening<Tier> = {R"(tier now "See a vet now")", NameKind::tier};
template <>
inline constexpr Opening<Site> opening<Site> = {R"(site elbow "elbow" in forelimb paired)",
                                                NameKind::site, Holds::names, Content::symbols,
                                                grammar::site};
template <>
inline constexpr Opening<Breeds> opening<Breeds> = {"breeds long_backed BREED, BREED",
                                                    NameKind::group, Holds::names, Content::symbols,
                                                    grammar::breeds};
template <>
inline constexpr Opening<Sign> opening<Sign> = {R"(sign lame "limping")", NameKind::sign};
template <>
inline constexpr Opening<Means> opening<Means> = {R"(means old "old": age >= 8 years)",
                                                  NameKind::sign, Holds::meaning,
                                                  Content::condition, grammar::means};
template <>
inline constexpr Opening<Cause> opening<Cause> = {R"(cause sprain "Sprain")", NameKind::cause};
template <>
inline constexpr Opening<Family> opening<Family> = {
    R"(family shock "collapse of the circulation": bleeding, heat_stroke)", NameKind::cause,
    Holds::names, Content::symbols, grammar::family};
template <>
inline constexpr Opening<Rule> opening<Rule> = {R"(rule limps "Limping")", NameKind::rule};
template <>
inline constexpr Opening<Alarm> opening<Alarm> = {R"(alarm collapse "Collapse")", NameKind::alarm};
template <>
inline constexpr Opening<Overlap> opening<Overlap> = {
    "overlap stiffness shares 50%: stiff_after_rest, slow_to_rise", NameKind::overlap, Holds::names,
    Content::symbols, grammar::overlap};
template <>
inline constexpr Opening<Care> opening<Care> = {R"(care cold_pack "Cold pack")", NameKind::care};
template <>
inline constexpr Opening<Example> opening<Example> = {"example limps_since_a_jump",
                                                      NameKind::example};

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
