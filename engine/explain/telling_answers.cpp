#include "explain/telling_answers.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"
#include "flinch/assess/exposure.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/body_weight.hpp"
#include "flinch/model/units.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "model/typical_answers.hpp"

namespace flinch {
namespace {

bool has_sides(Pack const& pack, SiteId site) {
  for (std::optional<SiteId> at = site; at; at = pack[*at].inside)
    if (pack[*at].paired) return true;
  return false;
}

// A sign may be found at its choice of sites, at what lies inside and at what covers part of it.
bool is_choice(Pack const& pack, Sign const& sign, SiteId site) {
  return sign.within.empty() ||
         std::any_of(sign.within.begin(), sign.within.end(), [&](SiteId within) {
           return pack.covers(within, site) || pack.covers(site, within);
         });
}

class TellingChanges {
 public:
  TellingChanges(Tables const& tables, Case const& patient)
      : tables_(tables), pack_(tables.pack()), patient_(patient), leaves_(pack_.signs.size()) {
    for (auto const& leaf : tables.leaves()) leaves_[index(leaf.sign)].push_back(&leaf);
  }

  std::vector<Change> take() {
    for (std::uint32_t i = 0; i < pack_.signs.size(); ++i) {
      SignId const sign{i};
      auto const& s = pack_[sign];
      if (s.of_the_patient) continue;
      told_.clear();
      levels_ = levels_of(sign);
      if (auto const* present = answer_to(sign)) told_.push_back(truths(sign, *present));
      offer_all(sign);
    }
    return std::move(out_);
  }

 private:
  using Truths = std::vector<Truth>;

  [[nodiscard]] bool has_family(SignId sign) const {
    return pack_[sign].part_of || !tables_.parts_of(sign).empty();
  }

  [[nodiscard]] Answer const* answer_to(SignId sign) const {
    for (auto const& [answered, answer] : patient_.answers)
      if (answered == sign) return &answer;
    return nullptr;
  }

  // Of the substances whose amount the sign says.
  [[nodiscard]] std::vector<ToxicLevel> levels_of(SignId sign) const {
    std::vector<ToxicLevel> out;
    for (auto const& care : pack_.care)
      if (care.taken == sign) out.insert(out.end(), care.levels.begin(), care.levels.end());
    return out;
  }
  [[nodiscard]] double reckoned_kg() const {
    return weight_to_reckon_with(pack_.doses, weight_for_amounts(pack_, patient_));
  }

  // Of the tests on the sign, and of the levels that it reaches; and, since that alone can set a
  // tier, whether it is told.
  [[nodiscard]] Truths truths(SignId sign, Answer const& answer) const {
    Truths out;
    for (auto const* leaf : leaves_[index(sign)]) out.push_back(leaf_truth(tables_, *leaf, answer));
    // An amount of 0 of something taken is none that is known.
    if (!levels_.empty()) out.push_back(truth(std::get<double>(answer) > 0));
    for (auto const& level : levels_) {
      auto const mg = convert(std::get<double>(answer), pack_[sign].unit, *find_unit("mg"));
      out.push_back(truth(reaches(mg / reckoned_kg(), level)));
    }
    // No condition need name it: a yes to a part answers the whole, a no to the whole its parts.
    if (has_family(sign))
      out.push_back(says_yes(answer) ? Truth::yes : says_no(answer) ? Truth::no : Truth::unknown);
    out.push_back(truth(tables_.is_told(sign, answer)));
    return out;
  }

  void offer(SignId sign, Answer answer) {
    auto const tells = truths(sign, answer);
    if (std::find(told_.begin(), told_.end(), tells) != told_.end()) return;
    told_.push_back(tells);
    out_.push_back({sign, std::move(answer)});
  }

  void offer_all(SignId sign) {
    auto const& kind = traits(pack_[sign]);
    if (kind.has_places) return offer_sites(sign);
    std::vector<double> limits;
    for (auto const* leaf : leaves_[index(sign)])
      limits.insert(limits.end(), {leaf->low, leaf->high});
    for (auto const& level : levels_)
      limits.push_back(
          convert(level.mg_per_kg * reckoned_kg(), *find_unit("mg"), pack_[sign].unit));
    auto const* present = answer_to(sign);
    for (auto& answer : typical_answers(pack_, sign, std::move(limits)))
      if (!kind.is_plain)
        offer(sign, std::move(answer));
      else if (present == nullptr || *present != answer)
        out_.push_back({sign, std::move(answer)});
  }

  void offer_sites(SignId sign) {
    Findings present;
    if (auto const* answer = answer_to(sign)) present = std::get<Findings>(*answer);
    present.clear_everywhere = false;
    present.found_somewhere = true;
    offer(sign, present);
    for (auto const* leaf : leaves_[index(sign)]) {
      if (leaf->kind != Test::Kind::at_site) continue;
      auto const site = leaf->mark.site;
      if (!is_choice(pack_, pack_[sign], site)) continue;
      offer_found(sign, present, {{site, Side::any}});
      if (!has_sides(pack_, site)) continue;
      offer_found(sign, present, {{site, Side::left}});
      offer_found(sign, present, {{site, Side::right}});
    }
    for (auto const& marks : asked_together(sign)) offer_found(sign, present, marks);
    offer(sign, Findings{false, true, {}, {}});
  }

  // Two sites that one condition asks for, and all of them: "sore at both hips" needs both told.
  [[nodiscard]] std::vector<std::vector<SiteMark>> asked_together(SignId sign) const {
    std::vector<std::vector<SiteMark>> out;
    for (auto const root : tables_.roots_of(sign)) {
      std::vector<SiteMark> marks;
      for (auto const& step : tables_.steps(tables_.root(root))) {
        if (step.kind != Tables::Step::Kind::leaf) continue;
        auto const& leaf = tables_.leaves()[step.detail];
        if (leaf.sign == sign && leaf.kind == Test::Kind::at_site &&
            is_choice(pack_, pack_[sign], leaf.mark.site) &&
            std::find(marks.begin(), marks.end(), leaf.mark) == marks.end())
          marks.push_back(leaf.mark);
      }
      for (std::size_t i = 0; i < marks.size(); ++i)
        for (std::size_t j = i + 1; j < marks.size(); ++j) out.push_back({marks[i], marks[j]});
      if (marks.size() > 2) out.push_back(std::move(marks));
    }
    return out;
  }

  // What was checked and clear cannot stay clear where something is found now.
  void offer_found(SignId sign, Findings findings, std::vector<SiteMark> const& marks) {
    for (auto const& mark : marks) {
      findings.found.push_back(mark);
      std::erase_if(findings.clear, [&](SiteMark const& clear) {
        return pack_.covers(clear.site, mark.site) &&
               (clear.side == Side::any || clear.side == mark.side);
      });
    }
    offer(sign, std::move(findings));
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& patient_;
  std::vector<std::vector<Tables::Leaf const*>> leaves_;
  std::vector<ToxicLevel> levels_;  ///< of the sign in hand
  std::vector<Truths> told_;
  std::vector<Change> out_;
};

}  // namespace

std::vector<Change> telling_changes(Tables const& tables, Case const& patient) {
  return TellingChanges(tables, patient).take();
}

}  // namespace flinch
