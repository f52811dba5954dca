#include "flinch/explain/statements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "flinch/explain/figures.hpp"
#include "flinch/syntax/vocabulary.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

// Places compare equal by design; these are told apart by where they are.
auto where(Place at) { return std::tuple(at.file, at.span.begin); }

// How much speaks for each body region.
using Votes = std::map<std::string, double>;

std::string most_voted(Votes const& votes) {
  auto const best = std::max_element(
      votes.begin(), votes.end(), [](auto const& a, auto const& b) { return a.second < b.second; });
  return best == votes.end() ? "" : best->first;
}

class Regions {
 public:
  explicit Regions(Tables const& tables)
      : tables_(tables),
        pack_(tables.pack()),
        of_rule_(pack_.rules.size()),
        of_sign_(pack_.signs.size()) {
    for (std::uint32_t r = 0; r < pack_.rules.size(); ++r) add_rule(RuleId{r});
  }

  [[nodiscard]] std::string of(RuleId rule) const { return most_voted(of_rule_[index(rule)]); }
  [[nodiscard]] std::string of(SignId sign) const { return most_voted(of_sign_[index(sign)]); }
  [[nodiscard]] std::string of(CauseId cause) const { return body_region(pack_, pack_[cause]); }
  [[nodiscard]] std::string of(Condition const& condition) const {
    Votes votes;
    add(condition, votes);
    return most_voted(votes);
  }
  [[nodiscard]] std::string of(Family const& family) const { return of(family.members); }
  [[nodiscard]] std::string of(Overlap const& overlap) const {
    Votes votes;
    for (auto const rule : overlap.rules) add(of_rule_[index(rule)], votes);
    return most_voted(votes);
  }
  [[nodiscard]] std::string of(Care const& care) const {
    if (!care.causes.empty()) return of(care.causes);
    Votes votes;
    if (care.fit_if) add(*care.fit_if, votes);
    return most_voted(votes);
  }
  [[nodiscard]] std::string of(Example const& example) const {
    using Kind = syntax::Promise::Kind;
    for (auto const& promise : example.promises)
      if (promise.kind == Kind::first || promise.kind == Kind::among)
        return of(CauseId{promise.subject});
    for (auto const& promise : example.promises)
      if (promise.kind == Kind::alarm) return of(pack_.alarms[promise.subject].condition);
    return "";
  }

 private:
  [[nodiscard]] std::string of(std::vector<CauseId> const& causes) const {
    Votes votes;
    for (auto const cause : causes) votes[of(cause)] += 1;
    return most_voted(votes);
  }

  static void add(Votes const& more, Votes& votes) {
    for (auto const& [region, weight] : more) votes[region] += weight;
  }

  void add(Condition const& condition, Votes& votes) const {
    walk_tests(pack_, condition, [&](Condition const& leaf, Polarity) {
      auto const& sign = pack_[leaf.test.sign];
      // Its age or breed says little of where the trouble is.
      if (!sign.of_the_patient) add(of_sign_[index(leaf.test.sign)], votes);
    });
  }

  void add_rule(RuleId id) {
    auto& votes = of_rule_[index(id)];
    for (auto const& entry : tables_.entries(id)) {
      double most = 0;
      for (std::uint32_t band = 0; band < tables_.outcomes(id); ++band)
        most = std::max(most, tables_.weight(entry, band));
      votes[of(entry.cause)] += most;
    }
    auto const& rule = pack_[id];
    if (!rule.condition) return add(votes, of_sign_[index(rule.over)]);
    walk_tests(pack_, *rule.condition, [&](Condition const& leaf, Polarity) {
      add(votes, of_sign_[index(leaf.test.sign)]);
    });
  }

  Tables const& tables_;
  Pack const& pack_;
  std::vector<Votes> of_rule_;
  std::vector<Votes> of_sign_;
};

class Collection {
 public:
  explicit Collection(Tables const& tables)
      : pack_(tables.pack()), regions_(tables), strength_(pack_.rules.size()) {
    for (auto const& reading : pack_.readings) {
      auto& [stands, stale] = readings_[where(reading.statement)];
      (reading.state == ReadingState::stands ? stands : stale) = &reading;
    }
    for (auto const& clue : strong_clues(pack_)) {
      auto& most = strength_[index(clue.rule)];
      most = std::max(most, clue.ratio);
    }
  }

  std::vector<PackStatement> take() {
    heavy();
    rest();
    // Floors and alarms share a list; within each weight the heaviest come first.
    std::stable_sort(out_.begin(), out_.end(), [](auto const& a, auto const& b) {
      return std::tuple(a.first.weight, a.second) < std::tuple(b.first.weight, b.second);
    });
    std::vector<PackStatement> out;
    out.reserve(out_.size());
    for (auto& [statement, order] : out_) out.push_back(std::move(statement));
    return out;
  }

 private:
  // `order`: within one weight the smallest comes first.
  template <class T>
  void add(StatementKind kind, std::size_t index, T const& thing, std::string title,
           std::string region, StatementWeight weight = StatementWeight::rest, double order = 0) {
    PackStatement out{kind,       static_cast<std::uint32_t>(index),
                      thing.name, std::move(title),
                      weight,     std::move(region),
                      thing.at};
    if (auto const found = readings_.find(where(thing.at)); found != readings_.end()) {
      out.read = found->second.first;
      if (out.read == nullptr) out.stale = found->second.second;
    }
    out_.push_back({std::move(out), order});
  }

  [[nodiscard]] std::optional<double> floor_tier(std::uint32_t sign) const {
    std::optional<double> out;
    for (auto const& alarm : pack_.alarms)
      if (alarm.floor_of == SignId{sign}) {
        auto const tier = static_cast<double>(index(alarm.see));
        out = out ? std::min(*out, tier) : tier;
      }
    return out;
  }

  static bool has_amount(Care const& care) {
    return care.give || care.at_most || !care.levels.empty();
  }

  void heavy() {
    using W = StatementWeight;
    for (std::size_t i = 0; i < pack_.alarms.size(); ++i) {
      auto const& alarm = pack_.alarms[i];
      if (!alarm.floor_of)
        add(StatementKind::alarm, i, alarm, alarm.title, regions_.of(alarm.condition), W::alarm,
            static_cast<double>(index(alarm.see)));
    }
    for (std::size_t i = 0; i < pack_.tiers.size(); ++i)
      add(StatementKind::tier, i, pack_.tiers[i], pack_.tiers[i].title, "");
    for (std::size_t i = 0; i < pack_.care.size(); ++i) {
      auto const& care = pack_.care[i];
      add(StatementKind::care, i, care, care.title, regions_.of(care),
          has_amount(care) ? W::dose : W::rest);
    }
    for (std::uint32_t i = 0; i < pack_.signs.size(); ++i) {
      auto const& sign = pack_.signs[i];
      if (sign.of_the_patient) continue;
      auto const tier = floor_tier(i);
      add(StatementKind::sign, i, sign, sign.label, regions_.of(SignId{i}),
          tier ? W::floor : W::rest, tier.value_or(0));
    }
    for (std::uint32_t i = 0; i < pack_.rules.size(); ++i) {
      auto const strength = strength_[i];
      add(StatementKind::rule, i, pack_.rules[i], pack_.rules[i].title, regions_.of(RuleId{i}),
          strength > 0 ? W::strong_judgement : W::rest, -strength);
    }
  }

  void rest() {
    for (std::uint32_t i = 0; i < pack_.causes.size(); ++i)
      add(StatementKind::cause, i, pack_.causes[i], pack_.causes[i].title, regions_.of(CauseId{i}));
    for (std::size_t i = 0; i < pack_.means.size(); ++i)
      add(StatementKind::means, i, pack_.means[i], pack_.means[i].title,
          regions_.of(pack_.means[i].condition));
    for (std::size_t i = 0; i < pack_.families.size(); ++i)
      add(StatementKind::family, i, pack_.families[i], pack_.families[i].title,
          regions_.of(pack_.families[i]));
    for (std::size_t i = 0; i < pack_.overlaps.size(); ++i)
      add(StatementKind::overlap, i, pack_.overlaps[i], pack_.overlaps[i].name,
          regions_.of(pack_.overlaps[i]));
    for (std::size_t i = 0; i < pack_.examples.size(); ++i)
      add(StatementKind::example, i, pack_.examples[i], pack_.examples[i].title,
          regions_.of(pack_.examples[i]));
    add(StatementKind::pack, 0, pack_, pack_.title, "");
    for (std::size_t i = 0; i < pack_.sites.size(); ++i)
      add(StatementKind::site, i, pack_.sites[i], pack_.sites[i].title, "");
    for (std::size_t i = pack_.breeds.groups.size(); i < pack_.groups.size(); ++i)
      add(StatementKind::breeds, i, Group{pack_.groups[i]}, pack_.groups[i].title, "");
    for (std::size_t i = 0; i < pack_.sources.size(); ++i)
      add(StatementKind::source, i, pack_.sources[i], pack_.sources[i].text, "");
  }

  struct Group {
    explicit Group(BreedGroup const& group) : name(group.key), at(group.at) {}
    std::string name;
    Place at;
  };

  Pack const& pack_;
  Regions regions_;
  std::vector<double> strength_;  // of each rule: its largest judged ratio beyond the limits
  std::map<std::tuple<FileId, std::uint32_t>, std::pair<Reading const*, Reading const*>> readings_;
  std::vector<std::pair<PackStatement, double>> out_;
};

}  // namespace

std::string_view keyword(StatementKind kind) {
  // `include` comes before all that can be read.
  return syntax::statement_words().at(1 + static_cast<std::size_t>(kind)).keyword;
}

std::string_view heading(StatementWeight weight) {
  constexpr std::array<std::string_view, statement_weights> words = {
      "Alarms", "Floors of signs", "Doses", "Strong judgements", "The rest"};
  return words.at(static_cast<std::size_t>(weight));
}

std::vector<PackStatement> statements_by_weight(Tables const& tables) {
  return Collection(tables).take();
}

ReadCounts count_read(Pack const& pack) {
  std::map<std::tuple<FileId, std::uint32_t>, ReadingState> best;
  for (auto const& reading : pack.readings) {
    auto const [at, is_new] = best.emplace(where(reading.statement), reading.state);
    if (!is_new) at->second = std::min(at->second, reading.state);
  }
  ReadCounts out;
  out.statements = pack.statements;
  for (auto const& [statement, state] : best)
    ++(state == ReadingState::stands    ? out.read
       : state == ReadingState::changed ? out.changed
                                        : out.unmarked);
  return out;
}

std::string reading_text(Pack const& pack, Place statement) {
  std::string read;
  std::string stale;
  for (auto const& reading : pack.readings) {
    if (where(reading.statement) != where(statement)) continue;
    if (reading.state == ReadingState::stands)
      read += fmt::format("{}{} on {}", read.empty() ? "Read by " : ", by ", reading.reader,
                          reading.on);
    else if (reading.state == ReadingState::changed)
      stale = fmt::format("Changed since {} read it on {}", reading.reader, reading.on);
    else
      stale = fmt::format("Nobody can tell which words {} read on {}", reading.reader, reading.on);
  }
  if (!read.empty()) return read + ".";
  return stale.empty() ? "Not read by a licensed vet." : stale + ": counts as unread.";
}

std::string read_sentence(Pack const& pack) {
  auto const counts = count_read(pack);
  auto out = counts.read == 0
                 ? std::string("No statement of this pack has been read by a licensed vet.")
             : counts.read == counts.statements
                 ? fmt::format("A licensed vet has read each of the {} statements of this pack.",
                               counts.statements)
                 : fmt::format("A licensed vet has read {} of the {} statements of this pack.",
                               counts.read, counts.statements);
  if (counts.changed > 0) out += fmt::format(" Changed since it was read: {}.", counts.changed);
  return out;
}

}  // namespace flinch
