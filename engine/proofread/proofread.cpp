#include "flinch/proofread/proofread.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>
#include <tuple>

#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// Places compare equal by design; these are compared by where they are.
auto where(Place at) { return std::tuple(at.file, at.span.begin, at.span.end); }

// Whether the text holds the name as a word.
bool names(std::string_view text, std::string_view name) {
  auto const is_of_name = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
  };
  for (auto at = text.find(name); at != std::string_view::npos; at = text.find(name, at + 1)) {
    auto const end = at + name.size();
    bool const begins = at == 0 || !is_of_name(text[at - 1]);
    if (name.empty() || (begins && (end == text.size() || !is_of_name(text[end])))) return true;
  }
  return false;
}

// Which `accept` lets the remark stand: one in a statement concerned before one of the pack.
Accepted const* accepting(std::vector<Accepted> const& accepted, Remark const& remark) {
  Accepted const* of_pack = nullptr;
  for (auto const& accept : accepted) {
    if (accept.warning != remark.warning.code || !names(accept.reason, remark.must_name)) continue;
    if (!accept.statement) {
      if (of_pack == nullptr) of_pack = &accept;
      continue;
    }
    for (auto const& statement : remark.statements)
      if (where(statement) == where(*accept.statement)) return &accept;
  }
  return of_pack;
}

}  // namespace

Diagnostic& Remarks::add(Code code, Place at, std::vector<Place> statements, std::string what,
                         std::string why, std::string remedy) {
  Diagnostic warning{code, Severity::warning, at, std::move(what), {}};
  warning.notes.push_back({std::move(why), {}});
  warning.notes.push_back({std::move(remedy), {}});
  all_.push_back({std::move(warning), std::move(statements), {}});
  return all_.back().warning;
}

Proof proofread(Tables const& tables, std::function<bool()> const& is_outdated) {
  auto const& pack = tables.pack();
  Remarks remarks;
  Remarks pairs;
  std::array<std::function<void()>, 16> const kinds = {
      [&] { find_unused(pack, remarks); },          [&] { find_repeats(tables, remarks); },
      [&] { find_odd_figures(tables, remarks); },   [&] { find_never_first(tables, remarks); },
      [&] { find_untested(tables, remarks); },      [&] { find_low_thresholds(tables, remarks); },
      [&] { find_food_in_tiers(pack, remarks); },   [&] { find_stale_readings(pack, remarks); },
      [&] { find_impossible_pairs(pack, pairs); },  [&] { find_silent_pairs(tables, pairs); },
      [&] { find_calming_dangers(pack, remarks); }, [&] { find_odd_signs(pack, remarks); },
      [&] { find_odd_tiers(pack, remarks); },       [&] { find_odd_doses(pack, remarks); },
      [&] { find_idle_care(pack, remarks); },       [&] { find_sent_away(pack, remarks); }};
  for (auto const& find : kinds) {
    if (is_outdated && is_outdated()) return {};
    find();
  }

  Proof out;
  std::vector<bool> is_needed(pack.accepted.size());
  auto const sort_out = [&](std::vector<Remark> all, std::vector<Diagnostic>& open) {
    for (auto& remark : all) {
      auto const* accept = accepting(pack.accepted, remark);
      if (accept == nullptr) {
        open.push_back(std::move(remark.warning));
        continue;
      }
      is_needed[static_cast<std::size_t>(accept - pack.accepted.data())] = true;
      out.accepted.push_back({std::move(remark.warning), accept->reason});
    }
  };
  sort_out(remarks.take(), out.warnings);
  sort_out(pairs.take(), out.pairs);
  for (std::size_t i = 0; i < pack.accepted.size(); ++i) {
    if (is_needed[i]) continue;
    auto const& accept = pack.accepted[i];
    out.warnings.push_back(
        {Code::unused_accept,
         Severity::warning,
         accept.at,
         fmt::format("there is no `{}` here to accept", code_text(accept.warning)),
         {{"it would hide the warning if it came back", {}}, {"take the `accept` out", {}}}});
  }
  auto const in_order = [](Diagnostic const& a, Diagnostic const& b) {
    return where(a.at) < where(b.at);
  };
  std::stable_sort(out.warnings.begin(), out.warnings.end(), in_order);
  std::stable_sort(out.accepted.begin(), out.accepted.end(),
                   [&](auto const& a, auto const& b) { return in_order(a.warning, b.warning); });
  return out;
}

}  // namespace flinch
