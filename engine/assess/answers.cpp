// From the answers given to everything that is known: what follows by meaning, and what clashes.
#include <algorithm>

#include "assess/evaluate.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch {
namespace {

// The sign that a condition fails by: the first in it whose answer alone makes it false, or `from`
// when it takes several.
template <class TruthOf>
SignId fails_by(Tables const& tables, Tables::Root const& root, SignId from,
                std::vector<Truth>& stack, TruthOf const& truth_of) {
  for (auto const& step : tables.steps(root)) {
    if (step.kind != Tables::Step::Kind::leaf) continue;
    auto const sign = tables.leaves()[step.detail].sign;
    auto const alone = evaluate(tables, root, stack, [&](Tables::Leaf const& leaf) {
      return leaf.sign == sign ? truth_of(leaf) : Truth::unknown;
    });
    if (alone == Truth::no) return sign;
  }
  return from;
}

}  // namespace

Known const* Assessment::find(SignId sign) const {
  auto const found = std::lower_bound(known.begin(), known.end(), sign,
                                      [](Known const& k, SignId s) { return k.sign < s; });
  return found != known.end() && found->sign == sign ? &*found : nullptr;
}

void Assessor::take_answers(Case const& dog) {
  for (auto const& [sign, answer] : dog.answers) learn(sign, answer, Origin::given, sign);
  follow_yes_to_wholes(dog);
  follow_size();
  follow_consequences();
  find_contradictory_sites();
  for (auto const sign : dog.cannot_tell)
    if (known_at_[index(sign)] < 0) out_.cannot_tell.push_back(sign);
  std::sort(out_.cannot_tell.begin(), out_.cannot_tell.end());
  std::sort(out_.known.begin(), out_.known.end(),
            [](Known const& a, Known const& b) { return a.sign < b.sign; });
  for (std::size_t i = 0; i < out_.known.size(); ++i) {
    auto const& known = out_.known[i];
    known_at_[index(known.sign)] = static_cast<std::int32_t>(i);
    bool const is_told = known.origin == Origin::given && !tables_.pack()[known.sign].of_the_dog;
    if (is_told && tables_.moves_ranking(known.sign)) ++out_.counted_answers;
  }
}

void Assessor::learn(SignId sign, Answer answer, Origin origin, SignId from) {
  known_at_[index(sign)] = static_cast<std::int32_t>(out_.known.size());
  out_.known.push_back({sign, std::move(answer), origin, from});
  news_.push_back(sign);
}

// A yes to a part is a yes to the whole, even against a no: the more dangerous answer counts.
void Assessor::follow_yes_to_wholes(Case const& dog) {
  for (auto const& [part, answer] : dog.answers) {
    auto const* yes = std::get_if<bool>(&answer);
    if (yes == nullptr || !*yes) continue;
    for (auto whole = tables_.pack()[part].part_of; whole; whole = tables_.pack()[*whole].part_of) {
      auto const at = known_at_[index(*whole)];
      if (at < 0) {
        learn(*whole, true, Origin::from_part, part);
        continue;
      }
      auto& known = out_.known[static_cast<std::size_t>(at)];
      if (std::get<bool>(known.answer)) continue;
      out_.contradictions.push_back({Contradiction::Kind::part_without_whole, part, *whole});
      known = {*whole, true, Origin::from_part, part};
    }
  }
}

// The size class is the breed's; without one (a crossbreed, an unknown breed) a grown dog's weight
// tells it.
void Assessor::follow_size() {
  if (known_at_[index(dog_sign::size)] >= 0) return;
  auto const& breeds = tables_.pack().breeds;
  auto const known = [&](SignId sign) -> Answer const* {
    auto const at = known_at_[index(sign)];
    return at < 0 ? nullptr : &out_.known[static_cast<std::size_t>(at)].answer;
  };
  if (auto const* breed = known(dog_sign::breed))
    if (auto const size = breeds.breeds[std::get<Choice>(*breed).index].size) {
      learn(dog_sign::size, Choice{static_cast<std::uint32_t>(*size)}, Origin::from_breed,
            dog_sign::breed);
      return;
    }
  auto const* weight = known(dog_sign::weight);
  auto const* age = known(dog_sign::age);
  constexpr double grown_years = 1;
  if (weight == nullptr || age == nullptr || std::get<double>(*age) < grown_years ||
      !breeds.size_by_weight)
    return;
  for (std::uint32_t size = 0; size < breeds.size_by_weight->size(); ++size) {
    auto const& range = (*breeds.size_by_weight)[size];
    auto const kg = std::get<double>(*weight);
    if (kg < range.low_kg || kg >= range.high_kg) continue;
    learn(dog_sign::size, Choice{size}, Origin::from_weight, dog_sign::weight);
    return;
  }
}

// Each sign that became known may settle its parts, and whether other signs apply. Truths only ever
// go from unknown to known, so the order does not matter and the end is one.
void Assessor::follow_consequences() {
  while (!news_.empty()) {
    auto const sign = news_.back();
    news_.pop_back();
    follow_no_to_parts(sign);
    for (auto const root : tables_.roots_of(sign))
      if (tables_.root(root).kind == RootKind::applies) check_applies(root, sign);
  }
}

void Assessor::follow_no_to_parts(SignId sign) {
  auto const& answer = out_.known[static_cast<std::size_t>(known_at_[index(sign)])].answer;
  auto const* yes = std::get_if<bool>(&answer);
  if (yes == nullptr || *yes) return;
  for (auto const part : tables_.parts_of(sign))
    if (known_at_[part] < 0) learn(SignId{part}, false, Origin::from_whole, sign);
}

void Assessor::check_applies(std::uint32_t root, SignId from) {
  if (evaluate(tables_.root(root)) != Truth::no) return;
  from = fails_by(tables_, tables_.root(root), from, stack_,
                  [&](Tables::Leaf const& one) { return leaf(one); });
  SignId const sign{tables_.root(root).subject};
  auto const at = known_at_[index(sign)];
  if (at < 0) {
    auto const kind = tables_.pack()[sign].kind;
    Answer no = false;
    if (kind == AnswerKind::sites) no = Findings{false, true, {}, {}};
    if (kind == AnswerKind::steps) no = Choice{0};
    learn(sign, std::move(no), Origin::inapplicable, from);
    return;
  }
  auto const& known = out_.known[static_cast<std::size_t>(at)];
  auto const* yes = std::get_if<bool>(&known.answer);
  auto const* findings = std::get_if<Findings>(&known.answer);
  auto const* choice = std::get_if<Choice>(&known.answer);
  bool const says_yes = (yes != nullptr && *yes) ||
                        (findings != nullptr && findings->found_somewhere) ||
                        (choice != nullptr && choice->index > 0);
  bool const is_said =
      std::any_of(out_.contradictions.begin(), out_.contradictions.end(), [&](auto const& c) {
        return c.kind == Contradiction::Kind::does_not_apply && c.counted == sign;
      });
  if (says_yes && !is_said)
    out_.contradictions.push_back({Contradiction::Kind::does_not_apply, sign, from});
}

void Assessor::find_contradictory_sites() {
  for (auto const& known : out_.known) {
    auto const* findings = std::get_if<Findings>(&known.answer);
    if (findings == nullptr) continue;
    bool const clash =
        std::any_of(findings->found.begin(), findings->found.end(), [&](SiteMark const& f) {
          return std::any_of(
              findings->clear.begin(), findings->clear.end(), [&](SiteMark const& c) {
                return tables_.covers(c.site, f.site) && (c.side == Side::any || c.side == f.side);
              });
        });
    if (clash)
      out_.contradictions.push_back({Contradiction::Kind::found_and_clear, known.sign, known.sign});
  }
}

}  // namespace flinch
