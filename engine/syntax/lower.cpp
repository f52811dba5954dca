#include "syntax/lower.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/variant/get.hpp>
#include <charconv>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/syntax/reading.hpp"
#include "flinch/text/display.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

std::string_view view(shapes::Token token) {
  return {token.begin, static_cast<std::size_t>(token.end - token.begin)};
}

// A phrase as written, each run of blanks made one.
std::string phrase(shapes::Token token) {
  std::string out;
  for (char const c : view(token)) {
    if (!is_blank(c))
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  return out;
}

// The words of a token that has no `#` of its own, without comments between them.
std::string fixed_words(shapes::Token token) {
  std::string plain;
  bool in_comment = false;
  for (char const c : view(token)) {
    in_comment = c != '\n' && (in_comment || c == '#');
    plain += in_comment ? ' ' : c;
  }
  return phrase({plain.data(), plain.data() + plain.size()});
}

template <class... Cases>
struct Overloaded : Cases... {
  using result_type = void;
  using Cases::operator()...;
};
template <class... Cases>
Overloaded(Cases...) -> Overloaded<Cases...>;

}  // namespace

Place Lowering::place(shapes::Token token) const {
  auto const* const start = stretch_.file_text.data();
  return {stretch_.file,
          {static_cast<std::uint32_t>(token.begin - start),
           static_cast<std::uint32_t>(token.end - start)}};
}

Name Lowering::name(shapes::Token token) { return {phrase(token), place(token)}; }

Text Lowering::text(shapes::Token token) {
  auto const inside = view(token).substr(1, view(token).size() - 2);
  std::string out;
  for (std::size_t i = 0; i < inside.size(); ++i) {
    if (inside[i] == '\\' && i + 1 < inside.size()) {
      out += inside[++i];
    } else if (is_blank(inside[i])) {
      auto const stop = std::min(inside.find_first_not_of(" \t\r\n", i), inside.size());
      auto const blanks = inside.substr(i, stop - i);
      out += blanks.find('\n') == std::string_view::npos ? blanks : " ";
      i = stop - 1;
    } else {
      out += inside[i];
    }
  }
  return {std::move(out), place(token)};
}

Number Lowering::number(shapes::Token token) {
  double value = 0;
  auto const [stop, error] = std::from_chars(token.begin, token.end, value);
  if (error != std::errc{} || stop != token.end)
    report_.error(Code::number_range, place(token), "this number is too large");
  return {value, place(token)};
}

SeenBy Lowering::seen_by(shapes::Token token) {
  return static_cast<SeenBy>(place_of(seen_by_words, fixed_words(token)));
}
SeenAt Lowering::seen_at(shapes::Token token) {
  return static_cast<SeenAt>(place_of(seen_at_words, fixed_words(token)));
}

ReadAs Lowering::read_as(shapes::Token token) {
  return static_cast<ReadAs>(place_of(read_as_words, fixed_words(token)));
}

std::vector<Name> Lowering::names(std::vector<shapes::Token> const& tokens) {
  std::vector<Name> out;
  out.reserve(tokens.size());
  for (auto const token : tokens) out.push_back(name(token));
  return out;
}

std::vector<Text> Lowering::texts(std::vector<shapes::Token> const& tokens) {
  std::vector<Text> out;
  for (auto const token : tokens) out.push_back(text(token));
  return out;
}

Quantity Lowering::lower(shapes::Quantity const& shape) {
  auto const amount = number(shape.number);
  if (!shape.unit) return {amount.value, {}, amount.at};
  return {amount.value, fixed_words(*shape.unit), cover(amount.at, place(*shape.unit))};
}

Sample Lowering::lower(shapes::Sample const& shape) {
  Sample out{{}, name(shape.source)};
  if (shape.size) out.size = number(*shape.size);
  return out;
}

Frequency Lowering::lower(shapes::Frequency const& shape) {
  Frequency out;
  out.count = number(shape.count).value;
  out.out_of = view(shape.scale) == "%" ? 100 : number(shape.scale).value;
  out.at = cover(place(shape.count), place(shape.scale));
  if (shape.sample) out.sample = lower(*shape.sample);
  return out;
}

Frequencies Lowering::lower(shapes::Frequencies const& shape) {
  Frequencies out;
  std::optional<Sample> sample;
  if (shape.sample) sample = lower(*shape.sample);
  if (auto const* scale = boost::get<shapes::Token>(&shape.rest.get())) {
    out.single = lower(shapes::Frequency{shape.first, *scale, {}});
    out.at = out.single->at;
    out.single->sample = std::move(sample);
    return out;
  }
  auto const& others = boost::get<std::vector<shapes::Token>>(shape.rest.get());
  out.shares.push_back(number(shape.first));
  for (auto const token : others) out.shares.push_back(number(token));
  out.at = cover(out.shares.front().at, out.shares.back().at);
  out.sample = std::move(sample);
  return out;
}

InCause Lowering::lower(shapes::InCause const& shape) {
  return {name(shape.cause), lower(shape.frequencies)};
}

Hold Lowering::lower(shapes::Hold const& shape) { return {lower(shape.low), lower(shape.high)}; }

Species Lowering::lower(shapes::Species const& shape) {
  if (!shape.words) return {name(shape.key), {}, {}};
  return {name(shape.key), text(shape.words->one), text(shape.words->many)};
}

Called Lowering::lower(shapes::Called const& shape) {
  Called out{Name{fixed_words(shape.part), place(shape.part)}, {text(shape.first)}};
  for (auto const other : shape.others) out.words.push_back(text(other));
  return out;
}

Range Lowering::lower(shapes::Range const& shape) { return {lower(shape.low), lower(shape.high)}; }

SourcedNumber Lowering::lower(shapes::SourcedNumber const& shape) {
  SourcedNumber out{number(shape.number), {}};
  if (shape.source) out.source = name(*shape.source);
  return out;
}

SizeStep Lowering::lower(shapes::SizeStep const& shape) {
  SizeStep out{name(shape.name), {}};
  if (shape.up_to) out.up_to = lower(*shape.up_to);
  return out;
}

SitePlace Lowering::lower(shapes::SitePlace const& shape) {
  SitePlace out{Side::any, name(shape.site), place(shape.site)};
  if (!shape.side) return out;
  out.side = view(*shape.side) == "left" ? Side::left : Side::right;
  out.at = cover(place(*shape.side), out.at);
  return out;
}

Compares Lowering::compares(shapes::Compares const& shape) {
  auto const word = view(shape.comparison);
  auto const comparison = word == ">="                    ? Comparison::at_least
                          : word == ">" || word == "over" ? Comparison::above
                          : word == "<="                  ? Comparison::at_most
                                                          : Comparison::below;
  return {comparison, lower(shape.bound)};
}

Test Lowering::lower_test(shapes::Test const& shape) {
  Test out{name(shape.sign), {}};
  if (!shape.test) return out;
  boost::apply_visitor(
      Overloaded{[&](shapes::AtSite const& test) { out.test = AtSite{lower(test.place)}; },
                 [&](shapes::AtLeastStep const& test) { out.test = AtLeastStep{name(test.step)}; },
                 [&](shapes::IsValue const& test) { out.test = IsValue{names(test.values)}; },
                 [&](shapes::Compares const& test) { out.test = compares(test); },
                 [&](shapes::Between const& test) {
                   out.test = Between{lower(test.low), lower(test.high)};
                 },
                 [&](shapes::InGroup const& test) { out.test = InGroup{name(test.group)}; }},
      shape.test->get());
  return out;
}

Condition Lowering::operand(shapes::Operand const& shape) {
  Condition out;
  boost::apply_visitor(Overloaded{[&](shapes::Test const& test) {
                                    out.test = lower_test(test);
                                    out.at = out.test.sign.at;
                                  },
                                  [&](shapes::x3::forward_ast<shapes::Negation> const& negation) {
                                    out.kind = Condition::Kind::negation;
                                    out.parts.push_back(operand(negation.get().operand));
                                    out.at =
                                        cover(place(negation.get().word), out.parts.front().at);
                                  },
                                  [&](shapes::x3::forward_ast<shapes::Condition> const& group) {
                                    out = condition(group.get());
                                  },
                                  [&](shapes::x3::forward_ast<shapes::Counted> const& counted) {
                                    out.kind = Condition::Kind::count;
                                    out.needed = number(counted.get().needed);
                                    for (auto const& part : counted.get().parts)
                                      out.parts.push_back(condition(part));
                                    out.at = cover(out.needed.at, out.parts.back().at);
                                  }},
                       shape.get());
  return out;
}

Condition Lowering::condition(shapes::Condition const& shape) {
  if (shape.rest.empty()) return operand(shape.first);
  Condition out;
  auto const word = view(shape.rest.front().word);
  out.kind = word == "and" ? Condition::Kind::all : Condition::Kind::any;
  out.parts.push_back(operand(shape.first));
  for (auto const& link : shape.rest) {
    if (view(link.word) != word && sound_) {
      sound_ = false;
      report_.error(Code::mixed_and_or, place(link.word),
                    "`and` and `or` meet here: put parentheses around what belongs together");
    }
    out.parts.push_back(operand(link.operand));
  }
  out.at = cover(out.parts.front().at, out.parts.back().at);
  return out;
}

std::optional<Condition> Lowering::lower(shapes::Condition const& shape) {
  auto out = condition(shape);
  if (!sound_) return std::nullopt;
  return out;
}

Accept Lowering::lower(shapes::Accept const& shape) {
  Accept out{name(shape.warning), text(shape.reason)};
  if (std::all_of(out.reason.text.begin(), out.reason.text.end(), is_blank))
    report_.error(Code::empty_reason, out.reason.at,
                  "an accepted warning needs a reason that a colleague can argue with");
  return out;
}

std::optional<Reading> Lowering::lower(shapes::Reading const& shape) {
  Reading out{text(shape.reader), name(shape.date), std::nullopt};
  if (shape.mark) out.mark = name(*shape.mark);
  if (!is_reader(out.reader.text)) {
    report_.error(Code::reading_reader, out.reader.at,
                  "a reader is a name and, behind a comma, the licence: `\"A. Smith, MRCVS 123\"`");
    return std::nullopt;
  }
  if (!is_date(out.date.text)) {
    report_.error(Code::reading_date, out.date.at,
                  fmt::format("`{}` is no day of the calendar: a date is written `2026-12-01`",
                              shown(out.date.text)));
    return std::nullopt;
  }
  if (out.mark && !is_mark(out.mark->text)) {
    report_.error(Code::reading_mark, out.mark->at,
                  fmt::format("`{}` is no mark: `flinch read` writes one, of eight digits from "
                              "`0` to `f`",
                              shown(out.mark->text)));
    return std::nullopt;
  }
  return out;
}

Head Lowering::lower(shapes::Head const& shape) {
  Head out{name(shape.name), std::nullopt, {}, {}};
  if (shape.title) out.title = text(*shape.title);
  return out;
}

Site Lowering::lower(shapes::Site const& shape) {
  Site out{lower(shape.head), std::nullopt, shape.paired.has_value(), {}};
  if (shape.inside) out.inside = name(*shape.inside);
  return out;
}

Breeds Lowering::lower(shapes::Breeds const& shape) {
  return {name(shape.name), names(shape.members)};
}

std::optional<Means> Lowering::lower(shapes::Means const& shape) {
  auto condition = lower(shape.condition);
  if (!condition) return std::nullopt;
  return Means{lower(shape.head), std::move(*condition)};
}

Family Lowering::lower(shapes::Family const& shape) {
  return {lower(shape.head), names(shape.members)};
}

Overlap Lowering::lower(shapes::Overlap const& shape) {
  return {name(shape.name), lower(shape.shares), names(shape.rules)};
}

Value Lowering::lower(shapes::Value const& shape) {
  Value out{name(shape.name), std::nullopt};
  if (shape.label) out.label = text(*shape.label);
  return out;
}

Said Lowering::lower(shapes::Said const& shape) {
  Said out{text(shape.words), std::nullopt};
  if (shape.value) out.value = name(*shape.value);
  return out;
}

Answer Lowering::lower(shapes::Answer const& shape) {
  Answer out;
  boost::apply_visitor(
      Overloaded{[&](shapes::Token const& words) {
                   out = {YesOrNo{}, place(words)};
                 },
                 [&](shapes::Sites const& sites) {
                   out = {Sites{names(sites.within)}, place(sites.word)};
                 },
                 [&](shapes::Steps const& steps) {
                   out = {Steps{lower(steps.values)}, place(steps.word)};
                 },
                 [&](shapes::OneOf const& one_of) {
                   out = {OneOf{lower(one_of.values)}, place(one_of.words)};
                 },
                 [&](shapes::Measure const& measure) {
                   Measure number_kind{std::nullopt, number(measure.low), number(measure.high)};
                   if (measure.unit) number_kind.unit = name(*measure.unit);
                   out = {number_kind, place(measure.word)};
                 }},
      shape.get());
  return out;
}

std::optional<Floor> Lowering::lower(shapes::Floor const& shape) {
  Floor out{name(shape.see), {}, std::nullopt, text(shape.because), names(shape.cites)};
  if (shape.unless) {
    out.unless = lower(*shape.unless);
    if (!out.unless) return std::nullopt;
  }
  if (!shape.test) return out;
  auto& tested = out.test.test;
  boost::apply_visitor(
      Overloaded{[&](shapes::AtSite const& test) { tested = AtSite{lower(test.place)}; },
                 [&](shapes::AtLeastStep const& test) { tested = AtLeastStep{name(test.step)}; },
                 [&](shapes::Compares const& test) { tested = compares(test); },
                 [&](shapes::Between const& test) {
                   tested = Between{lower(test.low), lower(test.high)};
                 },
                 [&](shapes::Values const& values) {
                   IsValue is{{name(values.first)}};
                   for (auto const other : values.others) is.values.push_back(name(other));
                   tested = std::move(is);
                 }},
      shape.test->get());
  return out;
}

Over Lowering::lower(shapes::Over const& shape) {
  Over out{name(shape.sign), {}};
  for (auto const& band : shape.bands) {
    Band lowered;
    boost::apply_visitor(
        Overloaded{[&](shapes::End const& end) {
                     auto bound = lower(end.bound);
                     lowered.at = cover(place(end.word), bound.at);
                     (view(end.word) == "under" ? lowered.high : lowered.low) = std::move(bound);
                   },
                   [&](shapes::Range const& range) {
                     lowered.low = lower(range.low);
                     lowered.high = lower(range.high);
                     lowered.at = cover(lowered.low->at, lowered.high->at);
                   },
                   [&](shapes::Values const& values) {
                     lowered.values.push_back(name(values.first));
                     for (auto const other : values.others) lowered.values.push_back(name(other));
                     lowered.at = cover(lowered.values.front().at, lowered.values.back().at);
                   }},
        band.get());
    out.bands.push_back(std::move(lowered));
  }
  return out;
}

Dose Lowering::lower(shapes::Dose const& shape) {
  Dose out;
  out.amount = lower(shape.amount);
  if (shape.up_to) out.up_to = lower(*shape.up_to);
  if (shape.per)
    out.per = fixed_words(*shape.per) == "per kg" ? PerWeight::kg : PerWeight::kg_three_quarters;
  if (shape.route) out.route = Name{fixed_words(*shape.route), place(*shape.route)};
  if (shape.interval) {
    if (auto const* often = boost::get<shapes::Token>(&shape.interval->get())) {
      out.often = Name{fixed_words(*often), place(*often)};
    } else {
      auto const& every = boost::get<shapes::Every>(shape.interval->get());
      out.every = lower(every.least);
      if (every.most) out.every_up_to = lower(*every.most);
    }
  }
  if (shape.duration) out.duration = lower(*shape.duration);
  return out;
}

Form Lowering::lower(shapes::Form const& shape) {
  auto const kind = view(shape.kind);
  Form out{kind == "tablet"    ? FormKind::tablet
           : kind == "capsule" ? FormKind::capsule
           : kind == "liquid"  ? FormKind::liquid
                               : FormKind::spoon,
           lower(shape.strength),
           std::nullopt,
           Splits::whole,
           {}};
  if (shape.per) out.per = name(*shape.per);
  if (!shape.splits) return out;
  out.splits_at = place(*shape.splits);
  out.splits = fixed_words(*shape.splits) == "in halves"     ? Splits::halves
               : fixed_words(*shape.splits) == "in quarters" ? Splits::quarters
                                                             : Splits::whole;
  return out;
}

std::optional<Gate> Lowering::lower(shapes::Gate const& shape) {
  auto condition = lower(shape.condition);
  if (!condition) return std::nullopt;
  Gate out{std::move(*condition), {}};
  if (shape.reason) out.reason = text(*shape.reason);
  return out;
}

Benefit Lowering::lower(shapes::Benefit const& shape) {
  return {lower(shape.from), text(shape.text)};
}

Level Lowering::lower(shapes::Level const& shape) {
  Level out{lower(shape.per_kg), {}, text(shape.harm)};
  if (shape.see) out.see = name(*shape.see);
  return out;
}

Setting Lowering::lower(shapes::Setting const& shape) {
  Setting out{name(shape.name), Name{}};
  if (auto const* quantity = boost::get<shapes::Quantity>(&shape.value.get()))
    out.value = lower(*quantity);
  else
    out.value = name(boost::get<shapes::Token>(shape.value.get()));
  return out;
}

PatientFacts Lowering::lower(shapes::PatientFacts const& shape) {
  return {name(shape.species), lower(shape.settings)};
}

Finding Lowering::lower(shapes::Finding const& shape) {
  return {name(shape.sign), lower(shape.places)};
}

Promise Lowering::lower(shapes::Promise const& shape) {
  Promise out;
  auto const kind_of = [](std::string const& words) {
    return std::find_if(promise_words.begin(), promise_words.end(),
                        [&](PromiseWords const& row) { return row.words == words; })
        ->kind;
  };
  auto const given = [&](shapes::GivenPromise const& promised) {
    out = {kind_of(fixed_words(promised.kind)),
           name(promised.name),
           {},
           {},
           {},
           cover(place(promised.kind), place(promised.name))};
    auto const fill = [&](std::optional<shapes::PromisedAmount> const& from,
                          std::optional<Quantity>& first, std::optional<Quantity>& last) {
      if (!from) return;
      first = lower(from->amount);
      if (from->up_to) last = lower(*from->up_to);
      out.at = cover(out.at, last ? last->at : first->at);
    };
    fill(promised.amount, out.amount, out.up_to);
    fill(promised.portion, out.portion, out.portion_up_to);
  };
  boost::apply_visitor(
      Overloaded{given,
                 [&](shapes::RankedPromise const& ranked) {
                   out = {kind_of(fixed_words(ranked.kind)),
                          name(ranked.name),
                          number(ranked.rank),
                          {},
                          {},
                          cover(place(ranked.kind), place(ranked.name))};
                 },
                 [&](shapes::NamedPromise const& named) {
                   out = {kind_of(fixed_words(named.kind)),           name(named.name), {}, {}, {},
                          cover(place(named.kind), place(named.name))};
                 },
                 [&](shapes::Token const& words) {
                   out = {kind_of(fixed_words(words)), {}, {}, {}, {}, place(words)};
                 }},
      shape.get());
  return out;
}

}  // namespace flinch::syntax
