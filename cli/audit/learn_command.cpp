// `flinch learn CASES`: a proposal, printed; no file is written.
#include "audit/learn_command.hpp"

#include <fmt/format.h>

#include <map>
#include <memory>
#include <ostream>

#include "audit/audit_view.hpp"
#include "book/book_cases.hpp"
#include "files/pack_source.hpp"
#include "flinch/audit/learn.hpp"
#include "flinch/syntax/parse.hpp"
#include "flinch/syntax/print.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct LearnOptions {
  std::string pack;
  CasesChosen cases;
  std::size_t patients_at_least = 5;
  double weight_without_sample = 10;
  std::string source = "closed_cases";  ///< the name that the proposal cites
  bool statements = false;
};

std::string source_statement(std::string const& name, Learning const& learning) {
  return fmt::format(
      "source {}\n  text \"{} closed cases of our own, pooled with what each figure was counted in "
      "before\"\n  grade own-cases\n",
      name, learning.cases);
}

class Proposal {
 public:
  Proposal(SoundPack const& opened, Learning const& learning, LearnOptions const& options,
           Look const& look)
      : sources_(opened.sources),
        pack_(*opened.pack),
        learning_(learning),
        options_(options),
        page_(look) {}

  std::string side_by_side() {
    head();
    std::optional<RuleId> rule;
    for (auto const& figure : learning_.figures) {
      if (rule != figure.rule) rule_line(pack_[figure.rule]);
      rule = figure.rule;
      show(figure);
    }
    if (learning_.figures.empty())
      page_.paragraph(fmt::format("No figure: for none of them {} cases were seen. See --at-least.",
                                  options_.patients_at_least));
    page_.blank();
    page_.paragraph(
        "Only answered questions count: a sign that is asked only where it is suspected comes out "
        "too common. Before a figure goes into a pack, run `flinch check` and `flinch compare` on "
        "the changed copy, and look at the patients that would be seen later.",
        0);
    page_.paragraph(audit_caution, 0);
    return page_.take();
  }

  std::string statements() {
    auto out = fmt::format(
        "# Proposed from {} closed cases; nothing was written. Read each figure, then run\n"
        "# `flinch check` and `flinch compare` on the changed copy.\n{}",
        learning_.cases, source_statement(options_.source, learning_));
    std::optional<RuleId> last;
    for (auto const& figure : learning_.figures) {
      if (last == figure.rule) continue;
      last = figure.rule;
      if (auto const written = find(pack_[figure.rule]))
        out += '\n' + syntax::print(syntax::Statement(
                          with_learned(*written, pack_, learning_, options_.source)));
    }
    return out;
  }

 private:
  void head() {
    page_.heading(fmt::format("PROPOSED FROM {} CLOSED CASE{}: {}", learning_.cases,
                              learning_.cases == 1 ? "" : "S", pack_label(pack_, options_.pack)));
    if (learning_.left_out > 0)
      page_.paragraph(fmt::format("{} without a known cause left out.", learning_.left_out));
    page_.paragraph(fmt::format(
        "Nothing was written. Each present figure counts as the cases that it was counted in, or "
        "as "
        "{:g} where it was judged or derived. Figures from fewer than {} cases are not proposed. "
        "The source that the proposal cites:",
        options_.weight_without_sample, options_.patients_at_least));
    page_.blank();
    auto const statement = source_statement(options_.source, learning_);
    for (std::size_t from = 0; from < statement.size();) {
      auto const end = statement.find('\n', from);
      page_.line("  " + statement.substr(from, end - from));
      from = end + 1;
    }
  }

  void rule_line(Rule const& rule) {
    auto const& file = sources_[rule.at.file];
    page_.blank();
    page_.paragraph(fmt::format("{}:{}: rule {} \"{}\"", file.name(),
                                file.position(rule.at.span.begin).line, rule.name, rule.title),
                    0);
  }

  void show(LearnedFigure const& figure) {
    auto const word =
        figure.cause ? fmt::format("in {} ", pack_[*figure.cause].name) : std::string("usual ");
    auto const proposed = as_written(figure.proposed, figure.sample, options_.source);
    page_.paragraph(word + present(figure), 2, "was  ");
    page_.paragraph(word + syntax::print(proposed), 2, "new  ");
    page_.paragraph(
        fmt::format("counted {} of {} cases; the present figure counts as {:g}",
                    fmt::join(figure.counts, ", "), figure.patients, figure.present_weight),
        7);
  }

  // As it stands in the file, its own sample and source included.
  [[nodiscard]] std::string present(LearnedFigure const& figure) {
    if (auto const* written = find(pack_[figure.rule])) {
      if (!figure.cause && written->usual) return syntax::print(*written->usual);
      for (auto const& in : written->in)
        if (figure.cause && in.cause.text == pack_[*figure.cause].name)
          return syntax::print(in.frequencies);
    }
    return syntax::print(as_written(figure.present, 0, ""));
  }

  // The statement in the file that the rule was read from.
  syntax::Rule const* find(Rule const& rule) {
    auto const id = static_cast<std::uint32_t>(rule.at.file);
    auto parsed = files_.find(id);
    if (parsed == files_.end()) {
      Report report;
      parsed = files_.emplace(id, syntax::parse(sources_, rule.at.file, {}, report)).first;
    }
    for (auto const& statement : parsed->second.statements)
      if (auto const* found = std::get_if<syntax::Rule>(&statement))
        if (found->name.text == rule.name) return found;
    return nullptr;
  }

  SourceSet const& sources_;
  Pack const& pack_;
  Learning const& learning_;
  LearnOptions const& options_;
  Page page_;
  std::map<std::uint32_t, syntax::File> files_;
};

Status learn_figures(LearnOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = opened->pack;
  auto const cases = read_chosen(options.cases, Calls::Which::closed, {{pack.get()}}, session);
  if (!cases) return Status::bad;
  auto const learning = learn(Tables(pack), cases->front(),
                              {options.weight_without_sample, options.patients_at_least});
  if (learning.cases == 0) {
    session.err << "flinch: error: none of these cases has a known cause, so there is nothing to "
                   "learn\n  note: a closed case says `outcome: {cause: NAME}`\n";
    return Status::bad;
  }
  Proposal proposal(*opened, learning, options, session.look);
  session.out << (options.statements ? proposal.statements() : proposal.side_by_side());
  return Status::fine;
}

std::string no_source_name(std::string const& name) {
  bool const is_name = !name.empty() && name.front() >= 'a' && name.front() <= 'z' &&
                       name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == name.npos;
  return is_name ? "" : "a name has small letters, digits and _, and starts with a letter";
}

CommandUse use_learn() {
  auto const options = std::make_shared<LearnOptions>();
  CommandUse out{
      {pack_option(options->pack),
       {"--at-least",
        &options->patients_at_least,
        "Propose no figure from fewer cases",
        {.shown = "N", .range = std::pair{1, 1000000}}},
       {"--weight",
        &options->weight_without_sample,
        "How many cases a present figure counts as that has no sample",
        {.shown = "CASES", .range = std::pair{0.0, 1e6}}},
       {"--source",
        &options->source,
        "The name of the source that the proposal cites",
        {.shown = "NAME", .refusal = no_source_name}},
       {"--statements", &options->statements,
        "Only the rules as they would be, in the rule language"}},
      [options](Session const& session) { return learn_figures(*options, session); },
      {{"flinch learn closed --at-least 1", "Figures from closed cases beside those of the pack"}}};
  return with_case_options(std::move(out), options->cases);
}

}  // namespace

Command const learn_command{
    "learn", "Propose frequencies for a pack from closed cases; nothing is written", use_learn};

}  // namespace flinch::cli
