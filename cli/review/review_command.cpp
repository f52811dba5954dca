// `flinch review CASE`
#include "review/review_command.hpp"

#include <fmt/format.h>

#include <array>
#include <memory>
#include <ostream>

#include "files/case_source.hpp"
#include "flinch/casefile/read_changes.hpp"
#include "flinch/model/find_named.hpp"
#include "flinch/text/display.hpp"
#include "look/json_text.hpp"
#include "look/name_help.hpp"
#include "options.hpp"
#include "review/review_json.hpp"
#include "review/review_text.hpp"

namespace flinch::cli {
namespace {

struct ReviewOptions {
  std::string pack;
  std::string file;                    ///< a YAML file; `-` is standard input
  std::optional<std::string> cause;    ///< its name, or `none` for none of the listed causes
  std::optional<std::string> rule;     ///< or an alarm
  std::vector<std::string> between;    ///< two causes, or nothing
  std::optional<std::string> what_if;  ///< `sign=answer, sign=answer`
  bool tier = false;
  bool changes = false;  ///< the smallest changes
  bool json = false;
};

class RequestReader {
 public:
  RequestReader(PackAndCase& opened, std::string const& pack_path, std::ostream& err)
      : opened_(opened), pack_(*opened.pack), pack_path_(pack_path), err_(err) {}

  std::optional<ReviewRequest> read(ReviewOptions const& options) {
    ReviewRequest out;
    out.tier = options.tier;
    out.changes = options.changes;
    if (options.cause) out.cause = cause("--cause", *options.cause);
    if (options.rule) rule(*options.rule, out);
    if (options.between.size() == 2) {
      auto const first = cause("--between", options.between[0]);
      auto const second = cause("--between", options.between[1]);
      if (first && second && *first == *second)
        mistake("--between", "the two causes are the same one");
      if (first && second) out.between = std::pair(*first, *second);
    }
    if (options.what_if) what_if(*options.what_if, out);
    if (!is_sound_) return std::nullopt;
    return out;
  }

 private:
  void mistake(std::string_view option, std::string_view message,
               std::vector<std::string> const& remedies = {}) {
    err_ << fmt::format("{}: error: {}\n", option, message);
    for (auto const& remedy : remedies) err_ << fmt::format("  note: {}\n", remedy);
    is_sound_ = false;
  }

  std::optional<Named> named(std::string_view option, std::string const& called,
                             std::string_view kind, std::span<NamedKind const> kinds) {
    if (called.find_first_not_of(" \t") == std::string::npos) {
      mistake(option, fmt::format("a {} is expected here, by its name or title", kind));
      return std::nullopt;
    }
    auto const search = find_named(pack_, called, kinds);
    auto const& found = search.best();
    if (found.size() == 1) return found.front();
    if (found.size() > 1) {
      std::string names;
      for (auto const thing : found)
        names += (names.empty() ? "" : ", ") + fmt::format("`{}`", name_of(pack_, thing));
      mistake(option, fmt::format("`{}` is the title of several: {}", inert(called), names),
              {"use the name"});
      return std::nullopt;
    }
    mistake(option, fmt::format("unknown {} `{}`", kind, inert(called)),
            name_help(pack_, called, kinds, search, pack_path_));
    return std::nullopt;
  }

  // `none`, unless the pack has a cause of that name, is none of the listed causes, as in a case's
  // outcome.
  std::optional<AskedCause> cause(std::string_view option, std::string const& called) {
    constexpr std::array kinds = {NamedKind::cause};
    if (called == "none" && find_named(pack_, called, kinds).by_name.empty()) return AskedCause{};
    auto const found = named(option, called, "cause", kinds);
    if (!found) return std::nullopt;
    return AskedCause{CauseId{found->index}};
  }

  // A rule; where there is none of the name, an alarm.
  void rule(std::string const& called, ReviewRequest& out) {
    constexpr std::array rules = {NamedKind::rule};
    constexpr std::array both_kinds = {NamedKind::rule, NamedKind::alarm};
    bool const is_rule = find_named(pack_, called, rules).best().size() == 1;
    auto const found =
        named("--rule", called, "rule", is_rule ? std::span<NamedKind const>(rules) : both_kinds);
    if (!found) return;
    if (found->kind == NamedKind::rule)
      out.rule = RuleId{found->index};
    else
      out.alarm = AlarmId{found->index};
  }

  void what_if(std::string const& text, ReviewRequest& out) {
    if (text.find_first_not_of(" \t") == std::string::npos)
      return mistake("--what-if", "answers are expected here, such as \"SIGN=yes\"");
    auto const file = opened_.sources.add("--what-if", text);
    auto changes = read_changes(opened_.sources, file, pack_);
    err_ << render(changes.diagnostics, opened_.sources);
    if (!changes) is_sound_ = false;
    out.what_if = std::move(changes.value);
  }

  PackAndCase& opened_;
  Pack const& pack_;
  std::string const& pack_path_;
  std::ostream& err_;
  bool is_sound_ = true;
};

Status review(ReviewOptions const& options, Session const& session) {
  auto opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  auto const request = RequestReader(*opened, options.pack, session.err).read(options);
  if (!request) return Status::bad;
  Tables const tables(opened->pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(opened->one.patient);
  Reviewed const reviewed{tables, assessor, opened->one.patient, result};
  if (options.json)
    session.out << json_text(review_json(reviewed, *request));
  else
    session.out << review_text(reviewed, *request, session.look);
  return Status::fine;
}

CommandUse use_review() {
  auto const options = std::make_shared<ReviewOptions>();
  return {
      {{"case", &options->file, case_help, {.shown = "CASE", .is_path = true, .is_required = true}},
       {"--cause",
        &options->cause,
        "For and against a cause (`none`: none of these)",
        {.shown = "NAME", .names = {NamedKind::cause}}},
       {"--rule",
        &options->rule,
        "How a rule or alarm came out, part by part",
        {.shown = "NAME", .names = {NamedKind::rule, NamedKind::alarm}}},
       {"--tier", &options->tier, "Why so soon: alarms, and causes over a threshold"},
       {"--between",
        &options->between,
        "What separates two causes",
        {.shown = "NAME", .names = {NamedKind::cause}, .count = 2}},
       {"--what-if",
        &options->what_if,
        "Before and after: \"sign=yes, other=no\"",
        {.shown = "ANSWERS"}},
       {"--changes", &options->changes, "The smallest changes that would change the result"},
       pack_option(options->pack),
       {"--json", &options->json, "For programs: docs/review.schema.json"}},
      [options](Session const& session) { return review(*options, session); },
      {{"flinch review bramble.yaml --cause elbow_arthritis --tier",
        "For and against a cause, and why so soon"},
       {"flinch review bramble.yaml --between elbow_arthritis none",
        "What separates it from none of these"},
       {"flinch review bramble.yaml --what-if \"vomiting=yes, tender=left hip + spine\"",
        "Before and after two more answers"}},
      "Without options: the tier, the first causes, and what would separate them. Options can be\n"
      "joined."};
}

}  // namespace

Command const review_command{"review", "Why: a cause, a rule, the tier, two causes, what if",
                             use_review};

}  // namespace flinch::cli
