#include "syntax/meant_lines.hpp"

#include <algorithm>
#include <array>

namespace flinch::syntax {
namespace {

constexpr std::string_view and_not =
    "what must not be stands in the condition, behind `and not`: `if SIGN and not OTHER`";
constexpr std::string_view not_applying =
    "where a question is left out stands in `applies if`, behind `not`: `applies if not SIGN`";
constexpr std::string_view fits_without =
    "what must not be stands in the condition, behind `not`: `fit if not SIGN`";
constexpr std::string_view never_without =
    "`fit if SIGN` gives it only where that is so; `never if not SIGN` withholds it where it is "
    "not";
constexpr std::string_view how_often =
    "how often stands in `give`, behind the way; what has no interval is given once";
constexpr std::string_view no_condition =
    "a cause has no condition: a `rule` says what speaks for it";

// The same beginning may stand for several clauses; a statement has one of them.
constexpr std::array<MeantLine, 103> meant_lines = {{
    {"never unless", "fit if", {}, true},
    {"not unless", "fit if", {}},
    {"fit without", "fit if", fits_without, true},
    {"fit except", "fit if", fits_without, true},
    {"only without", "fit if", fits_without},
    {"only except", "fit if", fits_without},
    {"never without", "never if", never_without, true},
    {"not without", "never if", never_without},
    {"not more than", "at most", {}},
    {"no more than", "at most", {}},
    {"only once", "give", how_often},
    {"only if", "fit if", {}},
    {"only when", "fit if", {}},
    {"only for", "fit if", {}},
    {"only in", "fit if", {}},
    {"only", "fit if", {}},
    {"if", "fit if", {}},
    {"when", "fit if", {}},
    {"where", "fit if", {}},
    {"yes", "fit if", {}},
    {"not if", "never if", {}},
    {"not when", "never if", {}},
    {"not in", "never if", {}},
    {"not for", "never if", {}},
    {"not with", "never if", {}},
    {"not", "never if", {}},
    {"no if", "never if", {}},
    {"no", "never if", {}},
    {"never", "never if", {}},
    {"never when", "never if", {}},
    {"never in", "never if", {}},
    {"never for", "never if", {}},
    {"never with", "never if", {}},
    {"fit unless", "never if", {}},
    {"unfit if", "never if", {}},
    {"unfit for", "never if", {}},
    {"misfit if", "never if", {}},
    {"not fit if", "never if", {}},
    {"not fit for", "never if", {}},
    {"do not give if", "never if", {}},
    {"fits unless", "never if", {}},
    {"unless", "never if", {}},
    {"except if", "never if", {}},
    {"except when", "never if", {}},
    {"except in", "never if", {}},
    {"except for", "never if", {}},
    {"except", "never if", {}},
    {"without", "never if", {}},
    {"avoid if", "never if", {}, true},
    {"avoid when", "never if", {}, true},
    {"avoid in", "never if", {}, true},
    {"avoid with", "never if", {}, true},
    {"ask vet unless", "ask vet if", "the condition is turned round: `ask vet if not SIGN`"},
    {"ask vet when", "ask vet if", {}},
    {"stop unless", "stop if", "the condition is turned round: `stop if not SIGN`"},
    {"stop when", "stop if", {}},
    {"waiting", "while waiting", {}},
    {"takes", "taken", {}},
    {"take", "taken", {}},
    {"took", "taken", {}},
    {"has taken", "taken", {}},
    {"swallowed", "taken", {}},
    {"eaten", "taken", {}},
    {"ate", "taken", {}},
    {"has eaten", "taken", {}},
    {"ingested", "taken", {}},
    {"intake", "taken", {}},
    {"toxic", "level", {}},
    {"poisonous", "level", {}},
    {"levels", "level", {}},
    {"pmid", "url", "where it is found stands in `doi` or `url`, and its year in `text`"},
    {"isbn", "url", "where it is found stands in `doi` or `url`, and its year in `text`"},
    {"year", "url", "where it is found stands in `doi` or `url`, and its year in `text`"},
    {"only if", "applies if", {}},
    {"only when", "applies if", {}},
    {"if", "applies if", {}},
    {"when", "applies if", {}},
    {"unless", "applies if", not_applying},
    {"except", "applies if", not_applying},
    {"applies unless", "applies if", not_applying},
    {"not if", "applies if", not_applying},
    {"ask first", "asked first", {}, true},
    {"not if", "unless", {}},
    {"never if", "unless", {}},
    {"except if", "unless", {}},
    {"except when", "unless", {}},
    {"except", "unless", {}},
    {"unless", "over", and_not},
    {"except", "over", and_not},
    {"not if", "over", and_not},
    {"never if", "over", and_not},
    {"only if", "if", {}},
    {"only when", "if", {}},
    {"if", "affects", no_condition},
    {"unless", "affects", no_condition},
    {"tier", "see", {}},
    {"tier", "expect", "what is promised stands behind `expect`: `expect tier now`"},
    {"now", "see", "how soon stands behind `see`: `see now`"},
    {"today", "see", "how soon stands behind `see`: `see today`"},
    {"visits at", "seen at", {}},
    {"visited at", "seen at", {}},
    {"seen in", "seen at", {}},
    {"breeds", "breed table", {}},
}};

bool begins_with(std::string_view beginning, std::string_view words) {
  return beginning.starts_with(words) &&
         (beginning.size() == words.size() || beginning[words.size()] == ' ');
}

// Behind these the words mean something else: `only without` turns `fit if` round, `not more than`
// is an amount, `only once` how often.
bool is_turned_behind(std::string_view beginning, std::string_view words) {
  constexpr std::array<std::string_view, 12> turning = {"without", "except", "unless", "not",
                                                        "no",      "never",  "more",   "less",
                                                        "over",    "once",   "twice",  "every"};
  auto next = beginning.substr(std::min(words.size() + 1, beginning.size()));
  next = next.substr(0, std::min(next.find(' '), next.size()));
  return std::find(turning.begin(), turning.end(), next) != turning.end();
}

}  // namespace

MeantLine const* meant_line(std::string_view beginning,
                            std::vector<std::string_view> const& phrases) {
  auto const has = [&](std::string_view phrase) {
    return std::find(phrases.begin(), phrases.end(), phrase) != phrases.end();
  };
  MeantLine const* found = nullptr;
  for (auto const& row : meant_lines) {
    if (!begins_with(beginning, row.written) || !has(row.clause) || has(row.written)) continue;
    if (is_turned_behind(beginning, row.written)) continue;
    if (found == nullptr || row.written.size() > found->written.size()) found = &row;
  }
  return found;
}

}  // namespace flinch::syntax
