#pragma once
// From the grammar's shapes to the public tree: tokens become values with their places.
#include <optional>
#include <vector>

#include "flinch/syntax/tree.hpp"
#include "flinch/text/diagnostic.hpp"
#include "syntax/grammar.hpp"
#include "syntax/shapes.hpp"

namespace flinch::syntax {

/// Lowers what one production left behind; what the grammar cannot see (a number out of any range,
/// `and` mixed with `or`, a frequency above its whole) is reported here.
class Lowering {
 public:
  Lowering(Stretch const& stretch, Report& report) : stretch_(stretch), report_(report) {}

  Name name(shapes::Token token);
  Text text(shapes::Token token);
  Number number(shapes::Token token);
  SeenBy seen_by(shapes::Token token);
  SeenAt seen_at(shapes::Token token);
  ReadAs read_as(shapes::Token token);
  std::vector<Name> names(std::vector<shapes::Token> const& tokens);
  std::vector<Text> texts(std::vector<shapes::Token> const& tokens);

  Quantity lower(shapes::Quantity const& shape);
  Sample lower(shapes::Sample const& shape);
  Frequency lower(shapes::Frequency const& shape);
  Frequencies lower(shapes::Frequencies const& shape);
  InCause lower(shapes::InCause const& shape);
  Hold lower(shapes::Hold const& shape);
  Species lower(shapes::Species const& shape);
  Called lower(shapes::Called const& shape);
  Range lower(shapes::Range const& shape);
  SourcedNumber lower(shapes::SourcedNumber const& shape);
  SizeStep lower(shapes::SizeStep const& shape);
  SitePlace lower(shapes::SitePlace const& shape);
  std::optional<Condition> lower(shapes::Condition const& shape);
  Head lower(shapes::Head const& shape);
  Accept lower(shapes::Accept const& shape);
  std::optional<Reading> lower(shapes::Reading const& shape);
  Site lower(shapes::Site const& shape);
  Breeds lower(shapes::Breeds const& shape);
  std::optional<Means> lower(shapes::Means const& shape);
  Family lower(shapes::Family const& shape);
  Overlap lower(shapes::Overlap const& shape);
  Value lower(shapes::Value const& shape);
  Said lower(shapes::Said const& shape);
  Answer lower(shapes::Answer const& shape);
  std::optional<Floor> lower(shapes::Floor const& shape);
  Over lower(shapes::Over const& shape);
  Dose lower(shapes::Dose const& shape);
  Form lower(shapes::Form const& shape);
  std::optional<Gate> lower(shapes::Gate const& shape);
  Benefit lower(shapes::Benefit const& shape);
  Level lower(shapes::Level const& shape);
  Setting lower(shapes::Setting const& shape);
  PatientFacts lower(shapes::PatientFacts const& shape);
  Finding lower(shapes::Finding const& shape);
  Promise lower(shapes::Promise const& shape);

  template <class Shape>
  auto lower(std::vector<Shape> const& shapes) {
    std::vector<decltype(lower(shapes.front()))> out;
    out.reserve(shapes.size());
    for (auto const& shape : shapes) out.push_back(lower(shape));
    return out;
  }

 private:
  [[nodiscard]] Place place(shapes::Token token) const;
  Compares compares(shapes::Compares const& shape);
  Test lower_test(shapes::Test const& shape);
  Condition operand(shapes::Operand const& shape);
  Condition condition(shapes::Condition const& shape);

  Stretch const& stretch_;
  Report& report_;
  bool sound_ = true;
};

}  // namespace flinch::syntax
