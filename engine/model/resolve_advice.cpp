// What sets tiers by itself, and what may be done at home.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "model/human_painkillers.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

// Of what is given no way is said: it may be swallowed, and what may be is held back as what is.
// Only a time is nothing that could be.
bool may_be_swallowed(syntax::Dose const& dose) {
  auto const unit = find_unit((dose.up_to ? *dose.up_to : dose.amount).unit);
  return !dose.route && !(unit && unit->dimension == Dimension::time);
}

}  // namespace

void Resolver::alarms() {
  for (auto const& written : written_alarms_) {
    auto const& a = *written.statement;
    Alarm out;
    out.name = a.name.text;
    out.title = title_or_name(a);
    out.at = a.name.at;
    out.say = a.say ? a.say->text : "";
    for (auto const& name : a.gives_way_to)
      if (auto const other = care_names_.find(name, report_)) out.gives_way_to.push_back(*other);
    if (a.condition) {
      if (auto resolved = condition(*a.condition))
        out.condition = with_unless(std::move(*resolved), a.unless);
    } else if (!written.has_lost("if")) {
      missing("alarm", a.name, "if");
    }
    if (a.see) {
      if (auto const tier = tier_named(*a.see)) out.see = *tier;
    } else if (!written.has_lost("see")) {
      missing("alarm", a.name, "see");
    }
    out.on_purpose = a.on_purpose.has_value();
    rationale("alarm", written, out.because, out.cites);
    pack_.alarms.push_back(std::move(out));
  }
  floors();
}

void Resolver::floors() {
  auto name = floor_names_.begin();
  for (std::size_t i = 0; i < written_signs_.size(); ++i) {
    SignId const sign{static_cast<std::uint32_t>(patient_sign::count + i)};
    for (auto const& floor : written_signs_[i].statement->alone) {
      Alarm out;
      out.name = *name++;
      out.at = floor.see.at;
      out.floor_of = sign;
      if (auto const tier = tier_names_.find(floor.see, report_)) out.see = TierId{*tier};
      if (auto resolved = floor_condition(*written_signs_[i].statement, floor)) {
        out.title = floor_title(pack_, resolved->test);
        out.condition = with_unless(std::move(*resolved), floor.unless);
      }
      out.because = floor.because.text;
      out.cites = cited(floor.cites);
      pack_.alarms.push_back(std::move(out));
    }
  }
}

std::optional<Condition> Resolver::floor_condition(syntax::Sign const& sign,
                                                   syntax::Floor const& floor) {
  if (!sign.answer) return std::nullopt;  // reported already
  auto const& resolved = pack_[*pack_.find_sign(sign.name.text)];
  bool const is_bare = std::holds_alternative<std::monostate>(floor.test.test);
  bool const needs_value = !traits(resolved).takes_yes_or_no;
  if (is_bare && needs_value) {
    report_.error(Code::test_misfit, floor.see.at,
                  fmt::format("`{}` is not answered yes or no: say from which answer on, as in "
                              "`alone see {} if {}`",
                              sign.name.text, floor.see.text, traits(resolved).test));
    return std::nullopt;
  }
  if (!is_bare && traits(resolved).is_plain) {
    report_.error(Code::test_misfit, floor.see.at,
                  fmt::format("`{}` is answered yes or no: leave out the `if`", sign.name.text));
    return std::nullopt;
  }
  auto test_of_sign = floor.test;
  test_of_sign.sign = {sign.name.text, floor.see.at};
  return test(test_of_sign);
}

void Resolver::care() {
  for (auto const& written : written_care_) {
    auto const& c = *written.statement;
    Care out;
    out.name = c.name.text;
    out.title = title_or_name(c);
    out.give = c.give;
    out.how = c.how ? c.how->text : "";
    out.say = c.say ? c.say->text : "";
    for (auto const& name : c.gives_way_to) {
      auto const other = care_names_.find(name, report_);
      if (other && *other < pack_.care.size())
        out.gives_way_to.push_back(*other);
      else if (other)
        report_.error(Code::gives_way, name.at,
                      fmt::format("`{}` does not stand before this one: care is written in the "
                                  "order in which it is done, and gives way to what comes first",
                                  name.text));
    }
    out.at_most = c.at_most;
    out.forms = c.forms;
    out.for_clinician = c.for_clinician;
    out.problem = c.problem ? c.problem->text : "";
    out.at = c.name.at;
    out.watch = c.watch ? c.watch->text : "";
    out.by_mouth =
        c.by_mouth || (c.give && (syntax::is_by_mouth(*c.give) || may_be_swallowed(*c.give)));
    care_fasting(c, out);
    constexpr std::array<std::string_view, 5> says = {"give", "how", "avoid", "watch", "fasting"};
    bool const says_something = c.give || c.how || c.avoid || c.watch || c.fasting;
    bool const may_say = std::any_of(says.begin(), says.end(),
                                     [&](auto const clause) { return written.has_lost(clause); });
    if (!says_something && !may_say)
      report_
          .error(Code::missing_clause, c.name.at,
                 fmt::format("care `{}` says neither what to do nor what not", c.name.text))
          .notes.push_back(
              {"it has `give`, `how`, `avoid`, `watch` or `fasting`, at least one", {}});
    out.first_aid = c.first_aid;
    out.while_waiting = c.while_waiting;
    care_exposure(written, out);
    care_slimming(written, out);
    for (auto const& name : c.causes)
      if (auto const cause = cause_named(name)) out.causes.push_back(*cause);
    if (c.fit_if) out.fit_if = condition(*c.fit_if);
    auto const resolve_all = [&](std::vector<syntax::Gate> const& from, std::vector<CareGate>& to) {
      for (auto const& one : from)
        if (auto resolved = condition(one.condition))
          to.push_back({std::move(*resolved), one.reason ? one.reason->text : ""});
    };
    resolve_all(c.never_if, out.never_if);
    resolve_all(c.ask_vet_if, out.ask_vet_if);
    resolve_all(c.stop_if, out.stop_if);
    for (auto const& gate : c.stop_if)
      if (!gate.reason || gate.reason->text.empty())
        report_.error(Code::stop_reason, gate.condition.at,
                      "`stop if` needs its words behind it: they are all that tells the reader "
                      "when to stop");
    care_painkiller(c);
    care_dose(written);
    needs_weights(c);
    if (c.grade) {
      if (c.grade->text.size() == 1 && c.grade->text[0] >= 'A' && c.grade->text[0] <= 'D')
        out.grade = c.grade->text[0];
      else
        report_.error(Code::care_grade, c.grade->at, "`grade` is A, B, C or D");
    } else if (!written.has_lost("grade")) {
      missing("care", c.name, "grade");
    }
    rationale("care", written, out.because, out.cites);
    pack_.care.push_back(std::move(out));
  }
}

// What is to be done with a painkiller for people is told to clinicians alone. What not to do with
// one (`avoid`), and what was taken already, may be told to all.
void Resolver::care_painkiller(syntax::Care const& c) {
  if (c.for_clinician || c.taken || (!c.give && !c.how)) return;
  std::vector<std::pair<std::string_view, Place>> said = {{c.name.text, c.name.at}};
  for (auto const* text : {&c.title, &c.how, &c.say})
    if (*text) said.emplace_back((*text)->text, (*text)->at);
  for (auto const& [text, at] : said) {
    auto const name = human_painkiller_in(text);
    if (!name) continue;
    report_
        .error(Code::human_painkiller, at,
               fmt::format("`{}` is a painkiller for people: no keeper is told to give one", *name))
        .notes.push_back(
            {"a measure with it is `for clinician`; what not to do stands in `avoid`", {}});
    return;
  }
}

// What not to do; of food and water, what goes on with a fast and without one.
void Resolver::care_fasting(syntax::Care const& c, Care& out) {
  out.avoid = c.avoid ? c.avoid->text : c.fasting ? c.fasting->text : "";
  out.is_fasting = c.fasting.has_value();
  if (c.fasting && (c.give || c.how || c.avoid || c.watch || c.by_mouth))
    report_.error(Code::fasting, c.fasting->at,
                  "`fasting` says what goes on of food and water, and stands without `give`, "
                  "`how`, `avoid`, `watch` and `by mouth`");
  else if (c.by_mouth && c.avoid)
    report_.error(Code::fasting, c.avoid->at,
                  "what goes on of food and water before a visit is a `fasting`; `by mouth` marks "
                  "what is given");
  if (!c.otherwise) return;
  out.otherwise = c.otherwise->text;
  bool const is_said = std::any_of(pack_.care.begin(), pack_.care.end(),
                                   [](Care const& other) { return !other.otherwise.empty(); });
  if (!c.fasting)
    report_.error(Code::fasting, c.otherwise->at,
                  "`otherwise` says what goes on of food and water where nothing fasts, and stands "
                  "beside a `fasting`");
  else if (is_said)
    report_.error(Code::fasting, c.otherwise->at,
                  "one `fasting` of a pack says what goes on otherwise, and one did already");
}

// The figures of slimming, and the score that they hang on.
void Resolver::care_slimming(Written<syntax::Care> const& written, Care& out) {
  auto const& c = *written.statement;
  bool const has_figures = c.ideal_score || c.each_point || c.lost_a_week || !c.benefits.empty();
  if (!c.slims_by && !has_figures) return;
  auto const need = [&](bool is_there, std::string_view clause) {
    if (!is_there && !written.has_lost(clause)) missing("care", c.name, clause);
  };
  need(c.slims_by.has_value(), "slims by");
  need(c.ideal_score.has_value(), "ideal score");
  need(c.each_point.has_value(), "each point");
  need(c.lost_a_week.has_value(), "lost a week");
  if (c.ideal_score) out.slimming.ideal_score = c.ideal_score->value;
  if (c.ideal_score && out.slims_by) {
    auto const& score = pack_[*out.slims_by];
    if (c.ideal_score->value < score.low || c.ideal_score->value >= score.high)
      report_.error(Code::number_range, c.ideal_score->at,
                    fmt::format("the ideal score lies within those of `{}`, from {:g} and below "
                                "{:g}",
                                score.name, score.low, score.high));
  }
  auto const share = [&](syntax::Frequency const& figure) {
    auto const out_of_one = frequency(figure);
    if (out_of_one && (*out_of_one <= 0 || *out_of_one >= 1))
      report_.error(Code::frequency_range, figure.at,
                    "a share of the weight lies above 0% and below 100%");
    return out_of_one.value_or(0);
  };
  if (c.each_point) out.slimming.each_point = share(*c.each_point);
  if (c.lost_a_week) {
    out.slimming.slowest_a_week = share(c.lost_a_week->low);
    out.slimming.fastest_a_week = share(c.lost_a_week->high);
    if (out.slimming.slowest_a_week > out.slimming.fastest_a_week)
      report_.error(Code::empty_range, c.lost_a_week->low.at,
                    "what is lost a week goes from the lower share to the higher");
  }
  for (auto const& benefit : c.benefits)
    out.slimming.benefits.push_back({share(benefit.from), benefit.text.text});
}

}  // namespace flinch
