#pragma once
// What a clause holds, by the type that its production gives: for editors, for the layout, and in
// the EBNF of docs/language_reference.md.
#include <string_view>
#include <type_traits>
#include <vector>

#include "flinch/syntax/tree.hpp"
#include "flinch/syntax/vocabulary.hpp"

namespace flinch::syntax::clause_rows {

/// What a production reads: for editors, and in the EBNF of docs/language_reference.md.
struct Contents {
  Holds holds = Holds::other;
  std::string_view grammar;
};
template <class V>
inline constexpr Contents contents_of{};
template <>
inline constexpr Contents contents_of<Text>{Holds::other, R"(text)"};
template <>
inline constexpr Contents contents_of<Name>{Holds::names, R"(name)"};
template <>
inline constexpr Contents contents_of<Number>{Holds::other, R"(number)"};
template <>
inline constexpr Contents contents_of<Quantity>{Holds::other, R"(quantity)"};
template <>
inline constexpr Contents contents_of<Condition>{Holds::condition, R"(condition)"};
template <>
inline constexpr Contents contents_of<Gate>{Holds::condition, R"(gate)"};
template <>
inline constexpr Contents contents_of<Frequency>{Holds::frequency, R"(frequency)"};
template <>
inline constexpr Contents contents_of<Frequencies>{Holds::frequency, R"(frequencies)"};
template <>
inline constexpr Contents contents_of<Hold>{Holds::frequency, R"(frequency, "to", frequency)"};
template <>
inline constexpr Contents contents_of<Benefit>{Holds::frequency, R"(frequency, text)"};
template <>
inline constexpr Contents contents_of<SourcedNumber>{Holds::sourced_number, R"(figure)"};
template <>
inline constexpr Contents contents_of<Range>{Holds::range, R"(quantity, "to", quantity)"};
template <>
inline constexpr Contents contents_of<Species>{Holds::names, R"(name, [ text, ",", text ])"};
template <>
inline constexpr Contents contents_of<NeverNeutered>{Holds::never_neutered,
                                                     R"([ "male" | "female" ])"};
template <>
inline constexpr Contents contents_of<ReadAs>{
    Holds::read_as, R"(( "in", "full" | "abstract" | "quoted" | "from", "memory" ))"};
template <>
inline constexpr Contents contents_of<SeenBy>{Holds::seen_by,
                                              R"(( "anyone" | "hands" | "clinic" ))"};
template <>
inline constexpr Contents contents_of<SeenAt>{Holds::seen_at, R"(( "clinic" | "home" ))"};
template <>
inline constexpr Contents contents_of<Answer>{Holds::answer, R"(answer)"};
template <>
inline constexpr Contents contents_of<Floor>{
    Holds::floor,
    R"(name, [ "if", floor ], [ "unless", condition ], "because", text, "cite", names)"};
template <>
inline constexpr Contents contents_of<Over>{Holds::over, R"(name, ":", band, { ",", band })"};
template <>
inline constexpr Contents contents_of<Dose>{Holds::dose, R"(dose)"};
template <>
inline constexpr Contents contents_of<Form>{Holds::form, R"(form)"};
template <>
inline constexpr Contents contents_of<Level>{Holds::level, R"(level)"};
template <>
inline constexpr Contents contents_of<PatientFacts>{Holds::patient_facts,
                                                    R"(species, fact, { ",", setting })"};
template <>
inline constexpr Contents contents_of<Finding>{Holds::finding,
                                               R"(name, [ "at", place, { ",", place } ])"};
template <>
inline constexpr Contents contents_of<Accept>{Holds::other, R"(accept)"};
template <>
inline constexpr Contents contents_of<Reading>{Holds::other, R"(reading)"};
template <>
inline constexpr Contents contents_of<std::vector<Name>>{Holds::names, R"(names)"};
template <>
inline constexpr Contents contents_of<std::vector<Text>>{Holds::other, R"(text, { ",", text })"};
template <>
inline constexpr Contents contents_of<std::vector<Called>>{Holds::called,
                                                           R"(called, { ",", called })"};
template <>
inline constexpr Contents contents_of<std::vector<SizeStep>>{Holds::sizes,
                                                             R"(size, { ",", size })"};
template <>
inline constexpr Contents contents_of<std::vector<Said>>{Holds::other, R"(said, { ",", said })"};
template <>
inline constexpr Contents contents_of<std::vector<InCause>>{Holds::in_cause,
                                                            R"(named, { ",", named })"};
template <>
inline constexpr Contents contents_of<std::vector<Setting>>{Holds::settings,
                                                            R"(setting, { ",", setting })"};
template <>
inline constexpr Contents contents_of<std::vector<Promise>>{Holds::promises,
                                                            R"(promise, { ",", promise })"};

template <class V>
inline constexpr Content content_of =
    contents_of<V>.holds == Holds::condition                  ? Content::condition
    : std::is_same_v<V, Accept> || std::is_same_v<V, Reading> ? Content::reference
                                                              : Content::symbols;

}  // namespace flinch::syntax::clause_rows
