#include "syntax/written.hpp"

#include <fmt/format.h>

#include <array>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/syntax/print.hpp"

namespace flinch::syntax {

// Of parts that are no clause by themselves.
std::string written(Value const&);
std::string written(Band const&);

namespace {

std::string either(std::vector<Name> const& names) {
  std::string out;
  for (auto const& name : names) out += (out.empty() ? "" : " or ") + name.text;
  return out;
}

std::string of_sample(Sample const& sample) {
  if (!sample.size) return " derived from " + sample.source.text;
  return fmt::format(" of {} from {}", print_number(sample.size->value), sample.source.text);
}

struct ShowTest {
  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(AtSite const& t) const { return " at " + written(t.place); }
  std::string operator()(AtLeastStep const& t) const { return " at least " + t.step.text; }
  std::string operator()(IsValue const& t) const { return " is " + either(t.values); }
  std::string operator()(Compares const& t) const {
    constexpr std::array words = {">=", ">", "<=", "<"};
    return fmt::format(" {} {}", words.at(static_cast<std::size_t>(t.comparison)),
                       written(t.bound));
  }
  std::string operator()(Between const& t) const {
    return fmt::format(" between {} and {}", written(t.low), written(t.high));
  }
  std::string operator()(InGroup const& t) const { return " in " + t.group.text; }
};

std::string in_parentheses(Condition const& c) {
  bool const joined = c.kind == Condition::Kind::all || c.kind == Condition::Kind::any;
  return joined ? '(' + written(c) + ')' : written(c);
}

// `x is a or y` would read y as another value of x, so such a test stands in parentheses.
std::string in_disjunction(Condition const& c, bool is_last) {
  bool const takes_or =
      c.kind == Condition::Kind::test && std::holds_alternative<IsValue>(c.test.test) && !is_last;
  return takes_or ? '(' + written(c) + ')' : in_parentheses(c);
}

struct ShowAnswer {
  std::string operator()(YesOrNo) const { return "yes or no"; }
  std::string operator()(Sites const& s) const {
    return s.within.empty() ? "sites" : "sites in " + written(s.within);
  }
  std::string operator()(Steps const& s) const { return "steps " + written(s.values); }
  std::string operator()(OneOf const& o) const { return "one of " + written(o.values); }
  std::string operator()(Measure const& m) const {
    return fmt::format("number {}from {} to {}", m.unit ? "in " + m.unit->text + ' ' : "",
                       print_number(m.low.value), print_number(m.high.value));
  }
};

}  // namespace

std::string written(Value const& value) {
  return value.name.text + (value.label ? ' ' + written(*value.label) : "");
}

std::string written(Band const& band) {
  if (!band.values.empty()) return either(band.values);
  if (!band.low) return "under " + written(*band.high);
  if (!band.high) return "over " + written(*band.low);
  return written(*band.low) + " to " + written(*band.high);
}

std::string written(Name const& name) { return name.text; }

std::string written(Number const& number) { return print_number(number.value); }

std::string written(ReadAs const& read) {
  return std::string(read_as_words.at(static_cast<std::size_t>(read)));
}

std::string written(SeenBy const& seen_by) {
  return std::string(seen_by_words.at(static_cast<std::size_t>(seen_by)));
}
std::string written(SeenAt const& seen_at) {
  return std::string(seen_at_words.at(static_cast<std::size_t>(seen_at)));
}

std::string written(Said const& said) {
  return written(said.words) + (said.value ? " is " + said.value->text : "");
}

std::string written(Answer const& answer) { return std::visit(ShowAnswer{}, answer.kind); }

std::string written(Over const& over) { return over.sign.text + ": " + written(over.bands); }

std::string written(InCause const& in) { return in.cause.text + ' ' + written(in.frequencies); }

std::string written(Benefit const& benefit) {
  return written(benefit.from) + ' ' + written(benefit.text);
}

std::string written(PatientFacts const& facts) { return written(facts.settings); }

std::string written(Finding const& finding) {
  return finding.sign.text + (finding.places.empty() ? "" : " at " + written(finding.places));
}

std::string written(Accept const& accept) {
  return accept.warning.text + ' ' + written(accept.reason);
}

std::string written(Reading const& reading) {
  return fmt::format("{} on {}{}", written(reading.reader), reading.date.text,
                     reading.mark ? " mark " + reading.mark->text : "");
}

std::string written(Text const& text) {
  std::string out = "\"";
  for (char const c : text.text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string written(Quantity const& quantity) {
  auto out = print_number(quantity.value);
  if (quantity.unit == "%") return out + '%';
  return quantity.unit.empty() ? out : out + ' ' + quantity.unit;
}

std::string written(Frequency const& f) {
  auto out = f.out_of == 100
                 ? print_number(f.count) + '%'
                 : fmt::format("{} per {}", print_number(f.count), print_number(f.out_of));
  return f.sample ? out + of_sample(*f.sample) : out;
}

std::string written(Frequencies const& f) {
  if (f.single) return written(*f.single);
  std::string out;
  for (auto const& share : f.shares) out += (out.empty() ? "" : " ") + print_number(share.value);
  return f.sample ? out + of_sample(*f.sample) : out;
}

std::string written(SitePlace const& place) {
  return (place.side == Side::left    ? "left "
          : place.side == Side::right ? "right "
                                      : "") +
         place.site.text;
}

std::string written(Condition const& c) {
  std::string out;
  switch (c.kind) {
    case Condition::Kind::test:
      return c.test.sign.text + std::visit(ShowTest{}, c.test.test);
    case Condition::Kind::negation:
      return "not " + in_disjunction(c.parts.front(), false);
    case Condition::Kind::all:
      for (auto const& part : c.parts) out += (out.empty() ? "" : " and ") + in_parentheses(part);
      return out;
    case Condition::Kind::any:
      for (auto const& part : c.parts)
        out += (out.empty() ? "" : " or ") + in_disjunction(part, &part == &c.parts.back());
      return out;
    case Condition::Kind::count:
      for (auto const& part : c.parts) out += (out.empty() ? "" : ", ") + written(part);
      return fmt::format("at least {} of ({})", print_number(c.needed.value), out);
  }
  return out;
}

std::string written(Floor const& floor) {
  auto test = std::visit(ShowTest{}, floor.test.test);
  constexpr std::string_view is = " is ";  // left out: the sign is not named either
  if (test.starts_with(is)) test = test.substr(is.size() - 1);
  return fmt::format("{}{}{} because {} cite {}", floor.see.text,
                     test.empty() ? test : " if" + test,
                     floor.unless ? " unless " + written(*floor.unless) : "",
                     written(floor.because), written(floor.cites));
}

std::string written(Dose const& dose) {
  auto out = written(dose.amount);
  if (dose.up_to) out += " to " + written(*dose.up_to);
  if (dose.per != PerWeight::no) out += dose.per == PerWeight::kg ? " per kg" : " per kg^0.75";
  if (dose.route) out += ' ' + dose.route->text;
  if (dose.every) out += " every " + written(*dose.every);
  if (dose.every_up_to) out += " to " + written(*dose.every_up_to);
  if (dose.often) out += ' ' + dose.often->text;
  if (dose.duration) out += " for " + written(*dose.duration);
  return out;
}

std::string written(Gate const& gate) {
  return written(gate.condition) + (gate.reason ? ' ' + written(*gate.reason) : "");
}

std::string written(Level const& level) {
  return fmt::format("{} per kg {}{}", written(level.per_kg),
                     level.see ? "see " + level.see->text + ' ' : "", written(level.harm));
}

std::string written(Form const& form) {
  constexpr std::array kinds = {"tablet", "capsule", "liquid", "spoon"};
  constexpr std::array splits = {"", " in halves", " in quarters"};
  return fmt::format("{} {}{}{}", kinds.at(static_cast<std::size_t>(form.kind)),
                     written(form.strength), form.per ? " per " + form.per->text : "",
                     splits.at(static_cast<std::size_t>(form.splits)));
}

std::string written(Setting const& setting) {
  if (auto const* quantity = std::get_if<Quantity>(&setting.value))
    return setting.name.text + ' ' + written(*quantity);
  return setting.name.text + ' ' + std::get<Name>(setting.value).text;
}

std::string written(Species const& species) {
  if (!species.one) return species.key.text;
  return fmt::format("{} {}, {}", species.key.text, written(*species.one), written(*species.many));
}

std::string written(Called const& called) {
  std::string out = called.part.text;
  for (auto const& word : called.words)
    out += (&word == &called.words.front() ? " " : " or ") + written(word);
  return out;
}

std::string written(Range const& range) {
  return written(range.low) + " to " + written(range.high);
}

std::string written(Hold const& hold) { return written(hold.low) + " to " + written(hold.high); }

std::string written(SourcedNumber const& figure) {
  return print_number(figure.number.value) + (figure.source ? " from " + figure.source->text : "");
}

std::string written(NeverNeutered const& never) { return never.sex ? never.sex->text : ""; }

std::string written(SizeStep const& size) {
  return size.name.text + (size.up_to ? " to " + written(*size.up_to) : "");
}

std::string written(Promise const& promise) {
  auto const& row = words_of(promise.kind);
  std::string out(row.words);
  if (row.takes_rank) out += ' ' + print_number(promise.rank.value);
  if (row.refers) out += ' ' + promise.name.text;
  return out + (promise.amount ? ' ' + written(*promise.amount) : "") +
         (promise.up_to ? " to " + written(*promise.up_to) : "") +
         (promise.portion ? " in " + written(*promise.portion) : "") +
         (promise.portion_up_to ? " to " + written(*promise.portion_up_to) : "");
}

}  // namespace flinch::syntax
