#include "syntax/name_collector.hpp"

#include "flinch/syntax/fixed_words.hpp"

namespace flinch::syntax {

// The parser bounds how deep conditions nest.
void NameCollector::condition(Condition const& c) {
  for (auto const& part : c.parts) condition(part);
  if (c.kind != Condition::Kind::test) return;
  use(NameKind::sign, c.test.sign);
  test(c.test.sign, c.test);
}

void NameCollector::test(Name const& sign, Test const& t) {
  if (auto const* at = std::get_if<AtSite>(&t.test)) use(NameKind::site, at->place.site);
  if (auto const* step = std::get_if<AtLeastStep>(&t.test)) step_or_choice(sign, step->step);
  if (auto const* is = std::get_if<IsValue>(&t.test))
    for (auto const& value : is->values) step_or_choice(sign, value);
  if (auto const* in = std::get_if<InGroup>(&t.test)) use(NameKind::group, in->group);
}

void NameCollector::value(Frequency const& f, std::optional<NameKind> /*kind*/) {
  if (f.sample) use(NameKind::source, f.sample->source);
}

void NameCollector::value(Frequencies const& f, std::optional<NameKind> kind) {
  if (f.single) value(*f.single, kind);
  if (f.sample) use(NameKind::source, f.sample->source);
}

void NameCollector::value(Hold const& hold, std::optional<NameKind> kind) {
  value(hold.low, kind);
  value(hold.high, kind);
}

void NameCollector::value(SourcedNumber const& figure, std::optional<NameKind> /*kind*/) {
  if (figure.source) use(NameKind::source, *figure.source);
}

void NameCollector::value(Said const& said, std::optional<NameKind> /*kind*/) {
  if (said.value) step_or_choice(*owner_, *said.value);
}

void NameCollector::value(Answer const& answer, std::optional<NameKind> /*kind*/) {
  if (auto const* sites = std::get_if<Sites>(&answer.kind))
    for (auto const& site : sites->within) use(NameKind::site, site);
  auto const define_values = [&](std::vector<Value> const& values) {
    for (auto const& one : values) add(NameKind::value, Role::definition, one.name, owner_->text);
  };
  if (auto const* steps = std::get_if<Steps>(&answer.kind)) define_values(steps->values);
  if (auto const* one_of = std::get_if<OneOf>(&answer.kind)) define_values(one_of->values);
}

void NameCollector::value(Floor const& floor, std::optional<NameKind> /*kind*/) {
  use(NameKind::tier, floor.see);
  test(*owner_, floor.test);
  if (floor.unless) condition(*floor.unless);
  for (auto const& source : floor.cites) use(NameKind::source, source);
}

void NameCollector::value(Over const& over, std::optional<NameKind> /*kind*/) {
  use(NameKind::sign, over.sign);
  for (auto const& band : over.bands)
    for (auto const& one : band.values) step_or_choice(over.sign, one);
}

void NameCollector::value(InCause const& in, std::optional<NameKind> kind) {
  use(NameKind::cause, in.cause);
  value(in.frequencies, kind);
}

void NameCollector::value(Level const& level, std::optional<NameKind> /*kind*/) {
  if (level.see) use(NameKind::tier, *level.see);
}

void NameCollector::value(Benefit const& benefit, std::optional<NameKind> kind) {
  value(benefit.from, kind);
}

void NameCollector::value(Setting const& setting, std::optional<NameKind> /*kind*/) {
  use(NameKind::sign, setting.name);
  if (auto const* one = std::get_if<Name>(&setting.value)) step_or_choice(setting.name, *one);
}

void NameCollector::value(PatientFacts const& facts, std::optional<NameKind> kind) {
  for (auto const& setting : facts.settings) value(setting, kind);
}

void NameCollector::value(Finding const& finding, std::optional<NameKind> /*kind*/) {
  use(NameKind::sign, finding.sign);
  for (auto const& place : finding.places) use(NameKind::site, place.site);
}

void NameCollector::value(Promise const& promise, std::optional<NameKind> /*kind*/) {
  if (auto const refers = words_of(promise.kind).refers) use(*refers, promise.name);
}

}  // namespace flinch::syntax
