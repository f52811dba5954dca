#pragma once
// The productions of docs/language_reference.md, one function each. X3 stays behind this header.
#include <cstddef>
#include <optional>
#include <string_view>

#include "flinch/syntax/tree.hpp"
#include "flinch/syntax/vocabulary.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch::syntax {

/// A stretch of a file that one production must cover from end to end.
struct Stretch {
  FileId file{};
  std::string_view file_text;
  Span span;
  std::size_t deepest = 64;  ///< how deep conditions may nest
  Content content = Content::symbols;
  std::string_view
      form{};  ///< the whole clause as it may be written, shown where nothing better is
  Holds holds = Holds::other;
  std::optional<NameKind> refers{};  ///< what its names stand for, where it holds names of one kind
};

namespace grammar {

// Each reports one error at most, and then gives nothing.
std::optional<Text> text(Stretch const&, Report&);
std::optional<std::vector<Text>> texts(Stretch const&, Report&);
std::optional<std::vector<Said>> said(Stretch const&, Report&);
std::optional<Name> name(Stretch const&, Report&);
/// The name of a tier, or what stands there instead, as a name that none has: which tiers there
/// are is not known here.
std::optional<Name> tier(Stretch const&, Report&);
std::optional<std::vector<Name>> names(Stretch const&, Report&);
std::optional<Name> visible(Stretch const&, Report&);
std::optional<Number> number(Stretch const&, Report&);
std::optional<Quantity> quantity(Stretch const&, Report&);
std::optional<Frequency> frequency(Stretch const&, Report&);
std::optional<Frequencies> frequencies(Stretch const&, Report&);
std::optional<std::vector<InCause>> in_causes(Stretch const&, Report&);
std::optional<Hold> hold(Stretch const&, Report&);
std::optional<Species> species(Stretch const&, Report&);
std::optional<std::vector<Called>> called(Stretch const&, Report&);
std::optional<NeverNeutered> never_neutered(Stretch const&, Report&);
std::optional<Range> range(Stretch const&, Report&);
std::optional<SourcedNumber> sourced_number(Stretch const&, Report&);
std::optional<std::vector<SizeStep>> sizes(Stretch const&, Report&);
std::optional<Condition> condition(Stretch const&, Report&);
std::optional<Over> over(Stretch const&, Report&);
std::optional<Head> head(Stretch const&, Report&);
std::optional<Accept> accept(Stretch const&, Report&);
std::optional<Reading> reading(Stretch const&, Report&);
std::optional<Include> include(Stretch const&, Report&);
std::optional<Site> site(Stretch const&, Report&);
std::optional<Breeds> breeds(Stretch const&, Report&);
std::optional<Means> means(Stretch const&, Report&);
std::optional<Family> family(Stretch const&, Report&);
std::optional<Overlap> overlap(Stretch const&, Report&);
std::optional<Answer> answer(Stretch const&, Report&);
std::optional<Floor> floor(Stretch const&, Report&);
std::optional<SeenBy> seen_by(Stretch const&, Report&);
std::optional<SeenAt> seen_at(Stretch const&, Report&);
std::optional<ReadAs> read_as(Stretch const&, Report&);
std::optional<Dose> dose(Stretch const&, Report&);
std::optional<Form> form(Stretch const&, Report&);
std::optional<Gate> gate(Stretch const&, Report&);
std::optional<Level> level(Stretch const&, Report&);
std::optional<Benefit> benefit(Stretch const&, Report&);
std::optional<std::vector<Setting>> settings(Stretch const&, Report&);
std::optional<PatientFacts> patient_facts(Stretch const&, Report&);
std::optional<Finding> found(Stretch const&, Report&);
std::optional<Finding> clear(Stretch const&, Report&);
std::optional<std::vector<Promise>> promises(Stretch const&, Report&);
/// A text, or nothing; `out` is left as it is where there is none.
bool text_or_nothing(Stretch const&, Report&, std::optional<Text>& out);
/// Nothing may follow the clause's own words.
bool nothing(Stretch const&, Report&);

}  // namespace grammar
}  // namespace flinch::syntax
