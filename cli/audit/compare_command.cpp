// `flinch compare OLD NEW CASES`
#include "audit/compare_command.hpp"

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <ostream>

#include "audit/audit_view.hpp"
#include "book/book_cases.hpp"
#include "files/pack_source.hpp"
#include "flinch/audit/compare.hpp"
#include "flinch/explain/reasons.hpp"
#include "look/headway.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct CompareOptions {
  std::string before;
  std::string after;
  CasesChosen cases;
  std::size_t reasons = 3;  ///< shown for each case
};

class ComparisonText {
 public:
  ComparisonText(Comparison const& comparison, std::size_t reasons, Look const& look)
      : comparison_(comparison), reasons_(reasons), page_(look) {}

  std::string write(std::string const& before, std::string const& after) {
    auto const& c = comparison_;
    page_.heading(fmt::format("FROM {} TO {}", before, after));
    page_.paragraph(
        fmt::format("{} case{}: {} seen later, {} seen sooner, {} with another first "
                    "cause, {} unchanged.",
                    c.cases, c.cases == 1 ? "" : "s", c.later, c.sooner, c.other_first,
                    c.cases - c.movements.size()));
    page_.blank();
    std::string_view group;
    for (auto const& movement : c.movements) {
      if (auto const its = group_of(movement); its != group) {
        if (!group.empty()) page_.blank();
        page_.heading(its);
        group = its;
      }
      show(movement);
    }
    if (!c.movements.empty()) page_.blank();
    page_.paragraph(audit_caution, 0);
    return page_.take();
  }

 private:
  static std::string_view group_of(Movement const& m) {
    if (m.steps_later > 0 && m.is_under_triaged) return "SEEN LATER, AND TOO LATE";
    if (m.steps_later > 0 && !m.is_needed_known) return "SEEN LATER";
    if (m.steps_later > 0) return "SEEN LATER, STILL SOON ENOUGH";
    if (m.lost_true_cause) return "THE TRUE CAUSE NO LONGER FIRST";
    return m.steps_later == 0 ? "ANOTHER FIRST CAUSE" : "SEEN SOONER";
  }

  static std::string tier(Standing const& s) { return s.tier.empty() ? "no tier" : s.tier; }
  static std::string first(Standing const& s) {
    return fmt::format("{} ({:.0f}%)", s.first.empty() ? "none of the listed causes" : s.first,
                       100 * s.first_probability);
  }

  void show(Movement const& m) {
    page_.paragraph(m.name, 2);
    if (tier(m.before) != tier(m.after) || m.steps_later != 0)
      page_.paragraph(fmt::format("tier {}, was {}", tier(m.after), tier(m.before)), 4);
    if (m.before.first != m.after.first)
      page_.paragraph(fmt::format("first {}, was {}", first(m.after), first(m.before)), 4);
    for (std::size_t i = 0; i < std::min(reasons_, m.why.size()); ++i)
      page_.paragraph(reason(m.why[i]), 6, "- ");
    if (m.why.size() > reasons_ && reasons_ > 0)
      page_.paragraph(fmt::format("... and {} more differences", m.why.size() - reasons_), 6);
  }

  static std::string reason(Difference const& d) {
    switch (d.kind) {
      case Difference::Kind::alarm:
        return fmt::format("alarm `{}` ({}) {}", d.name, d.title,
                           d.after > 0 ? "fires now" : "no longer fires");
      case Difference::Kind::rule:
        return fmt::format("rule `{}` ({}) for {}: {:+.1f} dB, was {:+.1f}", d.name, d.title,
                           d.cause, decibans(d.after), decibans(d.before));
      case Difference::Kind::base:
        return fmt::format("base of {}: {:.2g}%, was {:.2g}%", d.name, 100 * std::exp(d.after),
                           100 * std::exp(d.before));
      case Difference::Kind::harm:
        return fmt::format("tier `{}` is reached from {:.3g}%, was {:.3g}%", d.name, 100 * d.after,
                           100 * d.before);
    }
    return {};
  }

  Comparison const& comparison_;
  std::size_t reasons_;
  Page page_;
};

Status compare_packs(CompareOptions const& options, Session const& session) {
  auto const before = open_sound_pack(options.before, session.err);
  auto const after = open_sound_pack(options.after, session.err);
  if (!before || !after) return Status::bad;
  auto const& old_pack = before->pack;
  auto const& new_pack = after->pack;
  // What a patient turned out to have may be a cause that the old pack does not know yet.
  auto cases = read_chosen(options.cases, Calls::Which::all,
                           {{old_pack.get(), Outcomes::ignored}, {new_pack.get()}}, session);
  if (!cases) return Status::bad;
  auto& old_cases = cases->front();
  auto& new_cases = cases->back();
  std::vector<CasePair> pairs;
  for (std::size_t i = 0; i < old_cases.size(); ++i)
    pairs.push_back(
        {old_cases[i].name, std::move(old_cases[i].patient), std::move(new_cases[i].patient)});
  Headway headway(session.err, session.look, "comparing cases", pairs.size());
  auto const comparison =
      compare(Tables(old_pack), Tables(new_pack), pairs, [&](auto done) { headway.reach(done); });
  headway.hide();
  session.out << ComparisonText(comparison, options.reasons, session.look)
                     .write(pack_label(*old_pack, options.before),
                            pack_label(*new_pack, options.after));
  return comparison.movements.empty() ? Status::fine : Status::no;
}

CommandUse use_compare() {
  auto const options = std::make_shared<CompareOptions>();
  CommandUse out{{{"old",
                   &options->before,
                   "The pack as it was: its folder, or its entry file",
                   {.shown = "OLD", .is_path = true, .is_required = true}},
                  {"new",
                   &options->after,
                   "The pack as it is to be",
                   {.shown = "NEW", .is_path = true, .is_required = true}},
                  {"--reasons",
                   &options->reasons,
                   "How many reasons to show for each case",
                   {.shown = "N", .range = std::pair{0, 1000}}}},
                 [options](Session const& session) { return compare_packs(*options, session); },
                 {{"flinch compare present changed closed", "What a change does to past cases"}}};
  return with_case_options(std::move(out), options->cases);
}

}  // namespace

Command const compare_command{
    "compare", "Which cases come out otherwise with another version of a pack, and why",
    use_compare};

}  // namespace flinch::cli
