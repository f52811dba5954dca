// Conditions: each test must fit the kind of answer that its sign has.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/text/nearest.hpp"
#include "model/fit.hpp"
#include "model/resolver.hpp"

namespace flinch {
namespace {

// Meanings may name meanings, so a short text can open up to a huge condition.
constexpr std::size_t most_tests_opened = 1000;

// Which way of testing fits which kind of answer.
bool fits(AnswerTraits const& its, std::monostate) { return its.takes_yes_or_no; }
bool fits(AnswerTraits const& its, syntax::AtSite const&) { return its.has_places; }
bool fits(AnswerTraits const& its, syntax::AtLeastStep const&) { return its.has_order; }
bool fits(AnswerTraits const& its, syntax::IsValue const&) { return its.has_values; }
bool fits(AnswerTraits const& its, syntax::Compares const&) { return its.is_number; }
bool fits(AnswerTraits const& its, syntax::Between const&) { return its.is_number; }
bool fits(AnswerTraits const& its, syntax::InGroup const&) { return its.is_breed; }

}  // namespace

std::optional<Condition> Resolver::condition(syntax::Condition const& written) {
  auto out = part(written);
  if (out && tests_in(*out) > most_tests_opened) {
    report_.error(Code::condition_size, written.at,
                  fmt::format("this condition opens up to more than {} tests", most_tests_opened));
    return std::nullopt;
  }
  return out;
}

// What sets an alarm off, and that it is not known to be one of those that keep it silent.
Condition Resolver::with_unless(Condition trigger, std::optional<syntax::Condition> const& unless) {
  if (!unless) return trigger;
  auto known = condition(*unless);
  if (!known) return trigger;
  Condition standing;
  standing.kind = Condition::Kind::unless;
  standing.at = known->at;
  standing.parts.push_back(std::move(*known));
  Condition out;
  out.kind = Condition::Kind::all;
  out.at = trigger.at;
  out.parts.push_back(std::move(trigger));
  out.parts.push_back(std::move(standing));
  return out;
}

std::size_t Resolver::tests_in(Condition const& condition) const {
  if (condition.kind == Condition::Kind::test) return 1;
  if (condition.kind == Condition::Kind::meaning) return means_tests_[index(condition.meaning)];
  std::size_t sum = 0;
  for (auto const& inner : condition.parts)
    sum = std::min(most_tests_opened + 1, sum + tests_in(inner));
  return sum;
}

std::optional<Condition> Resolver::part(syntax::Condition const& written) {
  using Kind = syntax::Condition::Kind;
  if (written.kind == Kind::test) return test(written.test);
  Condition out;
  out.at = written.at;
  out.kind = written.kind == Kind::negation ? Condition::Kind::negation
             : written.kind == Kind::all    ? Condition::Kind::all
             : written.kind == Kind::any    ? Condition::Kind::any
                                            : Condition::Kind::count;
  bool sound = true;
  for (auto const& inner : written.parts) {
    auto resolved = part(inner);
    if (resolved)
      out.parts.push_back(std::move(*resolved));
    else
      sound = false;
  }
  if (written.kind == Kind::count) {
    auto const needed = written.needed.value;
    if (needed < 1 || needed > static_cast<double>(written.parts.size()) ||
        needed != static_cast<double>(static_cast<std::uint32_t>(needed))) {
      report_.error(Code::count_range, written.needed.at,
                    fmt::format("a whole number from 1 to {}, the number of conditions, fits here",
                                written.parts.size()));
      return std::nullopt;
    }
    out.needed = static_cast<std::uint32_t>(needed);
  }
  if (!sound) return std::nullopt;
  if (out.kind != Condition::Kind::negation) parts_differ(out);
  return out;
}

// What stands twice was probably meant to be another; in a count one answer would count twice.
void Resolver::parts_differ(Condition const& joined) {
  for (auto part = joined.parts.begin(); part != joined.parts.end(); ++part) {
    auto const first = std::find(joined.parts.begin(), part, *part);
    if (first == part) continue;
    report_
        .error(Code::doubled_name, part->at, "this stands twice in one condition: which was meant?")
        .notes.push_back({"first named here", first->at});
  }
}

// `if male`: an answer where its sign is wanted.
bool Resolver::names_an_answer(syntax::Name const& name) {
  for (auto const& sign : pack_.signs)
    for (auto const& value : sign.values) {
      if (value.name != name.text) continue;
      report_.error(Code::unknown_name, name.at, fmt::format("unknown sign `{}`", name.text))
          .did_you_mean(fmt::format("{} is {}", sign.name, value.name));
      return true;
    }
  return false;
}

std::optional<Condition> Resolver::test(syntax::Test const& written) {
  if (!sign_names_.find(written.sign.text) && names_an_answer(written.sign)) return std::nullopt;
  if (!sign_names_.find(written.sign.text) && cause_names_.find(written.sign.text)) {
    report_
        .error(Code::unknown_name, written.sign.at,
               fmt::format("`{}` is a cause, and a sign is needed here", written.sign.text))
        .notes.push_back({"a condition asks for what can be answered; a measure names its causes "
                          "with `for`",
                          {}});
    return std::nullopt;
  }
  auto const found = sign_names_.find(written.sign, report_);
  if (!found) return std::nullopt;
  Condition out;
  out.at = written.sign.at;
  if (*found >= first_means_) {
    if (!std::holds_alternative<std::monostate>(written.test)) {
      report_.error(Code::test_misfit, written.sign.at,
                    fmt::format("`{}` is a meaning: name it alone", written.sign.text));
      return std::nullopt;
    }
    out.kind = Condition::Kind::meaning;
    out.meaning = MeansId{*found - first_means_};
    return out;
  }
  // A sign whose own statement is damaged has no known kind of answer: say nothing about the test.
  if (is_kind_unknown(*found)) return std::nullopt;
  out.test.sign = SignId{*found};
  auto const& sign = pack_.signs[*found];
  if (!std::visit([&](auto const& how) { return fits(traits(sign), how); }, written.test)) {
    report_.error(Code::test_misfit, written.sign.at,
                  fmt::format("`{}` {}{}", sign.name, traits(sign).way, traits(sign).how_to_test));
    return std::nullopt;
  }
  if (!std::visit([&](auto const& how) { return fill(out.test, sign, how); }, written.test))
    return std::nullopt;
  return out;
}

// Each way of testing fills in its part of the test; false when something in it was reported.

bool Resolver::fill(Test& test, Sign const&, std::monostate) {
  test.kind = Test::Kind::holds;
  return true;
}

bool Resolver::fill(Test& test, Sign const& sign, syntax::AtSite const& at) {
  test.kind = Test::Kind::at_site;
  auto const site = site_names_.find(at.place.site, report_);
  if (!site) return false;
  test.mark = {SiteId{*site}, at.place.side};
  return site_fits(pack_, sign, test.mark, at.place.at, report_);
}

bool Resolver::fill(Test& test, Sign const& sign, syntax::AtLeastStep const& at_least) {
  test.kind = Test::Kind::at_least;
  auto const value = value_of(sign, at_least.step);
  if (value) test.values = {*value};
  return value.has_value();
}

bool Resolver::fill(Test& test, Sign const& sign, syntax::IsValue const& is) {
  test.kind = Test::Kind::is_value;
  bool sound = true;
  for (auto const& name : is.values) {
    auto const value = value_of(sign, name);
    sound = sound && value.has_value();
    if (value) test.values.push_back(*value);
  }
  std::sort(test.values.begin(), test.values.end());
  return sound;
}

bool Resolver::fill(Test& test, Sign const& sign, syntax::Compares const& compares) {
  using syntax::Comparison;
  test.kind = Test::Kind::in_range;
  auto const bound = amount(sign, compares.bound);
  if (!bound) return false;
  bool const is_low =
      compares.comparison == Comparison::at_least || compares.comparison == Comparison::above;
  (is_low ? test.low : test.high) = *bound;
  test.low_included = compares.comparison != Comparison::above;
  test.high_included = compares.comparison != Comparison::below;
  return true;
}

bool Resolver::fill(Test& test, Sign const& sign, syntax::Between const& between) {
  test.kind = Test::Kind::in_range;
  auto low_written = between.low;
  if (low_written.unit.empty()) low_written.unit = between.high.unit;
  auto const high = amount(sign, between.high);
  auto const low = high ? amount(sign, low_written) : std::nullopt;
  if (!low) return false;
  if (*low > *high) {
    report_.error(Code::empty_range, cover(between.low.at, between.high.at),
                  "the range runs from the lower to the higher amount");
    return false;
  }
  test.low = *low;
  test.high = *high;
  return true;
}

bool Resolver::fill(Test& test, Sign const&, syntax::InGroup const& in) {
  test.kind = Test::Kind::in_group;
  if (!group_names_.find(in.group.text) && pack_.breeds.find(in.group.text)) {
    report_
        .error(Code::unknown_name, in.group.at,
               fmt::format("`{}` is a breed, and a group is needed here", in.group.text))
        .notes.push_back({fmt::format("`breeds GROUP {}` makes one of it", in.group.text), {}});
    return false;
  }
  auto const group = group_names_.find(in.group, report_);
  if (group) test.group = GroupId{*group};
  return group.has_value();
}

std::optional<std::uint32_t> Resolver::value_of(Sign const& sign, syntax::Name const& name) {
  std::vector<std::string_view> names;
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) {
    if (sign.values[i].name == name.text) return i;
    names.push_back(sign.values[i].name);
  }
  auto& error =
      report_.error(Code::unknown_value, name.at,
                    fmt::format("`{}` has no {} `{}`", sign.name, traits(sign).value, name.text));
  auto const told =
      &sign == &pack_[patient_sign::sex] ? sex_called(pack_.words, name.text) : std::nullopt;
  if (told)
    error.did_you_mean(sign.values[told->is_male ? 0 : 1].name);
  else if (auto const near = nearest(name.text, names))
    error.did_you_mean(*near);
  else
    error.notes.push_back({fmt::format("it has {}", fmt::join(names, ", ")), {}});
  if (sign_names_.find(name.text))
    error.notes.push_back(
        {"after `is` an `or` adds another value: put parentheses around the test", {}});
  return std::nullopt;
}

std::optional<double> Resolver::amount(Sign const& sign, syntax::Quantity const& written) {
  auto const out = fitting_amount(sign, written.value, written.unit, written.at, report_);
  // No answer lies beyond what is believed: such a bound tells nobody from anybody.
  SignId const id{static_cast<std::uint32_t>(&sign - pack_.signs.data())};
  bool const fits =
      out && is_believable(pack_, id, *out, written.value, written.unit, written.at, report_);
  return fits ? out : std::nullopt;
}

}  // namespace flinch
