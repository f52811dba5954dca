#include "flinch/syntax/print.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>

namespace flinch::syntax {
namespace {

std::string quoted(Text const& text) {
  std::string out = "\"";
  for (char const c : text.text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string list(std::vector<Name> const& names, std::string_view between = ", ") {
  std::string out;
  for (auto const& name : names) out += (out.empty() ? "" : std::string(between)) + name.text;
  return out;
}

std::string list(std::vector<Text> const& texts) {
  std::string out;
  for (auto const& text : texts) out += (out.empty() ? "" : ", ") + quoted(text);
  return out;
}

std::string list(std::vector<Said> const& all) {
  std::string out;
  for (auto const& said : all)
    out += (out.empty() ? "" : ", ") + quoted(said.words) +
           (said.value ? " is " + said.value->text : "");
  return out;
}

std::string show(Quantity const& quantity) {
  auto out = print_number(quantity.value);
  if (quantity.unit == "%") return out + '%';
  return quantity.unit.empty() ? out : out + ' ' + quantity.unit;
}

std::string show(Sample const& sample) {
  if (!sample.size) return " derived from " + sample.source.text;
  return fmt::format(" of {} from {}", print_number(sample.size->value), sample.source.text);
}

std::string show(Frequency const& f) {
  auto out = f.out_of == 100
                 ? print_number(f.count) + '%'
                 : fmt::format("{} per {}", print_number(f.count), print_number(f.out_of));
  return f.sample ? out + show(*f.sample) : out;
}

std::string show(Frequencies const& f) {
  if (f.single) return show(*f.single);
  std::string out;
  for (auto const& share : f.shares) out += (out.empty() ? "" : " ") + print_number(share.value);
  return f.sample ? out + show(*f.sample) : out;
}

std::string show(SitePlace const& place) {
  return (place.side == Side::left    ? "left "
          : place.side == Side::right ? "right "
                                      : "") +
         place.site.text;
}

std::string list(std::vector<SitePlace> const& places) {
  std::string out;
  for (auto const& place : places) out += (out.empty() ? "" : ", ") + show(place);
  return out;
}

struct ShowTest {
  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(AtSite const& t) const { return " at " + show(t.place); }
  std::string operator()(AtLeastStep const& t) const { return " at least " + t.step.text; }
  std::string operator()(IsValue const& t) const { return " is " + list(t.values, " or "); }
  std::string operator()(Compares const& t) const {
    constexpr std::array words = {">=", ">", "<=", "<"};
    return fmt::format(" {} {}", words.at(static_cast<std::size_t>(t.comparison)), show(t.bound));
  }
  std::string operator()(Between const& t) const {
    return fmt::format(" between {} and {}", show(t.low), show(t.high));
  }
  std::string operator()(InGroup const& t) const { return " in " + t.group.text; }
};

std::string show(Condition const& c);

std::string in_parentheses(Condition const& c) {
  bool const joined = c.kind == Condition::Kind::all || c.kind == Condition::Kind::any;
  return joined ? '(' + show(c) + ')' : show(c);
}

// `x is a or y` would read y as another value of x, so such a test stands in parentheses.
std::string in_disjunction(Condition const& c, bool is_last) {
  bool const takes_or =
      c.kind == Condition::Kind::test && std::holds_alternative<IsValue>(c.test.test) && !is_last;
  return takes_or ? '(' + show(c) + ')' : in_parentheses(c);
}

std::string show(Condition const& c) {
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
      for (auto const& part : c.parts) out += (out.empty() ? "" : ", ") + show(part);
      return fmt::format("at least {} of ({})", print_number(c.needed.value), out);
  }
  return out;
}

std::string show(Floor const& floor) {
  auto test = std::visit(ShowTest{}, floor.test.test);
  constexpr std::string_view is = " is ";  // left out: the sign is not named either
  if (test.starts_with(is)) test = test.substr(is.size() - 1);
  return fmt::format("{}{}{} because {} cite {}", floor.see.text,
                     test.empty() ? test : " if" + test,
                     floor.unless ? " unless " + show(*floor.unless) : "", quoted(floor.because),
                     list(floor.cites));
}

std::string show(std::vector<Value> const& values) {
  std::string out;
  for (auto const& value : values) {
    out += (out.empty() ? "" : ", ") + value.name.text;
    if (value.label) out += ' ' + quoted(*value.label);
  }
  return out;
}

struct ShowAnswer {
  std::string operator()(YesOrNo) const { return "yes or no"; }
  std::string operator()(Sites const& s) const {
    return s.within.empty() ? "sites" : "sites in " + list(s.within);
  }
  std::string operator()(Steps const& s) const { return "steps " + show(s.values); }
  std::string operator()(OneOf const& o) const { return "one of " + show(o.values); }
  std::string operator()(Measure const& m) const {
    return fmt::format("number {}from {} to {}", m.unit ? "in " + m.unit->text + ' ' : "",
                       print_number(m.low.value), print_number(m.high.value));
  }
};

std::string show(Band const& band) {
  if (!band.values.empty()) return list(band.values, " or ");
  if (!band.low) return "under " + show(*band.high);
  if (!band.high) return "over " + show(*band.low);
  return show(*band.low) + " to " + show(*band.high);
}

std::string show(Dose const& dose) {
  auto out = show(dose.amount);
  if (dose.up_to) out += " to " + show(*dose.up_to);
  if (dose.per != PerWeight::no) out += dose.per == PerWeight::kg ? " per kg" : " per kg^0.75";
  if (dose.route) out += ' ' + dose.route->text;
  if (dose.every) out += " every " + show(*dose.every);
  if (dose.every_up_to) out += " to " + show(*dose.every_up_to);
  if (dose.often) out += ' ' + dose.often->text;
  if (dose.duration) out += " for " + show(*dose.duration);
  return out;
}

std::string show(Gate const& gate) {
  return show(gate.condition) + (gate.reason ? ' ' + quoted(*gate.reason) : "");
}

std::string show(Level const& level) {
  return fmt::format("{} per kg {}{}", show(level.per_kg),
                     level.see ? "see " + level.see->text + ' ' : "", quoted(level.harm));
}

std::string show(Form const& form) {
  constexpr std::array kinds = {"tablet", "capsule", "liquid", "spoon"};
  constexpr std::array splits = {"", " in halves", " in quarters"};
  return fmt::format("{} {}{}{}", kinds.at(static_cast<std::size_t>(form.kind)),
                     show(form.strength), form.per ? " per " + form.per->text : "",
                     splits.at(static_cast<std::size_t>(form.splits)));
}

std::string show(Setting const& setting) {
  if (auto const* quantity = std::get_if<Quantity>(&setting.value))
    return setting.name.text + ' ' + show(*quantity);
  return setting.name.text + ' ' + std::get<Name>(setting.value).text;
}

std::string show(Species const& species) {
  if (!species.one) return species.key.text;
  return fmt::format("{} {}, {}", species.key.text, quoted(*species.one), quoted(*species.many));
}

std::string show(Called const& called) {
  std::string out = called.part.text;
  for (auto const& word : called.words)
    out += (&word == &called.words.front() ? " " : " or ") + quoted(word);
  return out;
}

std::string show(Range const& range) { return show(range.low) + " to " + show(range.high); }

std::string show(Hold const& hold) { return show(hold.low) + " to " + show(hold.high); }

std::string show(SourcedNumber const& figure) {
  return print_number(figure.number.value) + (figure.source ? " from " + figure.source->text : "");
}

std::string show(SizeStep const& size) {
  return size.name.text + (size.up_to ? " to " + show(*size.up_to) : "");
}

std::string show(Promise const& promise) {
  constexpr std::array words = {"first",         "not first",   "among",    "tier",
                                "tier at least", "ceiling",     "alarm",    "not alarm",
                                "offered",       "not offered", "withheld", "ask first"};
  if (promise.kind == Promise::Kind::nothing_told) return "nothing told";
  std::string const word = words.at(static_cast<std::size_t>(promise.kind));
  if (promise.kind == Promise::Kind::among)
    return fmt::format("{} {} {}", word, print_number(promise.rank.value), promise.name.text);
  return word + ' ' + promise.name.text;
}

template <class T>
std::string joined(std::vector<T> const& items) {
  std::string out;
  for (auto const& item : items) out += (out.empty() ? "" : ", ") + show(item);
  return out;
}

// What any statement may end with.
std::string show_end(std::vector<Accept> const& accepts, std::vector<Reading> const& readings) {
  std::string out;
  for (auto const& accept : accepts)
    out += fmt::format("  accept {} {}\n", accept.warning.text, quoted(accept.reason));
  for (auto const& reading : readings) out += "  " + print(reading) + '\n';
  return out;
}

// Writes a statement line by line; clauses without content are left out.
class Lines {
 public:
  Lines(std::string_view keyword, Head const& head) : head_(head) {
    out_ = fmt::format("{} {}", keyword, head.name.text);
    if (head.title) out_ += ' ' + quoted(*head.title);
    out_ += '\n';
  }
  void line(std::string_view keyword, std::string const& content) {
    if (content.empty()) return;
    out_ += fmt::format("  {} {}\n", keyword, content);
  }
  void word(std::string_view keyword, bool present) {
    if (present) out_ += fmt::format("  {}\n", keyword);
  }
  void text(std::string_view keyword, std::optional<Text> const& text) {
    if (text) line(keyword, quoted(*text));
  }
  void name(std::string_view keyword, std::optional<Name> const& name) {
    if (name) line(keyword, name->text);
  }
  void number(std::string_view keyword, std::optional<Number> const& number) {
    if (number) line(keyword, print_number(number->value));
  }
  void condition(std::string_view keyword, std::optional<Condition> const& condition) {
    if (condition) line(keyword, show(*condition));
  }
  template <class T>
  void shown(std::string_view keyword, std::optional<T> const& value) {
    if (value) line(keyword, show(*value));
  }
  [[nodiscard]] std::string take() { return out_ + show_end(head_.accepts, head_.readings); }

 private:
  std::string out_;
  Head const& head_;
};

struct PrintStatement {
  std::string operator()(Include const& s) const { return "include " + quoted(s.file) + '\n'; }
  std::string operator()(PackHead const& s) const {
    Lines out("pack", s);
    out.shown("species", s.species);
    out.name("version", s.version);
    out.line("called", joined(s.called));
    out.shown("age up to", s.oldest);
    out.shown("weight from", s.weight);
    out.shown("doses from", s.doses);
    out.line("sizes", joined(s.sizes));
    out.shown("grown at", s.grown);
    out.word("never neutered", s.never_neutered);
    out.shown("body surface", s.body_surface);
    out.shown("resting energy", s.resting_energy);
    out.shown("drawn up in", s.drawn_up);
    out.shown("injected in", s.injected);
    out.text("breed table", s.breed_table);
    out.text("outline", s.outline);
    out.shown("unlisted", s.unlisted);
    out.shown("hold", s.hold);
    return out.take();
  }
  std::string operator()(Source const& s) const {
    constexpr std::array words = {"in full", "abstract", "quoted", "from memory"};
    Lines out("source", s);
    out.text("text", s.text);
    out.name("doi", s.doi);
    out.name("url", s.url);
    out.name("grade", s.grade);
    if (s.read) out.line("read", words.at(static_cast<std::size_t>(*s.read)));
    return out.take();
  }
  std::string operator()(Tier const& s) const {
    Lines out("tier", s);
    out.shown("within", s.within);
    out.number("harm", s.harm);
    out.text("say", s.say);
    out.text("until then", s.until_then);
    return out.take();
  }
  std::string operator()(Site const& s) const {
    auto out = "site " + s.name.text;
    if (s.title) out += ' ' + quoted(*s.title);
    if (s.inside) out += " in " + s.inside->text;
    out += s.paired ? " paired\n" : "\n";
    if (!s.also_called.empty()) out += "  also called " + list(s.also_called) + '\n';
    return out + show_end(s.accepts, s.readings);
  }
  std::string operator()(Breeds const& s) const {
    return fmt::format("breeds {} {}\n", s.name.text, list(s.members)) +
           show_end(s.accepts, s.readings);
  }
  std::string operator()(Sign const& s) const {
    constexpr std::array seen_by = {"anyone", "hands", "clinic"};
    Lines out("sign", s);
    out.text("ask", s.ask);
    out.text("help", s.help);
    if (s.answer) out.line("answer", std::visit(ShowAnswer{}, s.answer->kind));
    if (s.seen_by) out.line("seen by", seen_by.at(static_cast<std::size_t>(*s.seen_by)));
    out.shown("takes", s.takes);
    out.word("may hurt", s.may_hurt);
    out.word("asked first", s.asked_first);
    out.word("lasts", s.lasts);
    out.word("yes if seen before", s.yes_if_seen_before);
    out.word("yes if worse than before", s.yes_if_worse);
    out.name("part of", s.part_of);
    out.condition("applies if", s.applies_if);
    for (auto const& floor : s.alone) out.line("alone see", show(floor));
    out.line("also said", list(s.also_said));
    out.shown("mentioned", s.mentioned);
    return out.take();
  }
  std::string operator()(Means const& s) const {
    return fmt::format("means {}{}: {}\n", s.name.text, s.title ? ' ' + quoted(*s.title) : "",
                       show(s.condition)) +
           show_end(s.accepts, s.readings);
  }
  std::string operator()(Cause const& s) const {
    Lines out("cause", s);
    out.word("not pain", s.not_pain);
    out.line("affects", list(s.affects));
    out.shown("base", s.base);
    out.name("see", s.see);
    out.line("also called", list(s.also_called));
    for (auto const& next : s.next) out.line("next", quoted(next));
    out.text("because", s.because);
    out.line("cite", list(s.cites));
    return out.take();
  }
  std::string operator()(Family const& s) const {
    return fmt::format("family {}{}: {}\n", s.name.text, s.title ? ' ' + quoted(*s.title) : "",
                       list(s.members)) +
           show_end(s.accepts, s.readings);
  }
  std::string operator()(Rule const& s) const {
    Lines out("rule", s);
    out.condition("if", s.condition);
    if (s.over) out.line("over", s.over->sign.text + ": " + joined(s.over->bands));
    out.shown("usual", s.usual);
    for (auto const& in : s.in) out.line("in", in.cause.text + ' ' + show(in.frequencies));
    out.text("because", s.because);
    out.line("cite", list(s.cites));
    return out.take();
  }
  std::string operator()(Alarm const& s) const {
    Lines out("alarm", s);
    out.condition("if", s.condition);
    out.condition("unless", s.unless);
    out.name("see", s.see);
    out.text("say", s.say);
    out.line("gives way to", list(s.gives_way_to));
    out.text("on purpose", s.on_purpose);
    out.text("because", s.because);
    out.line("cite", list(s.cites));
    return out.take();
  }
  std::string operator()(Overlap const& s) const {
    return fmt::format("overlap {} shares {}: {}\n", s.name.text, show(s.shares), list(s.rules)) +
           show_end(s.accepts, s.readings);
  }
  std::string operator()(Care const& s) const {
    Lines out("care", s);
    if (s.problem)
      out.text("for clinician", s.problem);
    else
      out.word("for clinician", s.for_clinician);
    out.line("for", list(s.causes));
    out.shown("give", s.give);
    out.word("by mouth", s.by_mouth);
    out.word("first aid", s.first_aid);
    out.word("while waiting", s.while_waiting);
    out.name("slims by", s.slims_by);
    out.number("ideal score", s.ideal_score);
    out.shown("each point", s.each_point);
    out.shown("lost a week", s.lost_a_week);
    for (auto const& benefit : s.benefits)
      out.line("benefit", show(benefit.from) + ' ' + quoted(benefit.text));
    out.text("how", s.how);
    out.text("say", s.say);
    out.line("gives way to", list(s.gives_way_to));
    out.text("avoid", s.avoid);
    out.text("watch", s.watch);
    out.text("fasting", s.fasting);
    out.text("otherwise", s.otherwise);
    out.name("taken", s.taken);
    out.name("since", s.since);
    for (auto const& level : s.levels) out.line("level", show(level));
    out.shown("at most", s.at_most);
    for (auto const& form : s.forms) out.line("form", show(form));
    out.condition("fit if", s.fit_if);
    for (auto const& c : s.never_if) out.line("never if", show(c));
    for (auto const& c : s.ask_vet_if) out.line("ask vet if", show(c));
    for (auto const& c : s.stop_if) out.line("stop if", show(c));
    out.name("grade", s.grade);
    out.text("because", s.because);
    out.line("cite", list(s.cites));
    return out.take();
  }
  std::string operator()(Example const& s) const {
    Lines out("example", s);
    for (auto const& facts : s.patient) out.line(facts.species.text, joined(facts.settings));
    out.line("yes", list(s.yes));
    out.line("no", list(s.no));
    out.line("unknown", list(s.unknown));
    for (auto const& f : s.found)
      out.line("found", f.sign.text + (f.places.empty() ? "" : " at " + list(f.places)));
    for (auto const& f : s.clear) out.line("clear", f.sign.text + " at " + list(f.places));
    out.line("with", joined(s.with));
    out.line("expect", joined(s.expect));
    return out.take();
  }
};

}  // namespace

std::string print_number(double value) {
  std::array<char, 400> digits{};
  auto const [end, error] =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return {digits.data(), error == std::errc{} ? end : digits.data()};
}

std::string print(Condition const& condition) { return show(condition); }

std::string print(Frequencies const& frequencies) { return show(frequencies); }

std::string print(Dose const& dose) { return show(dose); }

std::string print(Form const& form) { return show(form); }

std::string print(Promise const& promise) { return show(promise); }

std::string print(Reading const& reading) {
  return fmt::format("read by {} on {}{}", quoted(reading.reader), reading.date.text,
                     reading.mark ? " mark " + reading.mark->text : "");
}

std::string print(Statement const& statement) { return std::visit(PrintStatement{}, statement); }

std::string print(File const& file) {
  std::string out;
  for (auto const& statement : file.statements) out += (out.empty() ? "" : "\n") + print(statement);
  return out;
}

}  // namespace flinch::syntax
