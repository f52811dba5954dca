// Overlaps and figures that change nothing, questions asked twice, judged figures that weigh much.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "flinch/explain/figures.hpp"
#include "flinch/proofread/proofread.hpp"
#include "model/walk.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

class OddFigures {
 public:
  OddFigures(Tables const& tables, Remarks& remarks)
      : tables_(tables), pack_(tables.pack()), remarks_(remarks) {}

  void find() {
    for (auto const& overlap : pack_.overlaps) look(overlap);
    for (std::uint32_t i = 0; i < pack_.rules.size(); ++i) look(RuleId{i});
    find_doubled_questions();
  }

 private:
  void look(Overlap const& overlap) {
    std::map<CauseId, std::size_t> named;
    for (auto const rule : overlap.rules)
      for (auto const& entry : pack_[rule].entries) ++named[entry.cause];
    for (auto const rule : overlap.rules) {
      auto const& entries = pack_[rule].entries;
      bool const shares = std::any_of(entries.begin(), entries.end(),
                                      [&](auto const& entry) { return named[entry.cause] > 1; });
      if (shares) continue;
      remarks_.add(Code::idle_overlap, overlap.at, {overlap.at, pack_[rule].at},
                   fmt::format("rule `{}` shares no cause with the others of overlap `{}`",
                               pack_[rule].name, overlap.name),
                   "an overlap works within a cause, so nothing is shared",
                   "take the rule out of the overlap");
    }
  }

  void look(RuleId id) {
    auto const& rule = pack_[id];
    look_at_extremes(rule);
    bool const is_swapped = seems_swapped(rule);
    if (is_swapped) {
      bool const is_all = count_not_higher(rule, Equal::no) == rule.entries.size();
      remarks_.add(
          Code::swapped_figures, rule.at, {rule.at},
          fmt::format("rule `{}` speaks {} that it names: `usual` is {}", rule.name,
                      is_all ? "against every cause" : "for no cause",
                      is_all ? "higher than each figure behind `in`"
                             : "as high as the highest figure behind `in`"),
          "`usual` is how often it is so in patients with none of these causes, `in` how "
          "often with the cause",
          "change the two over if they have changed places; name the causes it speaks for");
    }
    double strongest = 0;
    std::vector<RuleEntry const*> strong;
    RuleEntry const* first = nullptr;
    for (std::size_t i = 0; i < rule.entries.size(); ++i) {
      auto const& entry = rule.entries[i];
      auto const weight = largest_weight(id, i);
      if (i > 0 && entry.family && rule.entries[i - 1].family == entry.family)
        continue;  // one figure for all of a family
      auto const& name = entry.family ? pack_[*entry.family].name : pack_[entry.cause].name;
      // Where `usual` is to blame, its figure is the one to mend.
      if (weight == 0 && !is_swapped)
        remarks_.add(
            Code::idle_figure, entry.at, {rule.at},
            fmt::format("the frequency of rule `{}` in `{}` is the usual one", rule.name, name),
            "a cause that is not named has it as well, so the figure says nothing",
            "take the cause out of the rule");
      if (backing(entry) != Backing::judged || weight <= std::log(strong_factor)) continue;
      strong.push_back(&entry);
      if (weight > strongest) first = &entry;
      strongest = std::max(strongest, weight);
    }
    if (strong.empty()) return;
    std::string names;
    for (auto const* entry : strong)
      names += fmt::format("{}`{}`", names.empty() ? "" : ", ",
                           entry->family ? pack_[*entry->family].name : pack_[entry->cause].name);
    remarks_.add(
        Code::strong_judgement, first->at, {rule.at},
        fmt::format("rule `{}` moves {} {:.0f}-fold by judgement alone", rule.name, names,
                    std::exp(strongest)),
        fmt::format("nobody has counted it, and beyond {:.0f}-fold one answer makes an even "
                    "chance of one in a hundred",
                    strong_factor),
        "find a source for the figures, or bring them nearer together");
  }

  // Judged to be always so, or never.
  void look_at_extremes(Rule const& rule) {
    auto const is_extreme = [](std::vector<double> const& figures) {
      return figures.size() == 1 && (figures.front() <= 0 || figures.front() >= 1);
    };
    std::vector<std::string> named;
    if (is_extreme(rule.usual) &&
        backing(rule.usual_sample_size, rule.usual_source) == Backing::judged)
      named.emplace_back("`usual`");
    FamilyId const* family = nullptr;
    for (auto const& entry : rule.entries) {
      bool const is_told = entry.family && family != nullptr && *entry.family == *family;
      family = entry.family ? &*entry.family : nullptr;
      if (is_told || !is_extreme(entry.frequencies) || backing(entry) != Backing::judged) continue;
      named.push_back(
          fmt::format("`{}`", entry.family ? pack_[*entry.family].name : pack_[entry.cause].name));
    }
    if (named.empty()) return;
    remarks_.add(Code::absolute_judgement, rule.at, {rule.at},
                 fmt::format("rule `{}` judges that it is always so, or never: {}", rule.name,
                             fmt::join(named, ", ")),
                 "nobody has seen all of them; `hold` cuts such a figure anyway",
                 "write what a hundred of them would show, such as 97% or 1%");
  }

  // A finding is named for the causes that it speaks for; what is usual, a `not` or a first step,
  // may speak against all.
  [[nodiscard]] bool seems_swapped(Rule const& rule) const {
    if (!rule.condition || rule.usual.empty()) return false;
    bool is_finding = true;
    walk_tests(pack_, *rule.condition, [&](Condition const& leaf, Polarity polarity) {
      auto const& sign = pack_[leaf.test.sign];
      bool const is_usual = traits(sign).has_order && leaf.test.kind == Test::Kind::is_value &&
                            leaf.test.values.front() == 0;
      bool const is_there = traits(sign).takes_yes_or_no || (traits(sign).has_order && !is_usual);
      is_finding = is_finding && is_there && polarity == Polarity::positive && !sign.of_the_patient;
    });
    return is_finding && count_not_higher(rule, Equal::yes) == rule.entries.size() &&
           count_not_higher(rule, Equal::no) > 0;
  }

  enum class Equal { no, yes };

  // Of how many causes the figure is below `usual`, or as high.
  [[nodiscard]] static std::size_t count_not_higher(Rule const& rule, Equal equal) {
    return static_cast<std::size_t>(
        std::count_if(rule.entries.begin(), rule.entries.end(), [&](RuleEntry const& entry) {
          if (entry.frequencies.empty()) return false;
          auto const figure = entry.frequencies.front();
          return figure < rule.usual.front() ||
                 (equal == Equal::yes && figure == rule.usual.front());
        }));
  }

  // The largest weight, for or against, that any outcome of the rule gives the cause.
  [[nodiscard]] double largest_weight(RuleId id, std::size_t entry) const {
    auto const& rule = pack_[id];
    auto const outcomes = rule.condition ? 2 : rule.bands.size();
    double out = 0;
    for (std::uint32_t outcome = 0; outcome < outcomes; ++outcome)
      out = std::max(out, std::abs(tables_.weight(tables_.entries(id)[entry], outcome)));
    return out;
  }

  void find_doubled_questions() {
    std::map<std::string_view, Sign const*> asked;
    for (auto const& sign : pack_.signs) {
      if (sign.of_the_patient) continue;
      auto const [before, is_new] = asked.emplace(sign.ask, &sign);
      if (is_new) continue;
      remarks_
          .add(Code::asked_twice, sign.at, {sign.at, before->second->at},
               fmt::format("`{}` asks the same as `{}`, word for word", sign.name,
                           before->second->name),
               "a caller who is asked twice answers otherwise, and both answers count",
               "word the questions apart, or make one sign of them")
          .notes.push_back({"first asked here", before->second->at});
    }
  }

  Tables const& tables_;
  Pack const& pack_;
  Remarks& remarks_;
};

}  // namespace

void find_odd_figures(Tables const& tables, Remarks& remarks) {
  OddFigures(tables, remarks).find();
}

}  // namespace flinch
