#pragma once
// Which names each value of the tree holds, and what they stand for.
#include <optional>
#include <string_view>
#include <vector>

#include "flinch/syntax/names.hpp"

namespace flinch::syntax {

/// Collects the names of one statement.
class NameCollector {
 public:
  /// Of a statement with this name, which is null where it has none.
  explicit NameCollector(Name const* owner) : owner_(owner) {}

  [[nodiscard]] std::vector<NamedPlace> take() { return std::move(out_); }

  void define(NameKind kind, Name const& name) { add(kind, Role::definition, name); }
  void use(NameKind kind, Name const& name) { add(kind, Role::use, name); }
  void condition(Condition const& condition);

  /// The names of a clause's value; `kind` is what a single name in it stands for, none where it is
  /// no name of the pack.
  /// Values without names are told one by one, so that none with names is forgotten.
  template <class V>
  void value(V const&, std::optional<NameKind>) = delete;
  void value(Text const&, std::optional<NameKind>) {}
  void value(Number const&, std::optional<NameKind>) {}
  void value(Quantity const&, std::optional<NameKind>) {}
  void value(Range const&, std::optional<NameKind>) {}
  void value(Species const&, std::optional<NameKind>) {}
  void value(Called const&, std::optional<NameKind>) {}
  void value(SizeStep const&, std::optional<NameKind>) {}
  void value(NeverNeutered const&, std::optional<NameKind>) {}
  void value(SeenBy, std::optional<NameKind>) {}
  void value(SeenAt, std::optional<NameKind>) {}
  void value(ReadAs, std::optional<NameKind>) {}
  void value(Dose const&, std::optional<NameKind>) {}
  void value(Form const&, std::optional<NameKind>) {}
  void value(Accept const&, std::optional<NameKind>) {}
  void value(Reading const&, std::optional<NameKind>) {}
  void value(Name const& name, std::optional<NameKind> kind) {
    if (kind) use(*kind, name);
  }
  void value(Frequency const&, std::optional<NameKind>);
  void value(Frequencies const&, std::optional<NameKind>);
  void value(Hold const&, std::optional<NameKind>);
  void value(SourcedNumber const&, std::optional<NameKind>);
  void value(Condition const& c, std::optional<NameKind>) { condition(c); }
  void value(Said const&, std::optional<NameKind>);
  void value(Answer const&, std::optional<NameKind>);
  void value(Floor const&, std::optional<NameKind>);
  void value(Over const&, std::optional<NameKind>);
  void value(InCause const&, std::optional<NameKind>);
  void value(Gate const& gate, std::optional<NameKind>) { condition(gate.condition); }
  void value(Level const&, std::optional<NameKind>);
  void value(Benefit const&, std::optional<NameKind>);
  void value(Setting const&, std::optional<NameKind>);
  void value(PatientFacts const&, std::optional<NameKind>);
  void value(Finding const&, std::optional<NameKind>);
  void value(Promise const&, std::optional<NameKind>);

 private:
  void add(NameKind kind, Role role, Name const& name, std::string_view sign = {}) {
    if (!name.text.empty()) out_.push_back({kind, role, &name, sign});
  }
  void step_or_choice(Name const& sign, Name const& value) {
    add(NameKind::value, Role::use, value, sign.text);
  }
  void test(Name const& sign, Test const& test);

  Name const* owner_;
  std::vector<NamedPlace> out_;
};

}  // namespace flinch::syntax
