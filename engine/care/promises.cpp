#include "flinch/care/promises.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/care/plan.hpp"

namespace flinch {
namespace {

std::string tier_name(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].name : "no tier";
}

std::string ranking_head(Pack const& pack, Assessment const& result) {
  std::string out;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, result.ranking.size()); ++i) {
    auto const& ranked = result.ranking[i];
    out += fmt::format("{}{} {:.0f}%", out.empty() ? "" : ", ",
                       ranked.cause ? pack[*ranked.cause].name : "none of the listed causes",
                       100 * ranked.posterior);
  }
  return out;
}

// Place in the ranking among the listed causes, from 1.
std::size_t rank_of(Assessment const& result, CauseId cause) {
  auto const place = result.place(cause);
  return place + (place < result.place(std::nullopt) ? 1 : 0);
}

// What the clinician's page says of a measure: nobody's page offers more. None: it does not fit.
std::optional<Advice> advice_on(CarePlan const& plan, std::size_t care) {
  for (auto const* list : {&plan.measures, &plan.avoid, &plan.watch})
    for (auto const& measure : *list)
      if (measure.care == care && measure.fits == Truth::yes) return measure.advice;
  return std::nullopt;
}

std::string advice_name(std::optional<Advice> advice) {
  if (!advice) return "it does not fit, or is not known to";
  switch (*advice) {
    case Advice::offered:
      return "offered";
    case Advice::ask_vet:
      return "ask first (the vet)";
    case Advice::ask_first:
      return "ask first";
    case Advice::withheld:
      break;
  }
  return "withheld";
}

}  // namespace

std::vector<BrokenPromise> broken_promises(Tables const& tables, Assessor& assessor,
                                           Example const& example) {
  auto const& pack = tables.pack();
  auto const result = assessor.assess(example.patient);
  auto const plan = plan_care(tables, result, Reader::clinician);
  std::vector<BrokenPromise> out;
  auto const expect = [&](bool kept, Promise const& promise, std::string instead) {
    if (!kept) out.push_back({promise.text, std::move(instead)});
  };
  for (auto const& promise : example.promises) {
    CauseId const cause{promise.subject};
    TierId const tier{promise.subject};
    AlarmId const alarm{promise.subject};
    using Kind = syntax::Promise::Kind;
    switch (promise.kind) {
      case Kind::first:
        expect(rank_of(result, cause) == 1, promise, ranking_head(pack, result));
        break;
      case Kind::not_first:
        expect(rank_of(result, cause) != 1, promise, ranking_head(pack, result));
        break;
      case Kind::among:
        expect(rank_of(result, cause) <= promise.rank, promise,
               fmt::format("rank {} ({})", rank_of(result, cause), ranking_head(pack, result)));
        break;
      case Kind::tier:
        expect(result.judgement.tier == tier, promise,
               fmt::format("{} ({})", tier_name(pack, result.judgement.tier),
                           ranking_head(pack, result)));
        break;
      case Kind::tier_at_least:
        expect(result.judgement.tier && *result.judgement.tier <= tier, promise,
               fmt::format("{} ({})", tier_name(pack, result.judgement.tier),
                           ranking_head(pack, result)));
        break;
      case Kind::ceiling:
        expect(result.judgement.ceiling == tier, promise,
               tier_name(pack, result.judgement.ceiling));
        break;
      case Kind::alarm:
        expect(result.judgement.has_fired(alarm), promise, "it did not fire");
        break;
      case Kind::not_alarm:
        expect(!result.judgement.has_fired(alarm), promise, "it fired");
        break;
      case Kind::offered:
      case Kind::not_offered:
      case Kind::withheld:
      case Kind::ask_first: {
        auto const advice = advice_on(plan, promise.subject);
        bool const is_kept = promise.kind == Kind::offered       ? advice == Advice::offered
                             : promise.kind == Kind::not_offered ? advice != Advice::offered
                             : promise.kind == Kind::withheld
                                 ? advice == Advice::withheld
                                 : advice == Advice::ask_first || advice == Advice::ask_vet;
        expect(is_kept, promise, advice_name(advice));
        break;
      }
      case Kind::nothing_told:
        expect(result.judgement.nothing_told, promise,
               fmt::format("signs told: {}", result.judgement.told_signs));
        break;
    }
  }
  return out;
}

}  // namespace flinch
