#include <fmt/format.h>

#include <cmath>

#include "exchange/resources.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch::cli {
namespace {

// Causes less probable than this are counted, not named: a judgement.
constexpr double least_named = 0.01;

// The standard counts this element in per cent: it is at most 100 (its rule ras-2).
double per_cent(double probability) { return std::round(probability * 1e4) / 1e2; }

std::string rationale(Pack const& pack, Assessment const& result, CauseId cause) {
  constexpr std::size_t most = 5;
  std::string out;
  auto const all = reasons(result, cause);
  for (std::size_t i = 0; i < all.size() && i < most; ++i)
    out += fmt::format("{}{} ({})", out.empty() ? "" : "; ", reason_text(pack, all[i]),
                       weight_in_words(all[i].weight));
  if (all.size() > most) out += fmt::format("; and {} more", all.size() - most);
  return out;
}

}  // namespace

Json risk_assessment(Shared const& shared) {
  auto const& pack = shared.pack();
  auto const& result = shared.result;
  auto out = resource("RiskAssessment", shared.ids.causes);
  out["status"] = "preliminary";
  out["method"] = {
      {"text",
       "Likely causes by the rules of the pack; one main cause is assumed, and the "
       "probabilities are per cent among animals presented because pain is suspected"}};
  out["subject"] = reference(shared.ids.patient);
  out["occurrenceDateTime"] = instant(shared.now);
  out["performer"] = reference(shared.ids.program);
  out["basis"] = Json::array({reference(shared.ids.response)});

  auto notes = Json::array();
  if (result.judgement.nothing_told) {
    add_note(notes, "Nothing was told that says what it has, or how soon it must be seen.");
  } else {
    auto predictions = Json::array();
    std::size_t unnamed = 0;
    for (auto const& ranked : result.ranking) {
      if (ranked.cause && ranked.posterior < least_named) {
        ++unnamed;
        continue;
      }
      Json one;
      one["outcome"] = {{"coding", Json::array({cause_coding(pack, ranked.cause)})},
                        {"text", clinical_title(pack, ranked.cause)}};
      one["probabilityDecimal"] = per_cent(ranked.posterior);
      if (ranked.cause)
        if (auto const why = rationale(pack, result, *ranked.cause); !why.empty())
          one["rationale"] = why;
      predictions.push_back(std::move(one));
    }
    out["prediction"] = std::move(predictions);
    if (unnamed > 0)
      add_note(notes, fmt::format("{} causes of less than 1 % are not named.", unnamed));
  }
  for (auto const& clash : shared.told.clashes) add_note(notes, clash);
  add_note(notes, caution);
  out["note"] = std::move(notes);
  return out;
}

}  // namespace flinch::cli
