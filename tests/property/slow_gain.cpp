#include "property/slow_gain.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "property/slow_evaluator.hpp"

namespace flinch::test {
namespace {

using Answers = std::map<SignId, Answer>;

// Outcomes in the columns, causes in the rows; rows sum to one.
using Table = std::vector<std::vector<long double>>;

std::vector<long double> row(Pack const& pack, std::vector<double> const& shares) {
  std::vector<long double> out;
  for (auto const share : shares)
    out.push_back(
        std::min<long double>(std::max<long double>(share, pack.hold_low), pack.hold_high));
  if (out.size() == 1) {
    out.push_back(1 - out[0]);
    return out;
  }
  long double sum = 0;
  for (auto const share : out) sum += share;
  for (auto& share : out) share /= sum;
  return out;
}

Table table_of(Pack const& pack, Rule const& rule) {
  Table out(pack.causes.size() + 1, row(pack, rule.usual));
  for (auto const& entry : rule.entries) out[index(entry.cause)] = row(pack, entry.frequencies);
  return out;
}

long double mutual_information(Table const& table, std::vector<long double> const& chance) {
  long double bits = 0;
  for (std::size_t outcome = 0; outcome < table[0].size(); ++outcome) {
    long double mean = 0;
    for (std::size_t c = 0; c < table.size(); ++c) mean += chance[c] * table[c][outcome];
    for (std::size_t c = 0; c < table.size(); ++c) {
      auto const joint = chance[c] * table[c][outcome];
      if (joint > 0) bits += joint * std::log2(joint / (chance[c] * mean));
    }
  }
  return bits;
}

void add_pending(Pack const& pack, Condition const& c, Answers const& answers,
                 std::set<SignId>& out) {
  if (slow_truth(pack, c, answers) != 0) return;
  if (c.kind == Condition::Kind::test) out.insert(c.test.sign);
  if (c.kind == Condition::Kind::meaning)
    add_pending(pack, pack.means[index(c.meaning)].condition, answers, out);
  for (auto const& part : c.parts) add_pending(pack, part, answers, out);
}

}  // namespace

std::map<SignId, double> gains_slowly(Pack const& pack, Case const& patient,
                                      std::vector<long double> const& posteriors) {
  auto const answers = slow_consequences(pack, patient);
  std::map<SignId, double> out;
  for (auto const& rule : pack.rules) {
    std::set<SignId> pending;
    if (rule.condition)
      add_pending(pack, *rule.condition, answers, pending);
    else if (answers.count(rule.over) == 0)
      pending.insert(rule.over);
    if (pending.empty()) continue;
    auto const bits = static_cast<double>(mutual_information(table_of(pack, rule), posteriors)) /
                      static_cast<double>(pending.size());
    for (auto const sign : pending) out[sign] = std::max(out[sign], bits);
  }
  return out;
}

}  // namespace flinch::test
