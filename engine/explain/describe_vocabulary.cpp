// Describing signs, sources and families: how a sign is asked and what uses it, where a source is
// cited, which causes a family holds.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "explain/describer.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

bool is_cited(std::vector<SourceId> const& cites, SourceId source) {
  return std::find(cites.begin(), cites.end(), source) != cites.end();
}

// "52.4%, 47.6%"
std::string per_cents(std::vector<double> const& shares) {
  std::string out;
  for (auto const share : shares)
    out += fmt::format("{}{:.3g}%", out.empty() ? "" : ", ", 100 * share);
  return out;
}

}  // namespace

void Describer::sign_answer(Sign const& sign) {
  constexpr std::array kinds = {
      "yes or no", "the sites where it is found", "steps", "one of", "a number", "a breed"};
  auto text = fmt::format("Answer: {}", kinds.at(static_cast<std::size_t>(sign.kind)));
  for (auto const& value : sign.values)
    text += (&value == &sign.values.front() ? ": " : ", ") + value.label;
  if (traits(sign).is_number)
    text += fmt::format(" from {:g} to {:g} {}", sign.low, sign.high, sign.unit.name);
  line(text);
  constexpr std::array seen = {"anyone", "hands", "the clinic"};
  if (!sign.of_the_patient)
    line(fmt::format("Seen by: {}{}", seen.at(static_cast<std::size_t>(sign.seen_by)),
                     sign.may_hurt ? "; may hurt" : ""));
  if (sign.asked_first)
    line(fmt::format("Asked first: of every {}, right after what it came for", pack_.words.one));
  if (sign.tells_pain) line("Tells how much pain it is in, at each visit");
  if (sign.lasts) line("Lasts: a yes holds for later visits too");
  if (sign.yes_if_seen_before) line("Yes when the book has an earlier visit for the same");
  if (sign.yes_if_worse) line("Yes when it is worse than at the last visit in the book");
  if (sign.mentioned)
    line(fmt::format("Mentioned unasked by {:.3g}% of keepers when it is there",
                     100 * *sign.mentioned));
}

void Describer::sign_use(SignId id) {
  std::vector<Tables::Root> rules;
  std::vector<Tables::Root> alarms;
  std::vector<Tables::Root> applies;
  for (auto const root : tables_.roots_of(id)) {
    auto const& one = tables_.root(root);
    (one.kind == RootKind::rule    ? rules
     : one.kind == RootKind::alarm ? alarms
                                   : applies)
        .push_back(one);
  }
  section("Alarms that use it");
  for (auto const& root : alarms) {
    AlarmId const alarm{root.subject};
    line(Pieces{{pack_[alarm].title, named(NamedKind::alarm, alarm)},
                {fmt::format(" ({}{})", pack_[pack_[alarm].see].title,
                             pack_[alarm].floor_of ? ", by itself" : ""),
                 {}}});
  }
  section("Rules that use it");
  for (auto const& root : rules) {
    RuleId const rule{root.subject};
    Tables::Entry const* strongest = nullptr;
    double weight = 0;
    for (auto const& entry : tables_.entries(rule)) {
      for (std::uint32_t band = 0; band < tables_.outcomes(rule); ++band)
        if (std::abs(tables_.weight(entry, band)) > std::abs(weight)) {
          weight = tables_.weight(entry, band);
          strongest = &entry;
        }
    }
    Pieces pieces{{pack_[rule].title, named(NamedKind::rule, rule)}};
    if (strongest != nullptr) {
      pieces.push_back({fmt::format("; at most {:+.1f} dB, ", decibans(weight)), {}});
      pieces.push_back({pack_[strongest->cause].title, named(NamedKind::cause, strongest->cause)});
    }
    line(std::move(pieces));
  }
  section("Signs that apply by it");
  for (auto const& root : applies) {
    SignId const sign{root.subject};
    line(Pieces{{pack_[sign].label, named(NamedKind::sign, sign)}});
  }
  sign_care(id);
}

void Describer::describe_sign(SignId id) {
  auto const& sign = pack_[id];
  section("How it is asked");
  if (!sign.ask.empty()) line(sign.ask);
  if (!sign.help.empty()) line(sign.help);
  sign_answer(sign);
  for (auto const& words : sign.also_said) line("Also said: " + words);
  for (auto const& value : sign.values)
    for (auto const& words : value.also_said)
      line(fmt::format("Also said: {} ({})", words, value.label));
  if (sign.part_of)
    line(Pieces{{"Part of ", {}},
                {pack_[*sign.part_of].label, named(NamedKind::sign, *sign.part_of)},
                {": a no to that is a no to this, a yes to this a yes to that", {}}});
  for (auto const part : tables_.parts_of(id))
    line(Pieces{{"Includes ", {}}, {pack_.signs[part].label, Named{NamedKind::sign, part}}});
  if (sign.applies_if) {
    section("Applies only if");
    condition(*sign.applies_if);
  }
  sign_use(id);
}

void Describer::source_use(SourceId id) {
  auto const cite = [&](NamedKind kind, auto const& things) {
    for (std::uint32_t i = 0; i < things.size(); ++i)
      if (is_cited(things[i].cites, id)) line(Pieces{{things[i].title, Named{kind, i}}});
  };
  section("Causes that cite it");
  cite(NamedKind::cause, pack_.causes);
  section("Rules that cite it");
  cite(NamedKind::rule, pack_.rules);
  section("Alarms that cite it");
  cite(NamedKind::alarm, pack_.alarms);
  section("Care that cites it");
  cite(NamedKind::care, pack_.care);
}

void Describer::source_figures(SourceId id, Backing kind) {
  section(kind == Backing::counted ? "Figures counted in it" : "Figures derived from it");
  auto const of = [](std::optional<double> sample_size) {
    return sample_size ? fmt::format(" of {:g}", *sample_size) : std::string();
  };
  for (std::uint32_t r = 0; r < pack_.rules.size(); ++r) {
    auto const& rule = pack_.rules[r];
    for (auto const& entry : rule.entries)
      if (entry.source == id && backing(entry.sample_size, entry.source) == kind)
        line(Pieces{
            {rule.title, Named{NamedKind::rule, r}},
            {fmt::format(": {}{} with ", per_cents(entry.frequencies), of(entry.sample_size)), {}},
            {pack_[entry.cause].title, named(NamedKind::cause, entry.cause)}});
    if (rule.usual_source == id && backing(rule.usual_sample_size, rule.usual_source) == kind)
      line(Pieces{
          {rule.title, Named{NamedKind::rule, r}},
          {fmt::format(": usually {}{}", per_cents(rule.usual), of(rule.usual_sample_size)), {}}});
  }
}

void Describer::describe_source(SourceId id) {
  auto const& source = pack_[id];
  section("What it is");
  line(source.text);
  if (!source.doi.empty()) line("doi: " + source.doi);
  if (!source.url.empty()) line("Address: " + source.url);
  if (!source.grade.empty()) line("Grade: " + source.grade);
  constexpr std::array read = {"in full", "in the abstract", "as quoted by another text",
                               "from memory"};
  if (source.read) line(fmt::format("Read {}", read.at(static_cast<std::size_t>(*source.read))));
  source_figures(id, Backing::counted);
  source_figures(id, Backing::derived);
  source_use(id);
}

void Describer::describe_family(FamilyId id) {
  auto const& family = pack_[id];
  section("Causes that look alike");
  for (auto const member : family.members)
    line(Pieces{{pack_[member].title, named(NamedKind::cause, member)}});
  section("Rules that speak of them together");
  for (std::uint32_t r = 0; r < pack_.rules.size(); ++r)
    for (auto const& entry : pack_.rules[r].entries)
      if (entry.family == id) {
        line(Pieces{{pack_.rules[r].title, Named{NamedKind::rule, r}},
                    {": " + per_cents(entry.frequencies), {}}});
        break;
      }
}

}  // namespace flinch
