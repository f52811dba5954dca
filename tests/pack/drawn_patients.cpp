#include "pack/drawn_patients.hpp"

#include <algorithm>
#include <set>

namespace flinch::test {
namespace {

// The tests of a condition that is one test or several joined by `or`; nothing for any other.
std::vector<Test const*> alternatives(Condition const& condition) {
  if (condition.kind == Condition::Kind::test) return {&condition.test};
  if (condition.kind != Condition::Kind::any) return {};
  std::vector<Test const*> out;
  for (auto const& part : condition.parts) {
    if (part.kind != Condition::Kind::test) return {};
    out.push_back(&part.test);
  }
  return out;
}

}  // namespace

PatientDrawer::PatientDrawer(Tables const& tables, Chance& chance)
    : tables_(tables), pack_(tables.pack()), assessor_(tables), chance_(chance) {}

std::optional<CauseId> PatientDrawer::draw_cause() {
  auto left = chance_.next();
  for (std::uint32_t cause = 0; cause < pack_.causes.size(); ++cause) {
    left -= tables_.prior(cause);
    if (left < 0) return CauseId{cause};
  }
  return std::nullopt;
}

DrawnPatient PatientDrawer::draw(std::optional<CauseId> truth, double hidden) {
  Answers answers;
  for (auto const& rule : pack_.rules) draw_rule(rule, truth, answers);
  DrawnPatient out{truth, {}};
  for (auto& [sign, answer] : answers)
    if (pack_[sign].of_the_patient || chance_.next() >= hidden)
      out.patient.answers.emplace_back(sign, std::move(answer));
  drop_contradictions(out.patient);
  return out;
}

Case PatientDrawer::typical(CauseId cause, std::function<bool(SignId)> const& allowed) {
  Answers answers;
  for (auto const& rule : pack_.rules) {
    auto const entry = std::find_if(rule.entries.begin(), rule.entries.end(),
                                    [&](RuleEntry const& e) { return e.cause == cause; });
    if (entry == rule.entries.end()) continue;
    std::size_t best = 0;
    for (std::size_t band = 1; band < rule.usual.size(); ++band)
      if (entry->frequencies[band] * rule.usual[best] > entry->frequencies[best] * rule.usual[band])
        best = band;
    if (!rule.condition) {
      if (allowed(rule.over)) settle(rule.bands[best].test, true, answers);
      continue;
    }
    bool const is_true = entry->frequencies.front() > rule.usual.front();
    auto const tests = alternatives(*rule.condition);
    auto const one = std::find_if(tests.begin(), tests.end(),
                                  [&](Test const* test) { return allowed(test->sign); });
    if (one != tests.end()) settle(**one, is_true, answers);
  }
  Case patient;
  for (auto& [sign, answer] : answers) patient.answers.emplace_back(sign, std::move(answer));
  drop_contradictions(patient);
  return patient;
}

void PatientDrawer::draw_rule(Rule const& rule, std::optional<CauseId> truth, Answers& answers) {
  auto const* shares = &rule.usual;
  for (auto const& entry : rule.entries)
    if (truth && entry.cause == *truth) shares = &entry.frequencies;
  if (!rule.condition) return draw_band(rule, *shares, answers);
  auto const tests = alternatives(*rule.condition);
  if (!tests.empty()) draw_tests(tests, shares->front(), answers);
}

void PatientDrawer::draw_tests(std::vector<Test const*> const& tests, double frequency,
                               Answers& answers) {
  bool const is_true = chance_.next() < frequency;
  auto const chosen = chance_.below(tests.size());
  for (std::size_t i = 0; i < tests.size(); ++i) {
    // One of the alternatives holds; of the others nothing is known.
    if (is_true && i != chosen) continue;
    settle(*tests[i], is_true, answers);
  }
}

void PatientDrawer::draw_band(Rule const& rule, std::vector<double> const& shares,
                              Answers& answers) {
  if (answers.count(rule.over) != 0) return;
  auto left = chance_.next();
  std::size_t band = 0;
  while (band + 1 < shares.size() && (left -= shares[band]) >= 0) ++band;
  settle(rule.bands[band].test, true, answers);
}

void PatientDrawer::settle(Test const& test, bool is_true, Answers& answers) {
  auto const& sign = pack_[test.sign];
  if (sign.kind == AnswerKind::sites) return settle_sites(test, is_true, answers);
  if (answers.count(test.sign) != 0 || sign.kind == AnswerKind::breed) return;
  if (sign.kind == AnswerKind::yes_or_no) {
    answers[test.sign] = is_true;
  } else if (sign.kind == AnswerKind::number) {
    auto const low = std::max(test.low, sign.low);
    auto const high = std::min(test.high, sign.high);
    answers[test.sign] = is_true ? (low + high) / 2 : unremarkable(test.sign);
  } else {
    std::vector<std::uint32_t> fitting;
    for (std::uint32_t value = 0; value < sign.values.size(); ++value) {
      bool const is_in = test.kind == Test::Kind::at_least
                             ? value >= test.values.front()
                             : std::count(test.values.begin(), test.values.end(), value) > 0;
      if (is_in == is_true) fitting.push_back(value);
    }
    // What is not so is as usual, and the usual value stands first.
    if (!fitting.empty())
      answers[test.sign] = Choice{is_true ? fitting[chance_.below(fitting.size())] : fitting[0]};
  }
}

// The number that the fewest conditions of the pack remark on.
double PatientDrawer::unremarkable(SignId number) const {
  auto const& sign = pack_[number];
  std::set<double> cuts = {sign.low, sign.high};
  std::vector<Tables::Leaf const*> leaves;
  for (auto const& leaf : tables_.leaves()) {
    if (leaf.sign != number) continue;
    leaves.push_back(&leaf);
    for (auto const end : {leaf.low, leaf.high})
      if (end > sign.low && end < sign.high) cuts.insert(end);
  }
  double quietest = (sign.low + sign.high) / 2;
  auto fewest = leaves.size() + 1;
  for (auto cut = cuts.begin(); std::next(cut) != cuts.end(); ++cut) {
    auto const value = (*cut + *std::next(cut)) / 2;
    auto const remarks =
        static_cast<std::size_t>(std::count_if(leaves.begin(), leaves.end(), [&](auto const* leaf) {
          return value > leaf->low && value < leaf->high;
        }));
    if (remarks < fewest) {
      fewest = remarks;
      quietest = value;
    }
  }
  return quietest;
}

void PatientDrawer::settle_sites(Test const& test, bool is_true, Answers& answers) {
  auto& findings = std::get<Findings>(answers.try_emplace(test.sign, Findings{}).first->second);
  if (findings.clear_everywhere) return;
  if (test.kind != Test::Kind::at_site) {
    findings.found_somewhere = findings.found_somewhere || is_true;
    findings.clear_everywhere = !findings.found_somewhere;
    return;
  }
  auto mark = test.mark;
  auto const overlaps = [&](SiteMark const& other) {
    return tables_.covers(other.site, mark.site) || tables_.covers(mark.site, other.site);
  };
  bool const is_settled = std::any_of(findings.found.begin(), findings.found.end(), overlaps) ||
                          std::any_of(findings.clear.begin(), findings.clear.end(), overlaps);
  if (is_settled) return;
  if (!is_true) {
    findings.clear.push_back(mark);
    return;
  }
  if (mark.side == Side::any && pack_[mark.site].paired)
    mark.side = chance_.below(2) == 0 ? Side::left : Side::right;
  findings.found.push_back(mark);
  findings.found_somewhere = true;
}

// Signs drawn apart may say no to a whole and yes to its part, or yes to what cannot apply.
void PatientDrawer::drop_contradictions(Case& patient) {
  auto const result = assessor_.assess(patient);
  for (auto const& c : result.judgement.contradictions) {
    auto const wrong = c.kind == Contradiction::Kind::part_without_whole ? c.against : c.counted;
    std::erase_if(patient.answers, [&](auto const& answer) { return answer.first == wrong; });
  }
}

}  // namespace flinch::test
