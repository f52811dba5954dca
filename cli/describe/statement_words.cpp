#include "describe/statement_words.hpp"

#include <fmt/format.h>

#include <array>

#include "flinch/explain/condition.hpp"
#include "flinch/explain/figures.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/telling/care_words.hpp"

namespace flinch::cli {
namespace {

template <class T, class Words>
std::string joined(std::vector<T> const& things, Words const& words,
                   std::string_view between = ", ") {
  std::string out;
  for (auto const& thing : things) {
    if (!out.empty()) out += between;
    out += words(thing);
  }
  return out;
}

class StatementWords {
 public:
  explicit StatementWords(Pack const& pack) : pack_(pack) {}

  std::vector<StatementPart> of(PackStatement const& statement) {
    auto const i = statement.index;
    switch (statement.kind) {
      case StatementKind::pack:
        write_pack();
        break;
      case StatementKind::source:
        write(pack_.sources[i]);
        break;
      case StatementKind::tier:
        write(pack_.tiers[i]);
        break;
      case StatementKind::site:
        write(pack_.sites[i]);
        break;
      case StatementKind::breeds:
        write_group(i);
        break;
      case StatementKind::sign:
        write(SignId{i});
        break;
      case StatementKind::means:
        part("Means", condition_text(pack_, pack_.means[i].condition));
        break;
      case StatementKind::cause:
        write(pack_.causes[i]);
        break;
      case StatementKind::family:
        part("Look alike",
             joined(pack_.families[i].members, [&](CauseId cause) { return pack_[cause].title; }));
        break;
      case StatementKind::rule:
        write(pack_.rules[i]);
        break;
      case StatementKind::alarm:
        write(pack_.alarms[i]);
        break;
      case StatementKind::overlap:
        write(pack_.overlaps[i]);
        break;
      case StatementKind::care:
        write(pack_.care[i]);
        break;
      case StatementKind::example:
        write(pack_.examples[i]);
        break;
    }
    return std::move(out_);
  }

 private:
  void part(std::string label, std::string words) {
    if (!words.empty()) out_.push_back({std::move(label), std::move(words)});
  }

  [[nodiscard]] std::string source_words(SourceId id) const {
    auto const& source = pack_[id];
    auto out = source.text;
    if (!source.doi.empty()) out += " doi:" + source.doi;
    constexpr std::array read = {"in full", "in the abstract", "as quoted by another text",
                                 "from memory"};
    if (source.read)
      out +=
          fmt::format(" [its citer read it {}]", read.at(static_cast<std::size_t>(*source.read)));
    return out;
  }

  void rationale(std::string const& because, std::vector<SourceId> const& cites) {
    part("Why", because);
    for (auto const source : cites) part("Source", source_words(source));
  }

  [[nodiscard]] std::string figure(std::vector<double> const& shares,
                                   std::optional<double> sample_size,
                                   std::optional<SourceId> source) const {
    auto out = joined(
        shares, [](double share) { return fmt::format("{:.4g}", 100 * share); }, " / ");
    out += " %";
    switch (backing(sample_size, source)) {
      case Backing::counted:
        return out + fmt::format(" (counted in {:.0f}: {})", *sample_size, pack_[*source].name);
      case Backing::derived:
        return out + fmt::format(" (derived from {})", pack_[*source].name);
      case Backing::judged:
        break;
    }
    return out + " (judged)";
  }

  void write_pack() {
    part("Version", pack_.version);
    part("None of the listed causes", fmt::format("{:.4g} per 1000", 1000 * pack_.unlisted));
    part("Frequencies are held",
         fmt::format("within {:.4g} % and {:.4g} %", 100 * pack_.hold_low, 100 * pack_.hold_high));
  }

  void write(Reference const& source) {
    part("Text", source.text);
    part("doi", source.doi);
    part("Address", source.url);
    part("Grade", source.grade);
    constexpr std::array read = {"in full", "in the abstract", "as quoted by another text",
                                 "from memory"};
    if (source.read) part("Its citer read it", read.at(static_cast<std::size_t>(*source.read)));
  }

  void write(Tier const& tier) {
    part("Seen within", time_words(tier.within_s));
    if (tier.harm)
      part("Harm", fmt::format("one missed case weighs as much as {:g} false alarms", *tier.harm));
    part("Say", tier.say);
  }

  void write(Site const& site) {
    if (site.inside) part("Inside", pack_[*site.inside].title);
    part("Sides", site.paired ? "left and right" : "");
    part("Also called", joined(site.also_called, [](std::string const& words) { return words; }));
  }

  void write_group(std::uint32_t group) {
    part("Breeds", joined(pack_.group_breeds[group],
                          [&](std::uint32_t breed) { return pack_.breeds.breeds[breed].name; }));
  }

  void write(SignId id) {
    auto const& sign = pack_[id];
    part("Ask", sign.ask);
    part("Help", sign.help);
    part("Answers", joined(sign.values, [](Value const& value) { return value.label; }));
    if (traits(sign).is_number)
      part("Believable", fmt::format("{:g} to {:g} {}", sign.low, sign.high, sign.unit.name));
    if (sign.part_of) part("Part of", pack_[*sign.part_of].label);
    if (sign.applies_if) part("Applies only if", condition_text(pack_, *sign.applies_if));
    for (auto const& alarm : pack_.alarms) {
      if (alarm.floor_of != id) continue;
      part("With this and nothing else",
           fmt::format("{} ({})", pack_[alarm.see].title, condition_text(pack_, alarm.trigger())));
      if (auto const* unless = alarm.unless())
        part("Unless it is known that", condition_text(pack_, *unless));
      rationale(alarm.because, alarm.cites);
    }
    part("Also said", joined(sign.also_said, [](std::string const& words) { return words; }));
    if (sign.mentioned) part("Told unasked by", fmt::format("{:.4g} %", 100 * *sign.mentioned));
  }

  void write(Cause const& cause) {
    part("Also called", joined(cause.also_called, [](std::string const& words) { return words; }));
    part("Affects", joined(cause.affects, [&](SiteId site) { return pack_[site].title; }));
    part("How common",
         fmt::format("{:.4g} of 1000 that come because of suspected pain", 1000 * cause.base));
    part("Needs", pack_[cause.see].title);
    part("Pain", cause.not_pain ? "none, though it looks like it" : "");
    for (auto const& next : cause.next) part("Next", next);
    rationale(cause.because, cause.cites);
  }

  void write(Rule const& rule) {
    if (rule.condition)
      part("When", condition_text(pack_, *rule.condition));
    else
      part(pack_[rule.over].label, joined(
                                       rule.bands, [](Band const& b) { return b.text; }, " / "));
    for (auto const& entry : rule.entries)
      part(fmt::format(
               "With {}{}", pack_[entry.cause].title,
               entry.family ? fmt::format(" (as one of: {})", pack_[*entry.family].title) : ""),
           figure(entry.frequencies, entry.sample_size, entry.source));
    part("Usually", figure(rule.usual, rule.usual_sample_size, rule.usual_source));
    rationale(rule.because, rule.cites);
  }

  void write(Alarm const& alarm) {
    part("When", condition_text(pack_, alarm.trigger()));
    if (auto const* unless = alarm.unless())
      part("Unless it is known that", condition_text(pack_, *unless));
    part("Then", pack_[alarm.see].title);
    part("Say", alarm.say);
    rationale(alarm.because, alarm.cites);
  }

  void write(Overlap const& overlap) {
    part("Say the same in part",
         joined(
             overlap.rules, [&](RuleId rule) { return pack_[rule].title; }, "; "));
    part("Each weaker one counts", fmt::format("{:.4g} % of the one before", 100 * overlap.share));
  }

  void gates(std::string const& label, std::vector<CareGate> const& all) {
    for (auto const& gate : all)
      part(label,
           condition_text(pack_, gate.condition) + (gate.reason.empty() ? "" : ": " + gate.reason));
  }

  void write(Care const& care) {
    part("For the clinician",
         care.for_clinician ? (care.problem.empty() ? "yes" : care.problem) : "");
    part("For a cause", told_where_text(pack_, care));
    if (care.give) part("Give", syntax::print(*care.give));
    if (care.at_most)
      part("At most", fmt::format("{:g} {}", care.at_most->value, care.at_most->unit));
    part("Comes as",
         joined(
             care.forms, [](syntax::Form const& form) { return syntax::print(form); }, "; "));
    part("By mouth", care.by_mouth ? "yes" : "");
    part("How", care.how);
    part("Say", care.say);
    part("Avoid", care.avoid);
    part("Watch", care.watch);
    for (auto const& level : care.levels)
      part(fmt::format("From {:g} mg per kg taken", level.mg_per_kg),
           level.harm + (level.see ? ": " + pack_[*level.see].title : ""));
    part("First aid", care.first_aid ? "does not wait at the top tier" : "");
    part("Meanwhile", care.while_waiting ? "goes on while the patient waits to be seen" : "");
    if (care.fit_if) part("Fits if", condition_text(pack_, *care.fit_if));
    gates("Never if", care.never_if);
    gates("Ask the vet if", care.ask_vet_if);
    gates("Stop if", care.stop_if);
    part("Grade", grade_words(care.grade));
    rationale(care.because, care.cites);
  }

  void write(Example const& example) {
    part("Patient", joined(
                        example.patient.answers,
                        [&](auto const& answer) {
                          return fmt::format("{}: {}", pack_[answer.first].label,
                                             answer_text(pack_, answer.first, answer.second));
                        },
                        "; "));
    part("Promised", joined(example.promises, [](Promise const& p) { return p.text; }));
  }

  Pack const& pack_;
  std::vector<StatementPart> out_;
};

}  // namespace

std::vector<StatementPart> statement_words(Pack const& pack, PackStatement const& statement) {
  return StatementWords(pack).of(statement);
}

}  // namespace flinch::cli
