#include "flinch/assess/tables.hpp"

#include <algorithm>
#include <cmath>

#include "assess/clusters.hpp"
#include "assess/inputs.hpp"
#include "model/told.hpp"

namespace flinch {
namespace {

// Lists of lists as one list, and where each begins.
template <class T>
void flatten(std::vector<std::vector<T>> const& lists, std::vector<T>& all,
             std::vector<std::uint32_t>& rows) {
  rows.push_back(0);
  for (auto const& list : lists) {
    all.insert(all.end(), list.begin(), list.end());
    rows.push_back(static_cast<std::uint32_t>(all.size()));
  }
}

}  // namespace

Tables::Tables(std::shared_ptr<Pack const> pack, Silence silence) : pack_(std::move(pack)) {
  for (std::uint32_t i = 0; i < pack_->rules.size(); ++i) {
    if (pack_->rules[i].condition)
      add_root(RootKind::rule, i, *pack_->rules[i].condition);
    else
      add_banded_root(i);
  }
  first_alarm_ = roots_.size();
  for (std::uint32_t i = 0; i < pack_->alarms.size(); ++i) add_alarm_root(i);
  for (std::uint32_t i = 0; i < pack_->signs.size(); ++i)
    if (pack_->signs[i].applies_if) add_root(RootKind::applies, i, *pack_->signs[i].applies_if);
  add_substances();
  index_signs();
  set_tiers();
  if (silence == Silence::counts) find_unmentioned();
  weigh_rules();
  set_priors();
  cover_sites();
  cells_ = std::make_shared<Cells>(*this, leaves_);
  inputs_ = std::make_shared<Inputs>(*this, *cells_);
  clusters_ = std::make_shared<Clusters>(*this, *cells_);
  told_ = std::make_shared<Told>(*pack_);
}

bool Tables::is_told(SignId sign, Answer const& answer) const { return (*told_)(sign, answer); }

void Tables::add_root(RootKind kind, std::uint32_t subject, Condition const& condition) {
  auto const first = static_cast<std::uint32_t>(steps_.size());
  emit(condition, 1);
  auto const count = static_cast<std::uint32_t>(steps_.size()) - first;
  roots_.push_back({kind, false, subject, first, count, count});
}

// What sets it off comes first.
void Tables::add_alarm_root(std::uint32_t alarm) {
  auto const& its = pack_->alarms[alarm];
  auto const first = static_cast<std::uint32_t>(steps_.size());
  auto const count = [&] { return static_cast<std::uint32_t>(steps_.size()) - first; };
  emit(its.trigger(), 1);
  auto const of_trigger = count();
  if (its.unless() != nullptr) {
    emit(its.condition.parts.back(), 2);
    steps_.push_back({Step::Kind::at_least, 2, needed_parts(its.condition)});
  }
  roots_.push_back({RootKind::alarm, false, alarm, first, count(), of_trigger});
}

void Tables::add_banded_root(std::uint32_t rule) {
  auto const first = static_cast<std::uint32_t>(steps_.size());
  for (auto const& band : pack_->rules[rule].bands)
    steps_.push_back({Step::Kind::leaf, 0, add_leaf(band.test)});
  auto const count = static_cast<std::uint32_t>(steps_.size()) - first;
  roots_.push_back({RootKind::rule, true, rule, first, count, count});
}

// Postfix: the parts first, then what joins them. `depth` is the height of the stack afterwards.
void Tables::emit(Condition const& condition, std::size_t depth, bool is_below_unless) {
  deepest_stack_ = std::max(deepest_stack_, depth);
  switch (condition.kind) {
    case Condition::Kind::test:
      steps_.push_back({Step::Kind::leaf, 0, add_leaf(condition.test, is_below_unless)});
      return;
    case Condition::Kind::meaning:
      emit((*pack_)[condition.meaning].condition, depth, is_below_unless);
      return;
    default:
      break;
  }
  bool const is_below = is_below_unless || condition.kind == Condition::Kind::unless;
  for (std::size_t i = 0; i < condition.parts.size(); ++i)
    emit(condition.parts[i], depth + i, is_below);
  auto const parts = static_cast<std::uint32_t>(condition.parts.size());
  auto const kind = condition.kind == Condition::Kind::negation ? Step::Kind::negation
                    : condition.kind == Condition::Kind::unless ? Step::Kind::unless
                                                                : Step::Kind::at_least;
  steps_.push_back({kind, parts, needed_parts(condition)});
}

Tables::Leaf Tables::leaf_of(Test const& test) {
  Leaf leaf;
  leaf.kind = test.kind;
  leaf.sign = test.sign;
  leaf.mark = test.mark;
  leaf.low = test.low;
  leaf.high = test.high;
  leaf.low_included = test.low_included;
  leaf.high_included = test.high_included;
  leaf.group = static_cast<std::uint32_t>(index(test.group));
  for (auto const value : test.values) leaf.values |= std::uint64_t{1} << value;
  // `at least` takes the step and all beyond it.
  if (test.kind == Test::Kind::at_least) leaf.values = ~std::uint64_t{0} << test.values.front();
  return leaf;
}

std::uint32_t Tables::add_leaf(Test const& test, bool is_below_unless) {
  leaves_.push_back(leaf_of(test));
  leaves_.back().is_below_unless = is_below_unless;
  return static_cast<std::uint32_t>(leaves_.size() - 1);
}

void Tables::add_substances() {
  auto const add_sign = [&](SignId sign) {
    bool const is_new =
        std::find(signs_of_taken_.begin(), signs_of_taken_.end(), sign) == signs_of_taken_.end();
    if (is_new && index(sign) >= patient_sign::count) signs_of_taken_.push_back(sign);
  };
  auto const raise = [](std::optional<TierId>& to, std::optional<TierId> see) {
    if (see && (!to || *see < *to)) to = see;
  };
  for (std::uint32_t i = 0; i < pack_->care.size(); ++i) {
    auto const& care = pack_->care[i];
    if (!care.taken) continue;
    Substance out{i, {}, {}};
    for (auto const& level : care.levels) raise(out.see, level.see);
    raise(highest_of_taken_, out.see);
    if (care.fit_if) {
      out.root = static_cast<std::uint32_t>(roots_.size());
      add_root(RootKind::taken, i, *care.fit_if);
      for (auto const& step : steps(roots_.back()))
        if (step.kind == Step::Kind::leaf)
          for (std::optional part = leaves_[step.detail].sign; part; part = (*pack_)[*part].part_of)
            add_sign(*part);
    }
    add_sign(*care.taken);
    substances_.push_back(out);
  }
}

void Tables::index_signs() {
  auto const signs = pack_->signs.size();
  std::vector<std::vector<std::uint32_t>> roots(signs);
  std::vector<std::vector<std::uint32_t>> applies(signs);
  hangs_on_place_.assign(signs, false);
  applies_root_.assign(signs, 0);
  for (std::uint32_t i = 0; i < roots_.size(); ++i) {
    auto const kind = roots_[i].kind;
    auto const subject = roots_[i].subject;
    if (kind == RootKind::applies) applies_root_[subject] = i;
    for (auto const& step : steps(roots_[i])) {
      if (step.kind != Step::Kind::leaf) continue;
      auto const sign = index(leaves_[step.detail].sign);
      if (leaves_[step.detail].kind == Test::Kind::at_site) hangs_on_place_[sign] = true;
      if (!roots[sign].empty() && roots[sign].back() == i) continue;
      roots[sign].push_back(i);
      if (kind == RootKind::applies) applies[sign].push_back(subject);
    }
  }
  std::vector<std::vector<std::uint32_t>> parts(signs);
  for (std::uint32_t i = 0; i < signs; ++i) {
    wholes_.push_back(pack_->signs[i].part_of);
    if (wholes_.back()) parts[index(*wholes_.back())].push_back(i);
  }
  flatten(roots, roots_of_sign_, sign_rows_);
  flatten(applies, applies_of_sign_, applies_rows_);
  flatten(parts, parts_of_sign_, part_rows_);
}

void Tables::set_tiers() {
  for (auto const& tier : pack_->tiers) thresholds_.push_back(tier.threshold());
  std::vector<std::vector<CauseId>> causes(pack_->tiers.size());
  for (std::uint32_t i = 0; i < pack_->causes.size(); ++i)
    causes[index(pack_->causes[i].see)].push_back(CauseId{i});
  flatten(causes, causes_of_tier_, tier_rows_);
  alarms_by_tier_.assign(pack_->tiers.size(), 0);
  for (auto const& alarm : pack_->alarms) {
    alarm_tiers_.push_back(alarm.see);
    ++alarms_by_tier_[index(alarm.see)];
  }
}

// Those whose condition is that the sign is there, be it anywhere or in the least degree.
void Tables::find_unmentioned() {
  for (std::uint32_t i = 0; i < pack_->rules.size(); ++i) {
    auto const& condition = pack_->rules[i].condition;
    if (!condition || condition->kind != Condition::Kind::test) continue;
    auto const& test = condition->test;
    bool const is_presence = test.kind == Test::Kind::holds ||
                             (test.kind == Test::Kind::at_least && test.values.front() == 1);
    if (auto const mentioned = (*pack_)[test.sign].mentioned; mentioned && is_presence)
      unmentioned_.push_back({RuleId{i}, test.sign, *mentioned});
  }
}

void Tables::weigh_rules() {
  auto const held = [&](double frequency) {
    return std::clamp(frequency, pack_->hold_low, pack_->hold_high);
  };
  std::size_t entries = 0;
  for (auto const& rule : pack_->rules) entries += rule.entries.size();
  entries_.reserve(entries);
  weights_.reserve(2 * entries);  // nearly all speak for their cause by yes and no
  entry_rows_.push_back(0);
  auto unmentioned = unmentioned_.begin();
  for (std::uint32_t i = 0; i < pack_->rules.size(); ++i) {
    auto const& rule = pack_->rules[i];
    bool const is_next = unmentioned != unmentioned_.end() && unmentioned->rule == RuleId{i};
    std::optional<double> mentioned;
    if (is_next) mentioned = (unmentioned++)->mentioned;
    for (auto const& entry : rule.entries) {
      entries_.push_back({entry.cause, static_cast<std::uint32_t>(weights_.size())});
      if (rule.condition) {
        auto const p = held(entry.frequencies.front());
        auto const u = held(rule.usual.front());
        weights_.push_back(std::log(p / u));
        weights_.push_back(std::log((1 - p) / (1 - u)));
        if (mentioned) weights_.push_back(std::log((1 - *mentioned * p) / (1 - *mentioned * u)));
      } else {
        for (std::size_t band = 0; band < rule.bands.size(); ++band)
          weights_.push_back(std::log(held(entry.frequencies[band]) / held(rule.usual[band])));
      }
    }
    entry_rows_.push_back(static_cast<std::uint32_t>(entries_.size()));
  }
  overlap_of_rule_.assign(pack_->rules.size(), -1);
  for (std::size_t i = 0; i < pack_->overlaps.size(); ++i)
    for (auto const rule : pack_->overlaps[i].rules)
      overlap_of_rule_[index(rule)] = static_cast<std::int32_t>(i);
}

void Tables::set_priors() {
  double sum = pack_->unlisted;
  for (auto const& cause : pack_->causes) sum += cause.base;
  for (auto const& cause : pack_->causes) priors_.push_back(cause.base / sum);
  priors_.push_back(sum > 0 ? pack_->unlisted / sum : 1);
  for (auto const prior : priors_) log_priors_.push_back(std::log(prior));
  for (auto const& members : pack_->group_breeds) {
    std::vector<bool> bits(pack_->breeds.breeds.size());
    for (auto const breed : members) bits[breed] = true;
    group_bits_.push_back(std::move(bits));
  }
}

void Tables::cover_sites() {
  auto const count = pack_->sites.size();
  site_bits_.assign(count * count, false);
  for (std::uint32_t inner = 0; inner < count; ++inner)
    for (std::optional<SiteId> outer = SiteId{inner}; outer; outer = (*pack_)[*outer].inside)
      site_bits_[index(*outer) * count + inner] = true;
}

}  // namespace flinch
