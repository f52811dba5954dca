// The words of a pack: its sites, breeds, signs and meanings.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <span>

#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

// States of a meaning whose size is not known yet.
constexpr auto meaning_unseen = std::numeric_limits<std::size_t>::max();
constexpr auto meaning_open = meaning_unseen - 1;
constexpr std::size_t deepest_chain =
    32;  // of sites in sites, parts of parts, meanings of meanings

// What may be meant by a unit that nobody knows. One of an amount in another (`mg per kg`) is near
// to units that lie a power of ten apart: those are listed, none is proposed.
void unit_meant(std::string const& written, Diagnostic& error) {
  constexpr std::array kinds = {Dimension::mass, Dimension::temperature, Dimension::time,
                                Dimension::rate, Dimension::volume,      Dimension::length,
                                Dimension::share};
  bool const is_compound = written.find(' ') != std::string::npos;
  auto meant = is_compound ? std::nullopt : meant_unit(written, kinds);
  std::optional<std::string> const near =
      meant || is_compound ? std::nullopt : nearest(written, unit_names());
  if (meant)
    error.did_you_mean(*meant);
  else if (near)
    error.did_you_mean(*near);
  error.notes.push_back({"units are " + all_units_that_fit(), {}});
  if (!meant && !near && !is_compound)
    error.notes.push_back({"what is only counted has no unit: `answer number from 0 to 10`", {}});
}

}  // namespace

// A title names one site: what is typed for it must not be read as another, and need not be said
// twice.
void Resolver::titles_of_sites_are_their_own() {
  std::map<std::string, std::size_t> titles;
  for (std::size_t i = 0; i < pack_.sites.size(); ++i)
    titles.emplace(in_small_letters(pack_.sites[i].title), i);
  for (std::size_t i = 0; i < written_sites_.size(); ++i)
    for (auto const& also : written_sites_[i].statement->also_called) {
      auto const found = titles.find(in_small_letters(also.text));
      if (found == titles.end()) continue;
      auto const& of = pack_.sites[found->second];
      auto& error = report_.error(
          Code::doubled_name, also.at,
          found->second == i
              ? fmt::format("`{}` is the title of this site already", also.text)
              : fmt::format("`{}` is the title of the site `{}`", also.text, of.name));
      if (found->second != i) error.notes.push_back({"which begins here", of.at});
    }
}

void Resolver::sites() {
  for (auto const& written : written_sites_) {
    auto const& s = *written.statement;
    Site out{s.name.text, title_or_name(s), std::nullopt, s.paired, {}, s.name.at};
    out.also_called = other_calls(s.also_called);
    if (s.inside)
      if (auto const outer = site_names_.find(*s.inside, report_)) out.inside = SiteId{*outer};
    pack_.site_index.emplace(out.name, SiteId{static_cast<std::uint32_t>(pack_.sites.size())});
    pack_.sites.push_back(std::move(out));
  }
  titles_of_sites_are_their_own();
  for (std::size_t i = 0; i < pack_.sites.size(); ++i) {
    std::size_t steps = 0;
    for (auto outer = pack_.sites[i].inside; outer; outer = pack_[*outer].inside) {
      if (pack_[*outer].paired) pack_.sites[i].paired = true;
      if (++steps > deepest_chain) {
        report_.error(Code::site_cycle, written_sites_[i].statement->name.at,
                      fmt::format("site `{}` lies inside itself, or more than {} deep",
                                  pack_.sites[i].name, deepest_chain));
        pack_.sites[i].inside.reset();
        break;
      }
    }
  }
}

void Resolver::groups() {
  pack_.group_breeds.resize(pack_.groups.size());
  for (std::uint32_t breed = 0; breed < pack_.breeds.breeds.size(); ++breed)
    for (auto const group : pack_.breeds.breeds[breed].groups)
      pack_.group_breeds[group].push_back(breed);
  for (auto const& written : written_breeds_) {
    std::vector<std::uint32_t> members;
    for (auto const& name : written.statement->members) {
      if (auto const breed = pack_.breeds.find(name.text)) {
        members.push_back(*breed);
        continue;
      }
      // A table that could not be read may hold it.
      if (!is_whole_ && pack_.breeds.breeds.empty()) continue;
      std::vector<std::string_view> keys;
      for (auto const& breed : pack_.breeds.breeds) keys.push_back(breed.key);
      auto& error = report_.error(Code::unknown_name, name.at,
                                  fmt::format("unknown breed `{}`", shown(name.text)));
      if (auto const near = nearest(name.text, keys))
        error.did_you_mean(*near);
      else if (auto others = other_names(name.text, keys))
        error.notes.push_back({std::move(*others), {}});
    }
    std::sort(members.begin(), members.end());
    auto const& name = written.statement->name;
    pack_.groups.push_back({name.text, spoken(name.text), name.at});
    pack_.group_breeds.push_back(std::move(members));
  }
}

void Resolver::signs() {
  for (auto const& written : written_signs_) {
    auto const& s = *written.statement;
    Sign out;
    out.name = s.name.text;
    out.label = title_or_name(s);
    out.ask = text_or_empty(s.ask);
    out.help = text_or_empty(s.help);
    out.may_hurt = s.may_hurt;
    out.tells_pain = s.tells_pain;
    out.asked_first = s.asked_first;
    out.lasts = s.lasts;
    out.yes_if_seen_before = s.yes_if_seen_before;
    out.yes_if_worse = s.yes_if_worse;
    out.at = s.name.at;
    if (s.mentioned) out.mentioned = frequency(*s.mentioned);
    if (s.takes) out.takes_s = quantity(*s.takes, Dimension::time).value_or(0);
    if (s.seen_by) out.seen_by = *s.seen_by;
    if (!s.ask && !written.has_lost("ask")) missing("sign", s.name, "ask");
    if (!s.answer && !written.has_lost("answer")) missing("sign", s.name, "answer");
    if (!s.seen_by && !written.has_lost("seen by")) missing("sign", s.name, "seen by");
    if (s.answer) sign_answer(written, out);
    also_said(s, out);
    pack_.signs.push_back(std::move(out));
  }
  for (std::uint32_t i = 0; i < pack_.signs.size(); ++i)
    pack_.sign_index.emplace(pack_.signs[i].name, SignId{i});
}

void Resolver::also_said(syntax::Sign const& s, Sign& out) {
  if (!s.answer) return;  // it was reported, and what is written of its values may be right
  for (auto const& said : s.also_said) {
    if (!said.value) {
      out.also_said.push_back(said.words.text);
      continue;
    }
    auto const value = std::find_if(out.values.begin(), out.values.end(),
                                    [&](Value const& v) { return v.name == said.value->text; });
    if (value != out.values.end()) {
      value->also_said.push_back(said.words.text);
      continue;
    }
    auto& error =
        report_.error(Code::unknown_name, said.value->at,
                      fmt::format("`{}` has no value `{}`", s.name.text, said.value->text));
    std::vector<std::string_view> names;
    for (auto const& one : out.values) names.push_back(one.name);
    if (auto const near = nearest(said.value->text, names)) error.did_you_mean(*near);
  }
}

std::vector<Value> Resolver::values(std::vector<syntax::Value> const& written,
                                    std::string_view kind) {
  std::vector<Value> out;
  // The count is looked at first: each is compared with all before it.
  if (written.size() < 2 || written.size() > most_values)
    report_.error(Code::value_count, written.front().name.at,
                  fmt::format("a sign has from 2 to {} {}s", most_values, kind));
  for (auto const& value : std::span(written).first(std::min(written.size(), most_values))) {
    auto const twice = std::find_if(out.begin(), out.end(),
                                    [&](Value const& v) { return v.name == value.name.text; });
    if (twice != out.end())
      report_
          .error(Code::doubled_name, value.name.at,
                 fmt::format("{} `{}` is given twice", kind, value.name.text))
          .notes.push_back(
              {"first given here", written[static_cast<std::size_t>(twice - out.begin())].name.at});
    out.push_back({value.name.text, value.label ? value.label->text : spoken(value.name.text)});
  }
  return out;
}

void Resolver::sign_answer(Written<syntax::Sign> const& written, Sign& out) {
  auto const& answer = written.statement->answer->kind;
  if (auto const* sites = std::get_if<syntax::Sites>(&answer)) {
    out.kind = AnswerKind::sites;
    for (auto const& name : sites->within)
      if (auto const site = site_names_.find(name, report_)) out.within.push_back(SiteId{*site});
  } else if (auto const* steps = std::get_if<syntax::Steps>(&answer)) {
    out.kind = AnswerKind::steps;
    out.values = values(steps->values, "step");
  } else if (auto const* one_of = std::get_if<syntax::OneOf>(&answer)) {
    out.kind = AnswerKind::one_of;
    out.values = values(one_of->values, "choice");
  } else if (auto const* measure = std::get_if<syntax::Measure>(&answer)) {
    out.kind = AnswerKind::number;
    out.low = measure->low.value;
    out.high = measure->high.value;
    out.unit = *find_unit("");
    if (measure->unit) {
      if (auto const unit = find_unit(measure->unit->text)) {
        out.unit = *unit;
      } else {
        auto& error = report_.error(Code::unknown_name, measure->unit->at,
                                    fmt::format("unknown unit `{}`", shown(measure->unit->text)));
        unit_meant(measure->unit->text, error);
      }
    }
    if (out.low >= out.high) {
      report_.error(Code::empty_range, cover(measure->low.at, measure->high.at),
                    "the range runs from the lower to the higher number");
      std::swap(out.low, out.high);  // what was meant, so that no answer is blamed for it
    }
  }
}

void Resolver::sign_relations() {
  for (std::size_t i = 0; i < written_signs_.size(); ++i) {
    auto const& s = *written_signs_[i].statement;
    auto& out = pack_.signs[patient_sign::count + i];
    if (s.part_of) {
      auto const whole = sign_names_.find(*s.part_of, report_);
      bool const is_sign = whole && *whole < first_means_;
      auto const is_there_or_not = [](Sign const& sign) { return traits(sign).takes_yes_or_no; };
      if (is_sign && is_there_or_not(pack_.signs[*whole]) && is_there_or_not(out))
        out.part_of = SignId{*whole};
      else if (whole)
        report_.error(Code::part_misfit, s.part_of->at,
                      "a part and its whole are both signs with the answer `yes or no` or `sites`");
    }
    if (s.tells_pain && s.answer && !traits(out).has_order)
      report_.error(Code::part_misfit, s.answer->at,
                    "what tells how much pain it is in is a sign with the answer `steps`");
    auto const told_by = s.tells_pain ? pack_.pain_sign() : std::nullopt;
    if (told_by && &pack_[*told_by] != &out)
      report_.error(Code::clause_twice, s.name.at,
                    fmt::format("`{}` and `{}` both say `tells pain`: one sign of a pack does",
                                pack_[*told_by].name, out.name));
    if ((s.yes_if_seen_before || s.yes_if_worse) && s.answer && !traits(out).is_plain)
      report_.error(Code::part_misfit, s.answer->at,
                    "what a record says yes to is a sign with the answer `yes or no`");
    if (s.mentioned && !traits(out).may_be_absent)
      report_.error(Code::part_misfit, s.mentioned->at,
                    "`mentioned` fits signs that are there or not: yes or no, sites, steps");
    if (s.applies_if) {
      if (traits(out).is_number)
        report_
            .error(Code::part_misfit, s.applies_if->at,
                   "`applies if` fits signs with an answer for where it is false: yes or no, "
                   "sites, steps, one of")
            .notes.push_back({"take it out: a number may be answered `unknown`", {}});
      out.applies_if = condition(*s.applies_if);
    }
  }
  for (std::size_t i = 0; i < written_signs_.size(); ++i) {
    std::size_t steps = 0;
    auto& sign = pack_.signs[patient_sign::count + i];
    for (auto whole = sign.part_of; whole; whole = pack_[*whole].part_of)
      if (++steps > deepest_chain) {
        report_.error(Code::part_cycle, written_signs_[i].statement->part_of->at,
                      fmt::format("sign `{}` is a part of itself, or more than {} deep", sign.name,
                                  deepest_chain));
        sign.part_of.reset();
        break;
      }
  }
}

void Resolver::means() {
  pack_.means.resize(written_means_.size());
  means_tests_.assign(written_means_.size(), meaning_unseen);
  for (std::size_t i = 0; i < written_means_.size(); ++i) {
    auto const& m = *written_means_[i].statement;
    pack_.means[i].name = m.name.text;
    pack_.means[i].title = title_or_name(m);
    pack_.means[i].at = m.name.at;
  }
  for (std::size_t i = 0; i < written_means_.size(); ++i) resolve_meaning(i, 0);
}

// A meaning may name another, but not, however far round, itself. Those it names are resolved
// first, so that it is known how large it is when opened up.
void Resolver::resolve_meaning(std::size_t meaning, std::size_t depth) {
  if (means_tests_[meaning] != meaning_unseen) return;
  means_tests_[meaning] = meaning_open;
  auto const& written = written_means_[meaning].statement->condition;
  bool sound = true;
  auto const follow = [&](auto const& self, syntax::Condition const& c) -> void {
    for (auto const& inner : c.parts) self(self, inner);
    if (c.kind != syntax::Condition::Kind::test) return;
    auto const found = sign_names_.find(c.test.sign.text);
    if (!found || *found < first_means_) return;
    auto const other = *found - first_means_;
    if (means_tests_[other] == meaning_open) {
      report_.error(Code::means_cycle, c.at,
                    fmt::format("meaning `{}` is made of itself", pack_.means[other].name));
      sound = false;
    } else if (means_tests_[other] == meaning_unseen && depth == deepest_chain) {
      report_.error(
          Code::too_deep, c.at,
          fmt::format("meanings are made of each other more than {} deep", deepest_chain));
      sound = false;
    } else {
      resolve_meaning(other, depth + 1);
    }
  };
  follow(follow, written);
  auto resolved = sound ? condition(written) : std::nullopt;
  means_tests_[meaning] = resolved ? tests_in(*resolved) : 1;
  if (resolved) pack_.means[meaning].condition = std::move(*resolved);
}

}  // namespace flinch
