// What a pack says of itself: its head, its sources, its tiers.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <span>
#include <tuple>

#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

constexpr double loosest_hold = 0.1;  // beyond it clues would be lost; a judgement

}  // namespace

void Resolver::pack_head() {
  if (written_packs_.empty()) {
    // Where something could not be read, the missing head may be just that.
    if (!report_.has_errors())
      report_.error(Code::no_pack, {}, "no `pack` statement names this pack");
    return;
  }
  for (auto const& again : std::span(written_packs_).subspan(1))
    report_.error(Code::doubled_name, again.statement->name.at, "a pack has one `pack` statement")
        .notes.push_back({"first given here", written_packs_.front().statement->name.at});
  auto const& head = *written_packs_.front().statement;
  pack_.name = head.name.text;
  pack_.at = head.name.at;
  pack_.title = title_or_name(head);
  species(head);
  if (head.version) pack_.version = head.version->text;
  if (head.unlisted)
    pack_.unlisted = frequency(*head.unlisted).value_or(0);
  else if (!written_packs_.front().damaged())
    missing("pack", head.name, "unlisted");
  if (head.hold) {
    auto const low = frequency(head.hold->low);
    auto const high = frequency(head.hold->high);
    if (low && high && (*low <= 0 || *high >= 1 || *low >= *high))
      report_.error(Code::hold_limits, head.hold->low.at,
                    "`hold` keeps frequencies above 0 % and below 100 %, the lower limit first");
    else if (low && high && (*low > loosest_hold || *high < 1 - loosest_hold))
      report_
          .error(Code::hold_limits, head.hold->low.at,
                 fmt::format("`hold` cuts every figure to what lies between: the lower limit is at "
                             "most {:g}%, the higher at least {:g}%",
                             100 * loosest_hold, 100 * (1 - loosest_hold)))
          .notes.push_back({"as in `hold 0.5% to 99.5%`", {}});
    else if (low && high)
      std::tie(pack_.hold_low, pack_.hold_high) = std::pair(*low, *high);
  }
}

void Resolver::sources() {
  for (auto const& written : written_sources_) {
    auto const& s = *written.statement;
    Reference out{s.name.text,
                  text_or_empty(s.text),
                  s.doi ? s.doi->text : "",
                  s.url ? s.url->text : "",
                  s.grade ? s.grade->text : "",
                  s.read,
                  s.name.at};
    if (!s.text && !written.has_lost("text")) missing("source", s.name, "text");
    source_is_found(s);
    pack_.sources.push_back(std::move(out));
  }
}

// Where a source is must lead there, and what is no publication was not read.
void Resolver::source_is_found(syntax::Source const& written) {
  if (written.doi) {
    auto const& doi = written.doi->text;
    auto const at = doi.find("10.");
    auto const slash = doi.find('/', at == std::string::npos ? 0 : at);
    auto const is_doi = [](std::string_view text) {
      constexpr std::size_t head = 3;  // `10.`
      auto const end = text.find('/');
      if (!text.starts_with("10.") || end == std::string_view::npos) return false;
      auto const registrant = text.substr(head, end - head);
      constexpr std::size_t shortest = 4;
      return registrant.size() >= shortest && end + 1 < text.size() &&
             registrant.find_first_not_of("0123456789.") == std::string_view::npos;
    };
    if (!is_doi(doi)) {
      auto& error = report_.error(
          Code::source_misfit, written.doi->at,
          fmt::format("`{}` is no DOI: one begins with `10.`, four digits or more and a slash",
                      shown(doi)));
      if (slash != std::string::npos && at != 0 && at != std::string::npos &&
          is_doi(std::string_view(doi).substr(at)))
        error.did_you_mean(doi.substr(at));
      else
        error.notes.push_back(
            {"as in `doi 10.1038/s41598-018-23940-z`; another address stands in `url`", {}});
    }
  }
  if (written.url && !written.url->text.starts_with("https://") &&
      !written.url->text.starts_with("http://")) {
    auto& error = report_.error(
        Code::source_misfit, written.url->at,
        fmt::format("`{}` is no address: one begins with `https://`", shown(written.url->text)));
    if (written.url->text.find('.') != std::string::npos)
      error.did_you_mean("https://" + written.url->text);
  }
  bool const has_nothing_to_read = written.grade && (written.grade->text == "common-practice" ||
                                                     written.grade->text == "judgement");
  if (has_nothing_to_read && written.read)
    report_.error(Code::source_misfit, written.grade->at,
                  fmt::format("`{}` says that there is nothing to look up, and `read` how much of "
                              "it was read: one of the two goes",
                              written.grade->text));
}

void Resolver::tiers() {
  for (auto const& written : written_tiers_) {
    auto const& t = *written.statement;
    bool const is_last = &written == &written_tiers_.back();
    Tier out;
    out.name = t.name.text;
    out.title = title_or_name(t);
    out.say = text_or_empty(t.say);
    out.until_then = text_or_empty(t.until_then);
    if (t.until_then) out.say += ' ' + out.until_then;
    out.at = t.name.at;
    bool is_within_known = false;
    if (t.within) {
      auto const within_s = quantity(*t.within, Dimension::time);
      is_within_known = within_s.has_value();
      out.within_s = within_s.value_or(0);
    } else if (!written.has_lost("within")) {
      missing("tier", t.name, "within");
    }
    if (t.harm) out.harm = t.harm->value;
    if (!t.harm && !is_last && !written.has_lost("harm")) missing_harm(t.name);
    if (!t.say && !written.has_lost("say")) missing("tier", t.name, "say");
    if (t.harm && t.harm->value <= 0)
      report_.error(Code::tier_order, t.harm->at, "`harm` counts false alarms and is above zero");
    else if (is_last && t.harm)
      report_.error(Code::tier_order, t.harm->at,
                    "the last tier is where a patient stays by itself, so it has no `harm`");
    if (!pack_.tiers.empty()) {
      auto const& before = pack_.tiers.back();
      if (is_within_known && out.within_s <= before.within_s)
        report_.error(
            Code::tier_order, t.within->at,
            fmt::format("tiers stand most urgent first: `within` must be longer than that of "
                        "`{}`",
                        before.name));
      if (out.harm && before.harm && *out.harm >= *before.harm)
        report_.error(Code::tier_order, t.harm->at,
                      fmt::format("a less urgent tier has less `harm` than `{}`", before.name));
    }
    pack_.tiers.push_back(std::move(out));
  }
  if (pack_.tiers.empty() && is_whole_ && !written_packs_.empty())
    report_.error(Code::no_tiers, written_packs_.front().statement->name.at,
                  "a pack needs at least one `tier`");
}

// What is no tier gets those that there are, and which of them was probably meant.
std::optional<TierId> Resolver::tier_named(syntax::Name const& name) {
  Report own;
  if (auto const found = tier_names_.find(name, own)) return TierId{*found};
  for (auto& found : own.take()) {
    auto& error = report_.error(found.code, found.at, std::move(found.message));
    error.notes = std::move(found.notes);
    error.instead = std::move(found.instead);
    if (error.instead || pack_.tiers.empty()) continue;
    error.notes = {{tiers_there_are(name.text), {}}};
  }
  return std::nullopt;
}

std::string Resolver::tiers_there_are(std::string_view asked) const {
  std::string out = "tiers are ";
  std::vector<std::string> words;
  for (std::size_t i = 0; i < pack_.tiers.size(); ++i) {
    auto const& within = written_tiers_[i].statement->within;
    words.push_back(
        fmt::format("`{}`", pack_.tiers[i].name) +
        (within ? fmt::format(" (within {} {})", syntax::print_number(within->value), within->unit)
                : ""));
  }
  out += fmt::format("{}", fmt::join(words, ", "));
  std::vector<std::string> parts;
  for (std::size_t at = 0; at < asked.size();) {
    auto const end = std::min(asked.find(' ', at), asked.size());
    parts.push_back(in_small_letters(asked.substr(at, end - at)));
    at = end + 1;
  }
  constexpr std::array<std::string_view, 5> at_once = {"asap", "immediately", "immediate", "urgent",
                                                       "emergency"};
  if (std::find(at_once.begin(), at_once.end(), parts.front()) != at_once.end())
    return out + fmt::format("; the soonest is `{}`", pack_.tiers.front().name);
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
    double count = 0;
    auto const* const end = parts[i].data() + parts[i].size();
    auto const read = std::from_chars(parts[i].data(), end, count, std::chars_format::fixed);
    bool const is_number = parts[i].find_first_not_of("0123456789.") == std::string::npos &&
                           read.ec == std::errc() && read.ptr == end;
    auto unit = find_unit(parts[i + 1]);
    if (auto const meant = meant_unit(parts[i + 1], std::array{Dimension::time}); !unit && meant)
      unit = find_unit(*meant);
    if (!is_number || !unit || unit->dimension != Dimension::time) continue;
    auto const asked_s = convert(count, *unit, *find_unit("seconds"));
    // The last that does not let it wait longer: too soon is the safe side.
    auto const* meant = &pack_.tiers.front();
    for (auto const& tier : pack_.tiers)
      if (tier.within_s <= asked_s) meant = &tier;
    return out + fmt::format("; for {} {} it is `{}`", shown(parts[i]), unit->name, meant->name);
  }
  return out;
}

}  // namespace flinch
