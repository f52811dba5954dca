// Writes docs/interview.md: how many screens the interview needs until the tier stands, on
// published cases and on examples of the shipped pack, and how often it ends at the tier of the
// whole case.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <random>

#include "ask/typed_answers.hpp"
#include "call/scripted_calls.hpp"
#include "flinch/casefile/read_case_line.hpp"
#include "pack/interview_run.hpp"
#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

// Interviews are slow: of the examples every fourth is played, and every twelfth where eight
// settings are compared.
constexpr std::size_t every = 4;
constexpr std::size_t every_of_many = 12;

constexpr std::size_t aim_median = 4;
constexpr std::size_t aim_worst = 15;

struct Sample {
  std::vector<std::size_t> values;

  [[nodiscard]] std::size_t at(double share) {
    std::sort(values.begin(), values.end());
    auto const place = static_cast<std::size_t>(share * static_cast<double>(values.size()));
    return values.empty() ? 0 : values[std::min(place, values.size() - 1)];
  }
  [[nodiscard]] std::string row(std::string const& name) {
    return fmt::format("| {} | {} | {} | {} | {} |\n", name, values.size(), at(0.5), at(0.9),
                       at(1));
  }
  [[nodiscard]] std::size_t above(std::size_t limit) const {
    return static_cast<std::size_t>(
        std::count_if(values.begin(), values.end(), [&](std::size_t one) { return one > limit; }));
  }
};

constexpr char const* head = R"(# How many questions an interview needs

Written by a program from the shipped pack and compared by the test suite; build `update-reports` to
write it anew. An interview is answered from a case and from what follows from it by meaning. Where the
case is silent nobody can tell, or all is no: the two ends between which a keeper answers.

A screen is what one line answers: one question, also one choice; up to eight lines that are so or not; or the five
facts of the dog (age, sex, whether it is neutered, breed, weight), which were four screens until November 2026.
*Counted as before* counts them as four still: figures from before that are to be compared with those rows alone. The
complaint is the first screen, what else worries the keeper the second.

## From the complaint on, until the tier stands

Until the tier that is told is the one at which the interview ends, for a keeper. The published cases are those
of [published.md](published.md), with what their keepers told; the examples are every fourth of the pack that a
keeper can tell anything of, with the first thing told as the complaint.

| cases, and their silence | cases | median | nine in ten within | worst |
|---|---|---|---|---|
)";

constexpr char const* what_was_tried =
    R"(A second measure stands beside: *first three facts told at once*. Asked what worries them, people tell more than
one thing; there the first three of the account are told, in the order in which the pack has its signs.

What brought it down, tried in November 2026 with the learning half of the published cases alone (115), each change
by itself and then all together. *Late* is more than 15 screens; *falls* are tiers that were told and then fell.

| change | nobody can tell: median, late, worst, falls | the rest is no: median, late, worst, falls |
|---|---|---|
| before | 5, 24, 42, 3 | 3, 11, 46, 3 |
| what a list found is gone into like the complaint | 5, 22, 42, 3 | 1, 9, 46, 2 |
| a choice that an alarm asks for with what was found comes at once | 4, 17, 43, 4 | 3, 13, 46, 4 |
| the parts of a whole that a list found are the next screen | 4, 21, 43, 3 | 1, 11, 47, 2 |
| lists are filled up to eight with what would come next | 5, 20, 40, 3 | 1, 9, 46, 2 |
| what goes with the complaint takes three lists at most before the facts of the dog | 5, 12, 39, 2 | 4, 12, 46, 10 |
| depth and length of a wound hang on the wound | 4, 22, 42, 3 | 3, 9, 44, 2 |
| these together | 4, 11, 41, 4 | 3, 11, 45, 5 |
| and all facts of the dog in one line | 4, 7, 38, 2 | 3, 11, 42, 5 |
| and up to three choices in one line | 4, 6, 38, 2 | 3, 10, 30, 4 |
| and life threats before choices and parts | 4, 5, 37, 1 | 1, 7, 29, 1 |

The unit changes within this table: from the row with the facts of the dog on, five facts are one screen instead of
four, and in the last two rows three choices are one; part of what falls there is counting. Several choices in one
line were taken out again: a number that was meant for the screen before stored another answer, and what is recorded
rightly counts more than screens. What alone reaches the highest tier now comes before any choice, and lists are no
longer kept waiting by a row of choices.

What that cost and brought, all 240 published cases (the pack grew a little meanwhile, so not all of it is the order):
where nobody can tell, 13 instead of 17 take longer than 15 screens, nine in ten stay within 14; where the rest is no,
11 instead of 16, within 10 instead of 13. Worse: the median where nobody can tell is 5 instead of 4, and misses its
aim; the worst are 66 and 41 instead of 48 and 29; until nothing is worth asking it takes 67 and 37 screens instead of
57 and 30; a call takes 8 keys in the median instead of 7. That what reaches the highest tier stayed without limit
before all else was tried and dropped: 30 late and 20 screens for nine in ten where nobody can tell.

Later that month the longest interviews of the learning half were printed, with the question that moved the tier and
what stood before it. Two general causes stood there: choices of what had been denied (which poison, what kind of
wound), each a screen of its own, and rows of single choices and of dangers that can wait for days, before any list that
tells causes apart. The first are no longer asked (`applies if` fits a choice as well); before the second comes a list,
or a question of yes or no, that tells as much as what is asked alone. Until then the worst of all 240 took 65 screens, and 41 where the rest is no.
*Over* is the sum of screens beyond fifteen, *threats* the mean screen after which no answer alone could reach the
highest tier, learning half:

| order | nobody can tell: over, worst, threats | the rest is no: over, worst, threats |
|---|---|---|
| choices hang on their sign | 27, 38, 30.3 | 54, 33, 14.2 |
| and lists before all single choices | 27, 38, 30.3 | 46, 33, 14.4 |
| and a telling list before what can wait for days alone | 27, 38, 30.4 | 46, 30, 14.2 |
| and a telling list before single choices as well: kept | 27, 38, 30.9 | 30, 30, 15.1 |
| and choices of what could not be told last: dropped | 19, 32, 32.6 | 30, 30, 15.2 |

The last was dropped because three instead of two take longer than fifteen screens, and all questions take 71 instead of
67. In the other half what was kept brings 133 down to 45 and 21 to 13; the price in both is up to one screen more in the mean
until the life threats are through, and for some more: the colour of the gums is asked two screens later of a dog that
coughs where the rest is no, six where nobody can tell, and eleven of one with a red eye. Not fewer interviews take longer than fifteen screens: the long ones became shorter.

Dropped before: two lists instead of three before the facts of the dog (9 late instead of 6); no limit on these lists
(9); the facts of the dog before the broad questions (7 late, and 8 falls instead of 4 where the rest is no: a tier
that was told is a promise). The worst ones are left where a keeper is asked late what the account tells by chance (a
wound's kind, long grass, a treatment that helped for a while); a keeper who tells it when asked what else is wrong
needs none of these screens. Since when, where its turn comes instead of right behind the complaint, was tried in
December (learning half, nobody can tell): the median falls from 5 to 4, its aim, but three instead of one tier that was
told fell, and three instead of two take longer than fifteen screens; it was dropped. A choice that hangs on its sign took about ten single screens out of those where the
rest is no. An interview that stopped by itself sooner would end less urgent more often, so it goes on until q.
)";

constexpr char const* what_was_tried_in_calls =
    R"(Tried in December 2026 with the learning half alone (111 calls that came to the tier). *Safe* is the mean of keys after
which no open answer alone could make an alarm raise the tier that all answers together give:

| order | median, nine in ten, worst, more than 25 | safe |
|---|---|---|
| before | 8, 23, 37, 7 | 17.9 |
| of dangers that reach the same tier, what fits the complaint first: dropped | 7, 22, 39, 6 | |
| behind the complaint, what `ask` opens with, but not since when | 7, 16, 25, 0 | 18.6 |
| the same without its choices that are asked of any dog: dropped | 6, 18, 39, 3 | 17.7 |
| and, while a word is only begun, first what begins so and what bears on many causes: kept | 6, 16, 25, 0 | 18.4 |

What it costs: lists that are read to their end are up to five longer in three of the ten calls of [call.md](call.md)
whose tier is not the highest. Nothing changes before there is a complaint, nor at the highest tier, where the advice comes next.

Of the 6 keys in the learning half letters and the number of the hit take 4, what is asked afterwards 2. Two letters and a number, three
keys, are the least that marks one sign, since one letter gives no number anything to mark; a hit is never taken without its number.
)";

class Writer {
 public:
  explicit Writer(std::vector<Case> published)
      : pack_(shipped_pack()),
        tables_(pack_),
        assessor_(tables_),
        published_(std::move(published)) {}

  std::string write() {
    auto out = std::string(head);
    out += from_the_complaint_on();
    out += keys_of_a_call();
    out += typed_answers_section(
        read_all(*pack_, typed_answers(source_file("tests/ask/typed_answers.tsv"))),
        read_all(*pack_, typed_answers(source_file("tests/ask/typed_answers_2.tsv"))));
    out += against_other_orders();
    out += limits();
    return out;
  }

 private:
  struct Ends {
    Sample screens, all, as_before, threats, fewest;
    std::map<std::size_t, Sample> by_tier;
    std::size_t same = 0, more_urgent = 0, less_urgent = 0, by_fall = 0;
  };

  [[nodiscard]] std::size_t place(std::optional<TierId> tier) const {
    return tier ? index(*tier) : pack_->tiers.size();
  }

  void play(Interview& interview, Case const& patient, Silence silence, Ends& ends) {
    auto const whole = assessor_.assess(patient);
    auto const run = run_interview(tables_, interview, whole, patient.came_for, silence);
    ends.screens.values.push_back(run.screens_to_tier);
    ends.fewest.values.push_back(fewest_screens(tables_, run, whole, patient.came_for, silence));
    ends.all.values.push_back(run.screens);
    ends.as_before.values.push_back(run.single_facts_to_tier);
    ends.threats.values.push_back(run.screens_to_no_life_threat);
    ends.by_fall += run.ends_by_fall ? 1 : 0;
    ends.by_tier[place(run.tier)].values.push_back(run.screens_to_tier);
    ++(run.tier == whole.judgement.tier                ? ends.same
       : place(run.tier) < place(whole.judgement.tier) ? ends.more_urgent
                                                       : ends.less_urgent);
  }

  // Its keeper tells the first three things of the account at "what worries you", as people do.
  [[nodiscard]] Case with_first_facts(Case patient) const {
    constexpr std::size_t told_at_once = 3;
    for (auto const& [sign, answer] : patient.answers) {
      auto& came_for = patient.came_for;
      if (came_for.size() >= told_at_once) break;
      if (!(*pack_)[sign].of_the_patient && tables_.is_told(sign, answer) &&
          can_see(Reader::keeper, (*pack_)[sign].seen_by) &&
          std::find(came_for.begin(), came_for.end(), sign) == came_for.end())
        came_for.push_back(sign);
    }
    return patient;
  }

  // What a keeper can tell of every fourth example, the first of it as the complaint.
  [[nodiscard]] std::vector<Case> told_examples() const {
    std::vector<Case> out;
    for (std::size_t i = 0; i < pack_->examples.size(); i += every) {
      auto patient = pack_->examples[i].patient;
      std::erase_if(patient.answers, [&](auto const& one) {
        return !can_see(Reader::keeper, (*pack_)[one.first].seen_by);
      });
      patient.came_for.clear();
      for (auto const& [sign, answer] : patient.answers)
        if (patient.came_for.empty() && tables_.is_told(sign, answer))
          patient.came_for.push_back(sign);
      if (!patient.came_for.empty()) out.push_back(std::move(patient));
    }
    return out;
  }

  std::string from_the_complaint_on() {
    Interview interview(tables_, Reader::keeper, limits_of_lines());
    Ends published, denied, examples, denied_examples, talkative, talkative_denied;
    for (auto const& patient : published_) {
      play(interview, patient, Silence::cannot_tell, published);
      play(interview, patient, Silence::no, denied);
      auto const told = with_first_facts(patient);
      play(interview, told, Silence::cannot_tell, talkative);
      play(interview, told, Silence::no, talkative_denied);
    }
    for (auto const& patient : told_examples()) {
      play(interview, patient, Silence::cannot_tell, examples);
      play(interview, patient, Silence::no, denied_examples);
    }
    std::string out;
    out += published.screens.row("published, nobody can tell the rest");
    out += denied.screens.row("published, the rest is no");
    out += talkative.screens.row(
        "published, first three facts told at once, nobody can tell the rest");
    out +=
        talkative_denied.screens.row("published, first three facts told at once, the rest is no");
    out += examples.screens.row("examples, nobody can tell the rest");
    out += denied_examples.screens.row("examples, the rest is no");
    out += published.as_before.row("counted as before: published, nobody can tell the rest");
    out += denied.as_before.row("counted as before: published, the rest is no");
    out += examples.as_before.row("counted as before: examples, nobody can tell the rest");
    out += denied_examples.as_before.row("counted as before: examples, the rest is no");
    auto const verdict = [&](Ends& ends, std::string_view what) {
      return fmt::format(
          "- {}: median {}, aim {}, {}; worst {}, aim {}, {} ({} of {} cases take longer).\n", what,
          ends.screens.at(0.5), aim_median,
          ends.screens.at(0.5) <= aim_median ? "reached" : "**missed**", ends.screens.at(1),
          aim_worst, ends.screens.at(1) <= aim_worst ? "reached" : "**missed**",
          ends.screens.above(aim_worst), ends.screens.values.size());
    };
    out += "\n";
    out += verdict(published, "Published, nobody can tell the rest");
    out += verdict(denied, "Published, the rest is no");
    out += fmt::format(
        "\nCounted as before, {} and {} of {} published cases take longer than {} screens.\n",
        published.as_before.above(aim_worst), denied.as_before.above(aim_worst),
        published.as_before.values.size(), aim_worst);
    out +=
        "\nUntil no single answer could reach the highest tier any more (where it is reached "
        "earlier, until then), screens:\n\n"
        "| cases, and their silence | cases | median | nine in ten within | worst |\n"
        "|---|---|---|---|---|\n";
    out += published.threats.row("published, nobody can tell the rest");
    out += denied.threats.row("published, the rest is no");
    out += denied_examples.threats.row("examples, the rest is no");
    out +=
        "\nWhat could be had at all: the fewest screens to the same tier, had somebody who knows "
        "all "
        "answers beforehand chosen them, out of those that these interviews showed. No order of "
        "the "
        "same screens can do better, so what lies between is the price of not knowing. More than "
        "three screens behind the complaint count as four:\n\n"
        "| cases, and their silence | cases | median | nine in ten within | worst |\n"
        "|---|---|---|---|---|\n";
    out += published.fewest.row("published, nobody can tell the rest");
    out += denied.fewest.row("published, the rest is no");
    out +=
        "\nBy the tier at the end, published cases, nobody can tell the rest:\n\n"
        "| tier | cases | median | nine in ten within | worst |\n|---|---|---|---|---|\n";
    for (auto& [tier, sample] : published.by_tier)
      out += sample.row(tier < pack_->tiers.size() ? pack_->tiers[tier].name : "nothing told");
    out += fmt::format(
        "\nUntil nothing more is worth asking, published cases: median {} screens where nobody can "
        "tell the rest, {} where it is no.\n",
        published.all.at(0.5), denied.all.at(0.5));
    out += fmt::format(
        "\nIn {} of these interviews where nobody can tell the rest, and in {} where it is no, the "
        "tier stands at last because it fell: an answer lowered what rested on likelihood. Had no "
        "more been asked, it would have stood higher.\n",
        published.by_fall, denied.by_fall);
    out += std::string("\n") + what_was_tried;
    out +=
        "\n## The tier of the whole case\n\nHow often the interview ends at the tier that all that "
        "the keeper told gives at once. A no can lower what rests on likelihood; what can be told "
        "neither way leaves it. A keeper is not asked for what needs hands, though a few told of "
        "it.\n\n"
        "| cases, and their silence | same tier | more urgent | less urgent |\n|---|---|---|---|\n";
    for (auto const& [name, ends] :
         {std::pair<std::string, Ends const*>{"published, nobody can tell the rest", &published},
          {"published, the rest is no", &denied},
          {"examples, nobody can tell the rest", &examples},
          {"examples, the rest is no", &denied_examples}})
      out += fmt::format("| {} | {} of {} | {} | {} |\n", name, ends->same,
                         ends->screens.values.size(), ends->more_urgent, ends->less_urgent);
    return out;
  }

  // By a nurse who first searches for what the dog came for, then goes through the lists.
  std::string keys_of_a_call() {
    constexpr std::size_t median_aim = 6;
    constexpr std::size_t worst_aim = 25;
    Sample keys;
    std::size_t never = 0;
    for (auto const& patient : published_) {
      auto const taken = take_call(tables_, patient);
      if (taken.to_tier)
        keys.values.push_back(taken.to_tier->keys);
      else
        ++never;
    }
    auto const verdict = [](bool is_reached) { return is_reached ? "reached" : "**missed**"; };
    return fmt::format(
        "\n## Keys of a call\n\n`flinch call` over the same published cases, all else being no: "
        "what "
        "the dog came for is searched by its label, every letter counted until it is among the "
        "first three; then lists, with 0 and digits. Keys until the urgency that all answers "
        "together give stands on the screen: median {}, aim {}, {}; nine in ten within {}; worst "
        "{}, aim {}, {} ({} of {} calls take more). In {} calls it had not come up when no open "
        "answer alone could raise what stood there, or after 600 keys.\n\n"
        "{}",
        keys.at(0.5), median_aim, verdict(keys.at(0.5) <= median_aim), keys.at(0.9), keys.at(1),
        worst_aim, verdict(keys.at(1) <= worst_aim), keys.above(worst_aim), keys.values.size(),
        never, what_was_tried_in_calls);
  }

  // Without a complaint, for someone who can examine everything.
  std::string against_other_orders() {
    Interview interview(tables_, Reader::clinician);
    std::vector<SignId> order;
    for (std::uint32_t i = 0; i < pack_->signs.size(); ++i) order.push_back(SignId{i});
    std::mt19937 random(20261125);
    Sample screens, questions, in_order, at_random;
    for (std::size_t i = 0; i < pack_->examples.size(); i += every_of_many) {
      auto const whole = assessor_.assess(pack_->examples[i].patient);
      auto const run = run_interview(tables_, interview, whole);
      screens.values.push_back(run.screens_to_tier);
      questions.values.push_back(run.questions_to_tier);
      in_order.values.push_back(run_in_order(tables_, order, whole).questions_to_tier);
      auto shuffled = order;
      for (auto left = shuffled.size(); left > 1; --left)  // the same on every library
        std::swap(shuffled[left - 1], shuffled[random() % left]);
      at_random.values.push_back(run_in_order(tables_, shuffled, whole).questions_to_tier);
    }
    std::string out =
        "\n## Against other orders\n\nUntil the tier stands, without a complaint, for someone who "
        "can examine everything; nobody can tell what the example is silent about. Every twelfth "
        "example:\n\n"
        "| how | examples | median | nine in ten within | worst |\n|---|---|---|---|---|\n";
    out += screens.row("the interview, screens");
    out += questions.row("the interview, lines of them");
    out += in_order.row("in the order of the files, questions");
    out += at_random.row("in random order, questions");
    return out;
  }

  // What the chosen limits are worth.
  std::string limits() {
    std::string out =
        "\n## The limits\n\nA question worth fewer bits than `least_bits` is not worth asking; one "
        "worth `alone_bits` is asked alone.\nOther choices, on the same examples:\n\n"
        "| least bits | bits to be asked alone | median screens to the tier | median screens in "
        "all | other tier | other first cause |\n|---|---|---|---|---|---|\n";
    for (auto const& [least, alone] : {std::pair{0.002, 0.2},
                                       {0.003, 0.2},
                                       {0.005, 0.2},
                                       {0.01, 0.2},
                                       {0.02, 0.2},
                                       {0.002, 0.05},
                                       {0.002, 0.1},
                                       {0.002, 0.4}}) {
      InterviewLimits limits;
      limits.least_bits = least;
      limits.alone_bits = alone;
      Interview interview(tables_, Reader::clinician, limits);
      Sample to_tier;
      Sample all;
      std::size_t other_tier = 0;
      std::size_t other_first = 0;
      for (std::size_t i = 0; i < pack_->examples.size(); i += every_of_many) {
        auto const whole = assessor_.assess(pack_->examples[i].patient);
        auto const run = run_interview(tables_, interview, whole);
        to_tier.values.push_back(run.screens_to_tier);
        all.values.push_back(run.screens);
        other_tier += run.tier != whole.judgement.tier ? 1 : 0;
        other_first += run.first != first_cause(whole) ? 1 : 0;
      }
      out += fmt::format("| {} | {} | {} | {} | {} | {} |\n", least, alone, to_tier.at(0.5),
                         all.at(0.5), other_tier, other_first);
    }
    return out;
  }

  std::shared_ptr<Pack const> pack_;
  Tables tables_;
  Assessor assessor_;
  std::vector<Case> published_;
};

// Nothing when a line is no sound case.
std::optional<std::vector<Case>> read_cases(char const* path) {
  auto const pack = shipped_pack();
  CaseLineReader reader(*pack);
  std::vector<Case> out;
  std::ifstream file(path, std::ios::binary);
  for (std::string line; std::getline(file, line);) {
    auto const& read = reader.read(line);
    if (!read) return std::nullopt;
    out.push_back(*read.value);
  }
  return out;
}

}  // namespace
}  // namespace flinch::test

int main(int count, char** arguments) {
  if (count != 3) {
    std::fputs("usage: interview_page OUTPUT CASES.jsonl\n", stderr);
    return 2;
  }
  auto cases = flinch::test::read_cases(arguments[2]);
  if (!cases || cases->empty()) {
    std::fputs("interview_page: no cases could be read\n", stderr);
    return 1;
  }
  std::ofstream file(arguments[1], std::ios::binary);
  file << flinch::test::Writer(std::move(*cases)).write();
  file.close();
  return file ? 0 : 1;
}
