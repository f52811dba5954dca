// What moves the ranking: causes, their families, rules and overlaps.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

// Published shares are rounded to a decimal or so, and may sum to 99.9.
constexpr double share_tolerance = 0.15;

std::string band_text(syntax::Band const& band) {
  auto const show = [](syntax::Quantity const& q) {
    auto const number = syntax::print_number(q.value);
    return q.unit.empty() ? number : number + (q.unit == "%" ? "" : " ") + q.unit;
  };
  if (!band.low && band.high) return "under " + show(*band.high);
  if (!band.high && band.low) return "over " + show(*band.low);
  if (band.low) return show(*band.low) + " to " + show(*band.high);
  std::string out;
  for (auto const& value : band.values) out += (out.empty() ? "" : " or ") + spoken(value.text);
  return out;
}

}  // namespace

template <class T>
void Resolver::rationale(std::string_view kind, Written<T> const& written, std::string& because,
                         std::vector<SourceId>& cites) {
  auto const& s = *written.statement;
  if (s.because)
    because = s.because->text;
  else if (!written.has_lost("because"))
    missing(kind, s.name, "because");
  if (s.cites.empty() && !written.has_lost("cite")) missing(kind, s.name, "cite");
  cites = cited(s.cites);
}

template void Resolver::rationale(std::string_view, Written<syntax::Alarm> const&, std::string&,
                                  std::vector<SourceId>&);
template void Resolver::rationale(std::string_view, Written<syntax::Care> const&, std::string&,
                                  std::vector<SourceId>&);

void Resolver::causes() {
  for (auto const& written : written_causes_) {
    auto const& c = *written.statement;
    Cause out;
    out.name = c.name.text;
    out.title = title_or_name(c);
    out.not_pain = c.not_pain;
    out.at = c.name.at;
    for (auto const& name : c.affects)
      if (auto const site = site_names_.find(name, report_)) out.affects.push_back(SiteId{*site});
    out.also_called = other_calls(c.also_called);
    for (auto const& next : c.next) out.next.push_back(next.text);
    if (c.base)
      out.base = frequency(*c.base).value_or(0);
    else if (!written.has_lost("base"))
      missing("cause", c.name, "base");
    if (c.base && c.base->count <= 0)
      report_.error(Code::frequency_range, c.base->at,
                    "a cause that never occurs is no cause: `base` is above zero");
    if (c.see) {
      if (auto const tier = tier_named(*c.see)) out.see = *tier;
    } else if (!written.has_lost("see")) {
      missing("cause", c.name, "see");
    }
    rationale("cause", written, out.because, out.cites);
    pack_.causes.push_back(std::move(out));
  }
}

std::optional<CauseId> Resolver::cause_named(syntax::Name const& name) {
  if (!cause_names_.find(name.text) && sign_names_.find(name.text)) {
    report_.error(Code::unknown_name, name.at,
                  fmt::format("`{}` is a sign, and a cause is needed here", name.text));
    return std::nullopt;
  }
  auto const found = cause_names_.find(name, report_);
  if (!found) return std::nullopt;
  if (*found < first_family_) return CauseId{*found};
  report_
      .error(Code::family_misfit, name.at,
             fmt::format("`{}` is a family: only a rule names one, here a cause fits", name.text))
      .notes.push_back({"the family is defined here", cause_names_.place_of(name.text)});
  return std::nullopt;
}

// What is like no other may be a family: those are few enough to be told.
std::optional<std::uint32_t> Resolver::cause_or_family_named(syntax::Name const& name) {
  Report own;
  auto const found = cause_names_.find(name, own);
  for (auto& unknown : own.take()) {
    auto& error = report_.error(unknown.code, unknown.at,
                                fmt::format("unknown cause or family `{}`", shown(name.text)));
    error.notes = std::move(unknown.notes);
    error.instead = std::move(unknown.instead);
    constexpr std::size_t most_told = 12;
    if (!error.notes.empty() || pack_.families.empty() || pack_.families.size() > most_told)
      continue;
    std::vector<std::string> names;
    for (auto const& family : pack_.families) names.push_back(fmt::format("`{}`", family.name));
    error.notes.push_back({fmt::format("families are {}", fmt::join(names, ", ")), {}});
  }
  return found;
}

void Resolver::families() {
  for (auto const& written : written_families_) {
    auto const& f = *written.statement;
    Family out{f.name.text, title_or_name(f), {}, f.name.at};
    std::vector<Place> places;
    for (auto const& name : f.members) {
      auto const cause = cause_named(name);
      if (!cause) continue;
      auto const twice = std::find(out.members.begin(), out.members.end(), *cause);
      if (twice != out.members.end()) {
        report_
            .error(Code::doubled_name, name.at,
                   fmt::format("family `{}` names `{}` twice", out.name, name.text))
            .notes.push_back({"first named here",
                              places[static_cast<std::size_t>(twice - out.members.begin())]});
        continue;
      }
      out.members.push_back(*cause);
      places.push_back(name.at);
    }
    if (f.members.size() < 2)
      report_.error(Code::value_count, f.name.at, "a family is of two causes or more");
    pack_.families.push_back(std::move(out));
  }
}

std::optional<double> Resolver::frequency(syntax::Frequency const& written) {
  std::optional<double> size;
  std::optional<SourceId> source;
  sample(written.sample, size, source);
  if (source) pack_.figure_sources.push_back(*source);
  return proportion(written);
}

std::optional<double> Resolver::proportion(syntax::Frequency const& written) {
  if (written.out_of <= 0 || written.count < 0 || written.count > written.out_of) {
    report_.error(Code::frequency_range, written.at, "a frequency lies between 0% and 100%");
    return std::nullopt;
  }
  return written.count / written.out_of;
}

void Resolver::sample(std::optional<syntax::Sample> const& written, std::optional<double>& size,
                      std::optional<SourceId>& source) {
  if (!written) return;
  if (written->size) {
    auto const& patients = *written->size;
    if (patients.value < 1 || patients.value != std::floor(patients.value))
      report_.error(Code::count_range, patients.at,
                    "a sample is a whole number of cases, one at least");
    size = patients.value;
  }
  if (auto const found = source_names_.find(written->source, report_)) source = SourceId{*found};
}

void Resolver::rules() {
  for (auto const& written : written_rules_) {
    auto const& r = *written.statement;
    Rule out;
    out.name = r.name.text;
    out.title = title_or_name(r);
    out.at = r.name.at;
    bool const both = r.condition && r.over;
    if (both)
      report_.error(Code::if_and_over, r.name.at,
                    fmt::format("rule `{}` has `if` and `over`: one of them", out.name));
    if (!r.condition && !r.over && !written.has_lost("if") && !written.has_lost("over"))
      missing("rule", r.name, "if");
    if (r.condition) out.condition = condition(*r.condition);
    if (r.over && !both) rule_bands(*r.over, out);
    if (!both) rule_frequencies(written, out);
    rationale("rule", written, out.because, out.cites);
    pack_.rules.push_back(std::move(out));
  }
}

void Resolver::rule_bands(syntax::Over const& written, Rule& out) {
  auto const found = sign_names_.find(written.sign, report_);
  if (!found) return;
  if (*found >= first_means_) {
    report_.error(Code::test_misfit, written.sign.at,
                  "bands are taken over a sign, not over a meaning");
    return;
  }
  if (is_kind_unknown(*found)) return;
  auto const& sign = pack_.signs[*found];
  bool const is_number = traits(sign).is_number;
  if (!is_number && !traits(sign).has_values) {
    report_.error(
        Code::test_misfit, written.sign.at,
        fmt::format("bands are taken over numbers, steps or choices; `{}` has none", sign.name));
    return;
  }
  out.over = SignId{*found};
  bool sound = true;
  for (auto const& band : written.bands) {
    Band resolved;
    resolved.text = band_text(band);
    resolved.test.sign = out.over;
    if (is_number == !band.values.empty()) {
      report_.error(
          Code::band_misfit, band.at,
          is_number
              ? "bands over a number are written `under 1 year`, `1 to 7 years`, `over 7 years`"
              : "bands over steps or choices name them, several joined with `or`");
      return;
    }
    if (is_number) {
      resolved.test.kind = Test::Kind::in_range;
      resolved.test.high_included = false;
      auto low = band.low;
      if (low && low->unit.empty() && band.high) low->unit = band.high->unit;
      if (low) {
        auto const value = amount(sign, *low);
        sound = sound && value;
        resolved.test.low = value.value_or(0);
      }
      if (band.high) {
        auto const value = amount(sign, *band.high);
        sound = sound && value;
        resolved.test.high = value.value_or(0);
      }
    } else {
      resolved.test.kind = Test::Kind::is_value;
      for (auto const& name : band.values) {
        auto const value = value_of(sign, name);
        sound = sound && value;
        if (value) resolved.test.values.push_back(*value);
      }
      std::sort(resolved.test.values.begin(), resolved.test.values.end());
    }
    out.bands.push_back(std::move(resolved));
  }
  if (!sound) return;
  auto const errors = report_.error_count();
  if (out.bands.size() < 2)
    report_.error(Code::band_misfit, written.bands.front().at,
                  "one band says nothing: at least two are needed");
  else if (is_number)
    check_number_bands(written, out);
  else
    check_value_bands(written, out);
  // With a band missing, the shares are not counted: they may be right.
  if (report_.error_count() > errors) out.bands.clear();
}

void Resolver::check_number_bands(syntax::Over const& written, Rule const& rule) {
  auto const& sign = pack_[rule.over];
  auto const show = [&](double value) {
    auto unit = std::string(sign.unit.name);
    if (value == 1 && sign.unit.dimension == Dimension::time) unit.pop_back();  // 1 year
    return syntax::print_number(value) + (unit.empty() ? "" : " ") + unit;
  };
  auto const& first = rule.bands.front().test;
  if (first.low > sign.low)
    report_.error(
        Code::band_gap, written.bands.front().at,
        fmt::format("no band holds {} to {}: begin with `under`", show(sign.low), show(first.low)));
  for (std::size_t i = 0; i < rule.bands.size(); ++i) {
    auto const& test = rule.bands[i].test;
    if (test.low >= test.high)
      report_.error(Code::empty_range, written.bands[i].at,
                    "this band holds nothing: it runs from the lower to the higher amount");
    if (i == 0) continue;
    auto const& before = rule.bands[i - 1].test;
    if (test.low < before.high)
      report_.error(
          Code::band_overlap, written.bands[i].at,
          fmt::format("this band overlaps the one before it, which ends at {}", show(before.high)));
    else if (test.low > before.high)
      report_.error(Code::band_gap, written.bands[i].at,
                    fmt::format("no band holds {} to {}", show(before.high), show(test.low)));
  }
  auto const& last = rule.bands.back().test;
  if (last.high <= sign.high)
    report_.error(Code::band_gap, written.bands.back().at,
                  fmt::format("no band holds {} and more: end with `over`", show(last.high)));
}

void Resolver::check_value_bands(syntax::Over const& written, Rule const& rule) {
  auto const& sign = pack_[rule.over];
  std::vector<std::optional<Place>> seen(sign.values.size());
  for (auto const& band : written.bands) {
    for (auto const& name : band.values) {
      for (std::size_t i = 0; i < sign.values.size(); ++i) {
        if (sign.values[i].name != name.text) continue;
        if (seen[i])
          report_
              .error(Code::band_overlap, name.at,
                     fmt::format("`{}` stands in two bands", name.text))
              .notes.push_back({"first here", *seen[i]});
        else
          seen[i] = name.at;
      }
    }
  }
  for (std::size_t i = 0; i < seen.size(); ++i)
    if (!seen[i])
      report_.error(Code::band_gap, written.bands.back().at,
                    fmt::format("no band holds `{}`", sign.values[i].name));
}

std::vector<double> Resolver::shares(syntax::Frequencies const& written, Rule const& rule) {
  if (rule.bands.empty() && !rule.condition) return {};  // its clause was reported
  if (rule.bands.empty()) {
    if (written.single) {
      auto const value = proportion(*written.single);
      return value ? std::vector{*value} : std::vector<double>{};
    }
    report_.error(Code::share_count, written.at,
                  "a rule with `if` has one frequency, such as `12%`");
    return {};
  }
  if (written.single || written.shares.size() != rule.bands.size()) {
    report_.error(Code::share_count, written.at,
                  fmt::format("{} bands need {} shares in per cent, one for each",
                              rule.bands.size(), rule.bands.size()));
    return {};
  }
  std::vector<double> out;
  double sum = 0;
  for (auto const& share : written.shares) {
    if (share.value < 0 || share.value > 100) {
      report_.error(Code::frequency_range, share.at, "a share lies between 0 and 100 per cent");
      return {};
    }
    sum += share.value;
    out.push_back(share.value / 100);
  }
  if (std::abs(sum - 100) > share_tolerance) {
    report_.error(Code::share_sum, written.at,
                  fmt::format("the shares sum to {:.6g}, not to 100", sum));
    return {};
  }
  return out;
}

void Resolver::rule_frequencies(Written<syntax::Rule> const& written, Rule& out) {
  auto const& r = *written.statement;
  if (r.usual) {
    out.usual = shares(*r.usual, out);
    sample(r.usual->single ? r.usual->single->sample : r.usual->sample, out.usual_sample_size,
           out.usual_source);
  } else if (!written.has_lost("usual")) {
    missing("rule", r.name, "usual");
  }
  if (r.in.empty() && !written.has_lost("in")) missing("rule", r.name, "in");
  rule_entries(r, out);
}

// First the causes that are named themselves: they are no longer spoken for by a family.
void Resolver::rule_entries(syntax::Rule const& written, Rule& out) {
  std::vector<std::pair<std::uint32_t, Place>> seen;
  std::vector<std::pair<syntax::InCause const*, RuleEntry>> by_family;
  for (auto const& in : written.in) {
    auto const named = cause_or_family_named(in.cause);
    RuleEntry entry;
    entry.frequencies = shares(in.frequencies, out);
    sample(in.frequencies.single ? in.frequencies.single->sample : in.frequencies.sample,
           entry.sample_size, entry.source);
    if (!named) continue;
    auto const earlier =
        std::find_if(seen.begin(), seen.end(), [&](auto const& s) { return s.first == *named; });
    if (earlier != seen.end()) {
      report_
          .error(Code::doubled_name, in.cause.at,
                 fmt::format("rule `{}` names `{}` twice", out.name, in.cause.text))
          .notes.push_back({"first named here", earlier->second});
      continue;
    }
    seen.emplace_back(*named, in.cause.at);
    entry.at = in.cause.at;
    if (*named >= first_family_) {
      entry.family = FamilyId{*named - first_family_};
      by_family.emplace_back(&in, std::move(entry));
      continue;
    }
    entry.cause = CauseId{*named};
    out.entries.push_back(std::move(entry));
  }
  for (auto const& [in, entry] : by_family) family_entries(*in, entry, out);
}

// A figure for each member that the rule does not name itself.
void Resolver::family_entries(syntax::InCause const& in, RuleEntry const& figure, Rule& out) {
  for (auto const member : pack_[*figure.family].members) {
    auto const earlier = std::find_if(out.entries.begin(), out.entries.end(),
                                      [&](RuleEntry const& e) { return e.cause == member; });
    if (earlier == out.entries.end()) {
      out.entries.push_back(figure);
      out.entries.back().cause = member;
    } else if (earlier->family) {
      report_
          .error(Code::two_families, in.cause.at,
                 fmt::format("rule `{}` names `{}` by two families, `{}` and `{}`: name it itself",
                             out.name, pack_[member].name, pack_[*earlier->family].name,
                             in.cause.text))
          .notes.push_back({"first named here", earlier->at});
    }
  }
}

void Resolver::overlaps() {
  std::vector<std::optional<Place>> taken(pack_.rules.size());
  for (auto const& written : written_overlaps_) {
    auto const& o = *written.statement;
    Overlap out{o.name.text, frequency(o.shares).value_or(1), {}, o.name.at};
    for (auto const& name : o.rules) {
      auto const rule = rule_names_.find(name, report_);
      if (!rule) continue;
      if (taken[*rule]) {
        report_
            .error(Code::two_overlaps, name.at,
                   fmt::format("rule `{}` is in an overlap already", name.text))
            .notes.push_back({"first named here", *taken[*rule]});
        continue;
      }
      taken[*rule] = name.at;
      out.rules.push_back(RuleId{*rule});
    }
    if (o.rules.size() < 2)
      report_.error(Code::value_count, o.name.at, "an overlap is between two rules or more");
    pack_.overlaps.push_back(std::move(out));
  }
}

}  // namespace flinch
