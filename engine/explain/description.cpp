// Describing causes, rules and alarms; the tools that all descriptions share.
#include "flinch/explain/description.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "explain/describer.hpp"
#include "flinch/explain/condition.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/statements.hpp"

namespace flinch {
namespace {

std::string per_cent(double share) { return fmt::format("{:.3g}%", 100 * share); }

double reach(Tables const& tables, RuleId rule, Tables::Entry const& entry) {
  double out = 0;
  for (std::uint32_t band = 0; band < tables.outcomes(rule); ++band)
    out = std::max(out, std::abs(tables.weight(entry, band)));
  return out;
}

}  // namespace

Describer::Describer(Tables const& tables, Named thing)
    : tables_(tables),
      pack_(tables.pack()),
      out_{thing,
           thing.kind == NamedKind::cause ? clinical_title(tables.pack(), CauseId{thing.index})
                                          : title_of(tables.pack(), thing),
           {}} {}

Description Describer::take() {
  std::erase_if(out_.sections, [](DescribedSection const& s) { return s.lines.empty(); });
  return std::move(out_);
}

void Describer::section(std::string heading) { out_.sections.push_back({std::move(heading), {}}); }

void Describer::line(std::string text, std::size_t depth) {
  line(Pieces{{std::move(text), std::nullopt}}, depth);
}

void Describer::line(Pieces pieces, std::size_t depth) {
  out_.sections.back().lines.push_back({depth, std::move(pieces)});
}

void Describer::rationale(std::string const& because, std::vector<SourceId> const& cites) {
  section("Why");
  line(because);
  for (auto const source : cites)
    line(Pieces{{"Source: ", {}}, {pack_[source].text, named(NamedKind::source, source)}});
}

// Meanings are opened up under their title; each test leads to its sign.
void Describer::condition(Condition const& c, std::size_t depth) {
  if (c.kind == Condition::Kind::test)
    return line(Pieces{{node_text(pack_, c), named(NamedKind::sign, c.test.sign)}}, depth);
  line(node_text(pack_, c), depth);
  if (c.kind == Condition::Kind::meaning) condition(pack_[c.meaning].condition, depth + 1);
  for (auto const& part : c.parts) condition(part, depth + 1);
}

// How often with the cause and usually, and where each of the two comes from.
void Describer::frequencies(RuleId id, CauseId cause, std::size_t depth) {
  auto const& rule = pack_[id];
  for (auto const& entry : rule.entries) {
    if (entry.cause != cause) continue;
    std::string shares;
    for (auto const share : entry.frequencies)
      shares += (shares.empty() ? "" : ", ") + per_cent(share);
    std::string usual;
    for (auto const share : rule.usual) usual += (usual.empty() ? "" : ", ") + per_cent(share);
    if (entry.family)
      line(Pieces{{"as one of: ", {}},
                  {pack_[*entry.family].title, named(NamedKind::family, *entry.family)}},
           depth);
    bool const are_judged = backing(entry) == Backing::judged &&
                            backing(rule.usual_sample_size, rule.usual_source) == Backing::judged;
    if (are_judged)
      return line(fmt::format("with the cause {}, usually {}; both are judgements", shares, usual),
                  depth);
    Pieces pieces{{fmt::format("with the cause {}, ", shares), {}}};
    where_from(entry.sample_size, entry.source, pieces);
    pieces.push_back({fmt::format("; usually {}, ", usual), {}});
    where_from(rule.usual_sample_size, rule.usual_source, pieces);
    line(std::move(pieces), depth);
  }
}

void Describer::where_from(std::optional<double> sample_size, std::optional<SourceId> source,
                           Pieces& out) const {
  switch (backing(sample_size, source)) {
    case Backing::counted:
      out.push_back({fmt::format("counted in {:g} by ", *sample_size), {}});
      break;
    case Backing::derived:
      out.push_back({"derived from ", {}});
      break;
    case Backing::judged:
      out.push_back({"a judgement", {}});
      return;
  }
  out.push_back({pack_[*source].name, named(NamedKind::source, *source)});
}

void Describer::entry(RuleId id, Tables::Entry const& entry, Pieces first) {
  auto const& rule = pack_[id];
  line(std::move(first));
  auto const weigh = [&](std::string_view when, std::uint32_t band) {
    auto const weight = tables_.weight(entry, band);
    if (weight == 0) return line(fmt::format("{}: no weight", when), 1);
    line(fmt::format("{}: {:+.1f} dB, {}", when, decibans(weight), weight_in_words(weight)), 1);
  };
  if (rule.condition) {
    weigh("if so", 0);
    weigh("if not", 1);
  }
  for (std::uint32_t band = 0; band < rule.bands.size(); ++band) weigh(rule.bands[band].text, band);
  frequencies(id, entry.cause, 1);
}

void Describer::cause_rules(CauseId id) {
  struct Use {
    RuleId rule;
    Tables::Entry entry;
    double reach;
  };
  std::vector<Use> uses;
  for (std::uint32_t r = 0; r < pack_.rules.size(); ++r)
    for (auto const& one : tables_.entries(RuleId{r}))
      if (one.cause == id) uses.push_back({RuleId{r}, one, reach(tables_, RuleId{r}, one)});
  std::stable_sort(uses.begin(), uses.end(),
                   [](Use const& a, Use const& b) { return a.reach > b.reach; });
  section("What speaks for it and against it");
  for (auto const& use : uses) {
    entry(use.rule, use.entry, {{pack_[use.rule].title, named(NamedKind::rule, use.rule)}});
    auto const overlap = tables_.overlap_of(use.rule);
    if (overlap < 0) continue;
    auto const& shared = pack_.overlaps[static_cast<std::size_t>(overlap)];
    line(fmt::format("in the overlap {}: each weaker rule counts {} of the one before", shared.name,
                     per_cent(shared.share)),
         1);
  }
}

Named Describer::care_named(Care const& care) const {
  return {NamedKind::care, static_cast<std::uint32_t>(&care - pack_.care.data())};
}

void Describer::cause_care(CauseId id) {
  section("Care for it, told where it is likely enough");
  for (auto const& care : pack_.care)
    if (std::find(care.causes.begin(), care.causes.end(), id) != care.causes.end())
      line(Pieces{{care.title, care_named(care)},
                  {care.for_clinician ? " (for the clinician)" : "", {}}});
}

void Describer::describe_cause(CauseId id) {
  auto const& cause = pack_[id];
  section("What it is");
  line(fmt::format("Needs: {}", pack_[cause.see].title));
  line(fmt::format("Base rate: {} of {} presented for suspected pain",
                   per_cent(tables_.prior(index(id))), pack_.words.many));
  std::string sites;
  for (auto const site : cause.affects) sites += (sites.empty() ? "" : ", ") + pack_[site].title;
  if (!sites.empty()) line("Affects: " + sites);
  if (cause.not_pain) line("Not pain, though it may look like it");
  std::string called;
  for (auto const& words : cause.also_called) called += (called.empty() ? "" : ", ") + words;
  if (!called.empty()) line("Also called: " + called);
  for (std::uint32_t f = 0; f < pack_.families.size(); ++f)
    if (auto const& in = pack_.families[f].members; std::find(in.begin(), in.end(), id) != in.end())
      line(Pieces{{"One of: ", {}}, {pack_.families[f].title, Named{NamedKind::family, f}}});
  rationale(cause.because, cause.cites);
  section("Next, for the vet");
  for (auto const& next : cause.next) line(next);
  cause_rules(id);
  cause_care(id);
}

void Describer::describe_rule(RuleId id) {
  auto const& rule = pack_[id];
  section("Condition");
  if (rule.condition) condition(*rule.condition);
  if (!rule.condition) {
    line(Pieces{{"over ", {}}, {pack_[rule.over].label, named(NamedKind::sign, rule.over)}});
    for (auto const& band : rule.bands) line(band.text, 1);
  }
  rationale(rule.because, rule.cites);
  section("What it weighs");
  std::vector<Tables::Entry> entries(tables_.entries(id).begin(), tables_.entries(id).end());
  std::stable_sort(entries.begin(), entries.end(), [&](auto const& a, auto const& b) {
    return reach(tables_, id, a) > reach(tables_, id, b);
  });
  for (auto const& one : entries)
    entry(id, one, {{pack_[one.cause].title, named(NamedKind::cause, one.cause)}});
  auto const overlap = tables_.overlap_of(id);
  if (overlap < 0) return;
  auto const& shared = pack_.overlaps[static_cast<std::size_t>(overlap)];
  section(fmt::format("Overlaps with (each weaker one counts {} of the one before)",
                      per_cent(shared.share)));
  for (auto const other : shared.rules)
    if (other != id) line(Pieces{{pack_[other].title, named(NamedKind::rule, other)}});
}

void Describer::describe_alarm(AlarmId id) {
  auto const& alarm = pack_[id];
  section("What it asks for");
  line(pack_[alarm.see].title);
  if (alarm.floor_of)
    line(Pieces{{fmt::format("A floor: how soon {} with this and nothing else is seen at the "
                             "latest: ",
                             with_article(pack_.words.one)),
                 {}},
                {pack_[*alarm.floor_of].label, named(NamedKind::sign, *alarm.floor_of)}});
  if (!alarm.say.empty()) line("Do: " + alarm.say);
  section("Condition");
  condition(alarm.trigger());
  if (auto const* unless = alarm.unless()) {
    section("Unless it is known that");
    condition(*unless);
  }
  rationale(alarm.because, alarm.cites);
}

// A floor is read with the sign in which it stands.
void Describer::who_has_read(Named thing) {
  auto const at = [&]() -> std::optional<Place> {
    switch (thing.kind) {
      case NamedKind::cause:
        return pack_.causes[thing.index].at;
      case NamedKind::sign:
        if (pack_.signs[thing.index].of_the_patient) return std::nullopt;
        return pack_.signs[thing.index].at;
      case NamedKind::rule:
        return pack_.rules[thing.index].at;
      case NamedKind::alarm:
        if (auto const& sign = pack_.alarms[thing.index].floor_of) return pack_[*sign].at;
        return pack_.alarms[thing.index].at;
      case NamedKind::source:
        return pack_.sources[thing.index].at;
      case NamedKind::family:
        return pack_.families[thing.index].at;
      case NamedKind::care:
        return pack_.care[thing.index].at;
    }
    return std::nullopt;
  }();
  if (!at) return;
  section("Who has read it");
  line(reading_text(pack_, *at));
}

Description describe(Tables const& tables, Named thing) {
  Describer describer(tables, thing);
  switch (thing.kind) {
    case NamedKind::cause:
      describer.describe_cause(CauseId{thing.index});
      break;
    case NamedKind::sign:
      describer.describe_sign(SignId{thing.index});
      break;
    case NamedKind::rule:
      describer.describe_rule(RuleId{thing.index});
      break;
    case NamedKind::alarm:
      describer.describe_alarm(AlarmId{thing.index});
      break;
    case NamedKind::source:
      describer.describe_source(SourceId{thing.index});
      break;
    case NamedKind::family:
      describer.describe_family(FamilyId{thing.index});
      break;
    case NamedKind::care:
      describer.describe_care(tables.pack().care[thing.index]);
      break;
  }
  describer.who_has_read(thing);
  return describer.take();
}

std::vector<Named> all_named(Pack const& pack, NamedKind kind) {
  std::vector<Named> out;
  for (std::uint32_t i = 0; i < how_many(pack, kind); ++i) out.push_back({kind, i});
  return out;
}

}  // namespace flinch
