// Conditions: each test must fit the kind of answer that its sign has.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "model/resolver.hpp"
#include "text/nearest.hpp"

namespace flinch {
namespace {

// Meanings may name meanings, so a short text can open up to a huge condition.
constexpr std::size_t most_tests = 1000;

std::string_view how_to_test(AnswerKind kind) {
  constexpr std::array<std::string_view, 6> ways = {
      "is answered yes or no: name it alone",
      "is answered by sites: name it alone or write `at SITE`",
      "is answered in steps: write `is STEP` or `at least STEP`",
      "is a choice: write `is VALUE`",
      "is a number: compare it, as in `>= 5` with its unit, or `between 1 and 3`",
      "is a breed: write `breed in GROUP`"};
  return ways.at(static_cast<std::size_t>(kind));
}

}  // namespace

std::optional<Condition> Resolver::condition(syntax::Condition const& written) {
  auto out = part(written);
  if (out && tests_in(*out) > most_tests) {
    report_.error(Code::condition_size, written.at,
                  fmt::format("this condition opens up to more than {} tests", most_tests));
    return std::nullopt;
  }
  return out;
}

std::size_t Resolver::tests_in(Condition const& condition) const {
  if (condition.kind == Condition::Kind::test) return 1;
  if (condition.kind == Condition::Kind::meaning) return means_tests_[index(condition.meaning)];
  std::size_t sum = 0;
  for (auto const& inner : condition.parts) sum = std::min(most_tests + 1, sum + tests_in(inner));
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
  return out;
}

void Resolver::misfit(Sign const& sign, Place at) {
  report_.error(Code::test_misfit, at, fmt::format("`{}` {}", sign.name, how_to_test(sign.kind)));
}

std::optional<Condition> Resolver::test(syntax::Test const& written) {
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
  auto const& sign = pack_.signs[*found];
  auto& test = out.test;
  test.sign = SignId{*found};
  // A sign whose own statement is damaged has no known kind of answer: say nothing about the test.
  bool const kind_unknown =
      *found >= dog_sign::count && !written_signs_[*found - dog_sign::count].statement->answer;
  if (kind_unknown) return std::nullopt;

  bool sound = true;
  auto const fits = [&](AnswerKind kind) {
    if (sign.kind == kind) return true;
    misfit(sign, written.sign.at);
    sound = false;
    return false;
  };
  if (std::holds_alternative<std::monostate>(written.test)) {
    if (sign.kind != AnswerKind::yes_or_no && sign.kind != AnswerKind::sites) {
      misfit(sign, written.sign.at);
      return std::nullopt;
    }
  } else if (auto const* at = std::get_if<syntax::AtSite>(&written.test)) {
    test.kind = Test::Kind::at_site;
    if (fits(AnswerKind::sites)) {
      auto const mark = site_mark(sign, at->place);
      sound = mark.has_value();
      if (mark) test.mark = *mark;
    }
  } else if (auto const* step = std::get_if<syntax::AtLeastStep>(&written.test)) {
    test.kind = Test::Kind::at_least;
    if (fits(AnswerKind::steps)) {
      auto const value = value_of(sign, step->step);
      sound = value.has_value();
      if (value) test.values = {*value};
    }
  } else if (auto const* is = std::get_if<syntax::IsValue>(&written.test)) {
    test.kind = Test::Kind::is_value;
    if (sign.kind == AnswerKind::steps || fits(AnswerKind::one_of)) {
      for (auto const& name : is->values) {
        auto const value = value_of(sign, name);
        sound = sound && value.has_value();
        if (value) test.values.push_back(*value);
      }
      std::sort(test.values.begin(), test.values.end());
    }
  } else if (auto const* compares = std::get_if<syntax::Compares>(&written.test)) {
    test.kind = Test::Kind::in_range;
    if (fits(AnswerKind::number)) {
      auto const bound = amount(sign, compares->bound);
      sound = bound.has_value();
      using syntax::Comparison;
      bool const is_low =
          compares->comparison == Comparison::at_least || compares->comparison == Comparison::above;
      (is_low ? test.low : test.high) = bound.value_or(0);
      test.low_included = compares->comparison != Comparison::above;
      test.high_included = compares->comparison != Comparison::below;
    }
  } else if (auto const* between = std::get_if<syntax::Between>(&written.test)) {
    test.kind = Test::Kind::in_range;
    if (fits(AnswerKind::number)) {
      auto low_written = between->low;
      if (low_written.unit.empty()) low_written.unit = between->high.unit;
      auto const high = amount(sign, between->high);
      auto const low = high ? amount(sign, low_written) : std::nullopt;
      sound = low && high;
      if (sound && *low > *high) {
        report_.error(Code::empty_range, cover(between->low.at, between->high.at),
                      "the range runs from the lower to the higher amount");
        sound = false;
      }
      test.low = low.value_or(0);
      test.high = high.value_or(0);
    }
  } else if (auto const* in = std::get_if<syntax::InGroup>(&written.test)) {
    test.kind = Test::Kind::in_group;
    if (fits(AnswerKind::breed)) {
      auto const group = group_names_.find(in->group, report_);
      sound = group.has_value();
      if (group) test.group = GroupId{*group};
    }
  }
  if (!sound) return std::nullopt;
  return out;
}

std::optional<std::uint32_t> Resolver::value_of(Sign const& sign, syntax::Name const& name) {
  std::vector<std::string_view> names;
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) {
    if (sign.values[i].name == name.text) return i;
    names.push_back(sign.values[i].name);
  }
  auto& error =
      report_.error(Code::unknown_value, name.at,
                    fmt::format("`{}` has no {} `{}`", sign.name,
                                sign.kind == AnswerKind::steps ? "step" : "choice", name.text));
  if (auto const near = nearest(name.text, names))
    error.notes.push_back({fmt::format("did you mean `{}`?", *near), {}});
  else
    error.notes.push_back({fmt::format("it has {}", fmt::join(names, ", ")), {}});
  if (sign_names_.find(name.text))
    error.notes.push_back(
        {"after `is` an `or` adds another value: put parentheses around the test", {}});
  return std::nullopt;
}

std::optional<double> Resolver::amount(Sign const& sign, syntax::Quantity const& written) {
  auto const unit = find_unit(written.unit);
  if (!unit || unit->dimension != sign.unit.dimension) {
    auto const fitting = sign.unit.dimension == Dimension::none
                             ? std::string("it is a plain number")
                             : "these fit: " + units_that_fit(sign.unit.dimension);
    report_.error(Code::unit_misfit, written.at,
                  written.unit.empty() ? fmt::format("`{}` needs a unit; {}", sign.name, fitting)
                                       : fmt::format("unit `{}` does not fit `{}`; {}",
                                                     written.unit, sign.name, fitting));
    return std::nullopt;
  }
  return convert(written.value, *unit, sign.unit);
}

std::optional<SiteMark> Resolver::site_mark(Sign const& sign, syntax::SitePlace const& written) {
  auto const found = site_names_.find(written.site, report_);
  if (!found) return std::nullopt;
  SiteMark const mark{SiteId{*found}, written.side};
  if (mark.side != Side::any && !pack_[mark.site].paired) {
    report_.error(Code::no_sides, written.at,
                  fmt::format("site `{}` has no left and right", written.site.text));
    return std::nullopt;
  }
  bool const in_choice =
      sign.within.empty() || std::any_of(sign.within.begin(), sign.within.end(), [&](SiteId site) {
        return pack_.covers(site, mark.site) || pack_.covers(mark.site, site);
      });
  if (!in_choice) {
    report_.error(Code::site_outside, written.at,
                  fmt::format("`{}` is not asked about at `{}`", sign.name, written.site.text));
    return std::nullopt;
  }
  return mark;
}

}  // namespace flinch
