#pragma once
// What the descriptions of all kinds of things are written with.
#include <string>
#include <string_view>
#include <vector>

#include "flinch/explain/description.hpp"
#include "flinch/explain/figures.hpp"

namespace flinch {

template <class Id>
Named named(NamedKind kind, Id id) {
  return {kind, static_cast<std::uint32_t>(index(id))};
}

class Describer {
 public:
  Describer(Tables const& tables, Named thing);
  void describe_cause(CauseId id);
  void describe_sign(SignId id);
  void describe_rule(RuleId id);
  void describe_alarm(AlarmId id);
  void describe_source(SourceId id);
  void describe_family(FamilyId id);
  void describe_care(Care const& care);
  void who_has_read(Named thing);
  [[nodiscard]] Description take();

 private:
  using Pieces = std::vector<DescribedPiece>;
  void section(std::string heading);
  void line(std::string text, std::size_t depth = 0);
  void line(Pieces pieces, std::size_t depth = 0);
  void rationale(std::string const& because, std::vector<SourceId> const& cites);
  void condition(Condition const& condition, std::size_t depth = 0);
  void entry(RuleId rule, Tables::Entry const& entry, Pieces first);
  void frequencies(RuleId rule, CauseId cause, std::size_t depth);
  void where_from(std::optional<double> sample_size, std::optional<SourceId> source,
                  Pieces& out) const;
  void cause_rules(CauseId id);
  void cause_care(CauseId id);
  void sign_care(SignId id);
  [[nodiscard]] Named care_named(Care const& care) const;
  void care_kind(Care const& care);
  void care_causes(Care const& care);
  void care_dose(Care const& care);
  void care_taken(Care const& care);
  void care_gates(std::string heading, std::vector<CareGate> const& gates);
  void sign_answer(Sign const& sign);
  void sign_use(SignId id);
  void source_use(SourceId id);
  void source_figures(SourceId id, Backing kind);

  Tables const& tables_;
  Pack const& pack_;
  Description out_;
};

}  // namespace flinch
