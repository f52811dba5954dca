#include "assess/known_answers.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

// Answers that nobody gave, and that follow.
Answer const yes = true;
Answer const no = false;
Answer const somewhere = Findings{true, false, {}, {}};
Answer const nowhere = Findings{false, true, {}, {}};
Answer const first_value = Choice{0};

// One a step of `size`.
Answer const& size_answer(std::size_t step) {
  static auto const all = [] {
    constexpr std::uint32_t most_steps = 64;
    std::vector<Answer> out;
    for (std::uint32_t i = 0; i < most_steps; ++i) out.emplace_back(Choice{i});
    return out;
  }();
  return all.at(step);
}

// To a sign that is there or not.
Answer const& plain(Sign const& sign, bool is_there) {
  if (traits(sign).has_places) return is_there ? somewhere : nowhere;
  return is_there ? yes : no;
}

}  // namespace

KnownAnswers::KnownAnswers(Tables const& tables)
    : tables_(tables),
      consequences_(tables),
      cells_(tables.pack().signs.size(), Cells::unknown),
      places_(tables.pack().signs.size()),
      known_(tables.pack().signs.size()),
      outcomes_(tables.inputs().states()),
      stack_(tables.deepest_stack() + 1) {}

std::uint32_t KnownAnswers::run(std::size_t root) {
  return root_outcome(tables_, tables_.root(root), stack_,
                      [&](Tables::Leaf const& leaf) { return truth(leaf); });
}

void KnownAnswers::learn_all(Case const& patient) {
  for (auto const& known : learnt_) cells_[index(known.sign)] = Cells::unknown;
  learnt_.clear();
  contradictions_.clear();
  for (auto const& [sign, answer] : patient.answers) learn(sign, answer, Origin::given, sign);
  neutered_gates_ = !is_never_neutered();
  if (tables_.pack().is_never_neutered && !knows(patient_sign::neutered))
    learn(patient_sign::neutered, no, Origin::inapplicable, patient_sign::neutered);
  follow_yes_to_wholes(patient);
  follow_size();
  follow_consequences();
  find_contradictory_sites();
  find_disputed();
  sort_by_sign();
}

Knowledge KnownAnswers::copied(Case const& patient) const {
  Knowledge out;
  out.known.reserve(learnt_.size());
  for (auto const& [sign, answer, origin, from] : learnt_)
    out.known.push_back({sign, *answer, origin, from});
  for (auto const sign : patient.cannot_tell)
    if (!knows(sign)) out.cannot_tell.push_back(sign);
  std::sort(out.cannot_tell.begin(), out.cannot_tell.end());
  for (auto const& known : learnt_)
    if (is_disputed(known.sign)) out.disputed.push_back(known.sign);
  return out;
}

// Told so, and the pack says that such a one never is: the sex or this may be wrong, so no sign may
// be taken as not there because of it.
bool KnownAnswers::is_never_neutered() const {
  auto const& pack = tables_.pack();
  auto const* neutered = answer(patient_sign::neutered);
  if (neutered == nullptr || *neutered != yes) return false;
  auto const* sex = answer(patient_sign::sex);
  return pack.is_never_neutered || (pack.sex_never_neutered && sex != nullptr &&
                                    *sex == Answer(Choice{*pack.sex_never_neutered}));
}

void KnownAnswers::learn(SignId sign, Answer const& answer, Origin origin, SignId from) {
  cells_[index(sign)] = tables_.cells().cell_of(sign, answer);
  places_[index(sign)] = static_cast<std::uint32_t>(learnt_.size());
  learnt_.push_back({sign, &answer, origin, from});
  known_.add(sign);
  news_.push_back(sign);
}

// A yes to a part is a yes to the whole, even against a no: the more dangerous answer counts. Where
// the whole is, besides, is not told by the part.
void KnownAnswers::follow_yes_to_wholes(Case const& patient) {
  for (auto const& [part, answer] : patient.answers) {
    auto whole = tables_.whole_of(part);
    if (!whole || !says_yes(answer)) continue;
    for (; whole; whole = tables_.whole_of(*whole)) {
      auto const& is_there = plain(tables_.pack()[*whole], true);
      if (!knows(*whole)) {
        learn(*whole, is_there, Origin::from_part, part);
        continue;
      }
      auto& known = learnt_[places_[index(*whole)]];
      if (says_yes(*known.answer)) continue;
      if (says_no(*known.answer))
        contradictions_.push_back({Contradiction::Kind::part_without_whole, part, *whole});
      known = {*whole, &is_there, Origin::from_part, part};
      cells_[index(*whole)] = tables_.cells().cell_of(*whole, is_there);
    }
  }
}

// The size class is the breed's; without one (a crossbreed, an unknown breed) a grown patient's
// weight tells it.
void KnownAnswers::follow_size() {
  if (knows(patient_sign::size)) return;
  auto const& pack = tables_.pack();
  if (auto const* breed = answer(patient_sign::breed))
    if (auto const size = pack.breeds.breeds[std::get<Choice>(*breed).index].size) {
      learn(patient_sign::size, size_answer(*size), Origin::from_breed, patient_sign::breed);
      return;
    }
  auto const* weight = answer(patient_sign::weight);
  auto const* age = answer(patient_sign::age);
  if (weight == nullptr || age == nullptr || std::get<double>(*age) < pack.grown_years ||
      !pack.size_by_weight)
    return;
  for (std::uint32_t size = 0; size < pack.size_by_weight->size(); ++size) {
    auto const& range = (*pack.size_by_weight)[size];
    auto const kg = std::get<double>(*weight);
    if (kg < range.low_kg || kg >= range.high_kg) continue;
    learn(patient_sign::size, size_answer(size), Origin::from_weight, patient_sign::weight);
    return;
  }
}

// Each sign that became known may settle its parts, and whether other signs apply. Truths only ever
// go from unknown to known, so the order does not matter and the end is one.
void KnownAnswers::follow_consequences() {
  while (!news_.empty()) {
    auto const from = news_.back();
    news_.pop_back();
    for (auto const& [kind, sign] : consequences_.of(from, cell(from))) {
      switch (kind) {
        case Consequence::Kind::no_part:
          if (!knows(sign) && says_no(*answer(from)))
            learn(sign, plain(tables_.pack()[sign], false), Origin::from_whole, from);
          break;
        case Consequence::Kind::cannot_apply:
          if (neutered_gates_ || from != patient_sign::neutered) cannot_apply(sign, from);
          break;
        case Consequence::Kind::may_not_apply:
          check_applies(sign, from);
      }
    }
  }
}

void KnownAnswers::check_applies(SignId sign, SignId from) {
  if (knows(sign) && learnt_[places_[index(sign)]].origin == Origin::inapplicable) return;
  auto const root = tables_.applies_root(sign);
  if (truth_of_applying(root) == Truth::no) cannot_apply(sign, fails_by(root, from));
}

Truth KnownAnswers::truth_of_applying(std::size_t root) {
  if (neutered_gates_) return truth_of_outcome(outcome(root));
  return truth_of_outcome(
      root_outcome(tables_, tables_.root(root), stack_, [&](Tables::Leaf const& leaf) {
        return leaf.sign == patient_sign::neutered ? Truth::unknown : truth(leaf);
      }));
}

// The lowest answer there is to it.
void KnownAnswers::cannot_apply(SignId sign, SignId from) {
  if (knows(sign)) {
    find_contradiction(sign, from);
    return;
  }
  auto const& its = tables_.pack()[sign];
  learn(sign, traits(its).has_values ? first_value : plain(its, false), Origin::inapplicable, from);
}

void KnownAnswers::find_contradiction(SignId sign, SignId from) {
  auto const& known = learnt_[places_[index(sign)]];
  if (known.origin == Origin::inapplicable) return;
  bool const is_told =
      std::any_of(contradictions_.begin(), contradictions_.end(), [&](auto const& c) {
        return c.kind == Contradiction::Kind::does_not_apply && c.counted == sign;
      });
  if (is_there(*known.answer) && !is_told)
    contradictions_.push_back({Contradiction::Kind::does_not_apply, sign, from});
}

// The sign that a condition fails by: the first in it whose answer alone makes it false, or `from`
// when it takes several.
SignId KnownAnswers::fails_by(std::size_t root, SignId from) {
  for (auto const& step : tables_.steps(tables_.root(root))) {
    if (step.kind != Tables::Step::Kind::leaf) continue;
    auto const sign = tables_.leaves()[step.detail].sign;
    bool const may_gate = neutered_gates_ || sign != patient_sign::neutered;
    if (may_gate && truth_of_outcome(outcome_by(root, sign)) == Truth::no) return sign;
  }
  return from;
}

// Of a condition if nothing else was known than the answer to this sign.
std::uint32_t KnownAnswers::outcome_by(std::size_t root, SignId sign) {
  auto const run_alone = [&] {
    return root_outcome(tables_, tables_.root(root), stack_, [&](Tables::Leaf const& leaf) {
      return leaf.sign == sign ? truth(leaf) : Truth::unknown;
    });
  };
  auto const inputs = tables_.inputs().of(root);
  auto const its =
      std::find_if(inputs.begin(), inputs.end(), [&](auto const& one) { return one.sign == sign; });
  if (its == inputs.end()) return run_alone();
  auto const cell = cells_[index(sign)];
  if (cell == Cells::unknown) return 0;
  auto& kept = outcomes_[tables_.inputs().first_state(root) + part(*its, cell)];
  if (kept == 0) kept = static_cast<std::uint8_t>(1 + run_alone());
  return kept - 1U;
}

void KnownAnswers::find_contradictory_sites() {
  for (auto const& known : learnt_) {
    auto const* findings = std::get_if<Findings>(known.answer);
    if (findings == nullptr) continue;
    bool const clash =
        std::any_of(findings->found.begin(), findings->found.end(), [&](SiteMark const& f) {
          return std::any_of(
              findings->clear.begin(), findings->clear.end(), [&](SiteMark const& c) {
                return tables_.covers(c.site, f.site) && (c.side == Side::any || c.side == f.side);
              });
        });
    if (clash)
      contradictions_.push_back({Contradiction::Kind::found_and_clear, known.sign, known.sign});
  }
}

// Both sides of each clash, and what follows from them.
void KnownAnswers::find_disputed() {
  if (contradictions_.empty()) return;
  disputed_.assign(cells_.size(), false);
  for (auto const& [kind, counted, against] : contradictions_) {
    disputed_[index(counted)] = disputed_[index(against)] = true;
    if (kind == Contradiction::Kind::does_not_apply)
      visit_gates(counted, [&](SignId gate) { disputed_[index(gate)] = true; });
    if (kind == Contradiction::Kind::part_without_whole) dispute_parts(against);
  }
  for (bool is_more = true; is_more;) {
    is_more = false;
    for (auto const& known : learnt_) {
      if (disputed_[index(known.sign)] || !hangs_on_a_clash(known)) continue;
      disputed_[index(known.sign)] = is_more = true;
    }
  }
}

// Only the first part that was told against the whole is reported.
void KnownAnswers::dispute_parts(SignId whole) {
  for (auto const part : tables_.parts_of(whole)) {
    if (knows(SignId{part}) && says_yes(*answer(SignId{part}))) disputed_[part] = true;
    dispute_parts(SignId{part});
  }
}

// By any way in which an answer may follow: which of several was taken is chance.
bool KnownAnswers::hangs_on_a_clash(Learnt const& known) const {
  auto const is = [&](SignId sign) { return bool(disputed_[index(sign)]); };
  if (known.origin == Origin::given) return false;
  if (known.sign == patient_sign::size)
    return is(patient_sign::breed) || is(patient_sign::age) || is(patient_sign::weight);
  auto const whole = tables_.whole_of(known.sign);
  auto const parts = tables_.parts_of(known.sign);
  bool out = (whole && is(*whole)) ||
             std::any_of(parts.begin(), parts.end(), [&](auto part) { return is(SignId{part}); });
  visit_gates(known.sign, [&](SignId gate) { out = out || is(gate); });
  return out;
}

// The signs that decide whether it applies.
template <class Visit>
void KnownAnswers::visit_gates(SignId sign, Visit const& visit) const {
  if (!tables_.pack()[sign].applies_if) return;
  for (auto const& step : tables_.steps(tables_.root(tables_.applies_root(sign))))
    if (step.kind == Tables::Step::Kind::leaf) visit(tables_.leaves()[step.detail].sign);
}

void KnownAnswers::sort_by_sign() {
  sorted_.clear();
  known_.empty_into([&](SignId sign) {
    auto& place = places_[index(sign)];
    sorted_.push_back(learnt_[place]);
    place = static_cast<std::uint32_t>(sorted_.size()) - 1;
  });
  std::swap(learnt_, sorted_);
}

}  // namespace flinch
