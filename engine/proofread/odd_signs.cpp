// Steps that do not begin with the usual, questions that nobody can answer at once, names alike.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <unordered_map>

#include "flinch/text/nearest.hpp"
#include "model/walk.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

class OddSigns {
 public:
  OddSigns(Pack const& pack, Remarks& remarks) : pack_(pack), remarks_(remarks) {}

  void find() {
    find_first_steps_in_alarms();
    for (std::size_t i = patient_sign::count; i < pack_.signs.size(); ++i) look(pack_.signs[i]);
    for (auto const& rule : pack_.rules) look(rule);
    find_alike(pack_.signs, "sign");
    find_alike(pack_.causes, "cause");
  }

 private:
  void look(Sign const& sign) {
    if (sign.asked_first && sign.seen_by == SeenBy::clinic)
      remarks_.add(
          Code::first_for_clinic, sign.at, {sign.at},
          fmt::format("`{}` is asked first of every patient, and only a clinic can tell it",
                      sign.name),
          "at home nobody can answer, and what matters is asked later",
          "take `asked first` out, or mend `seen by`");
    bool const is_choice_of_times =
        sign.asked_first && sign.kind == AnswerKind::one_of && tells_since_when(sign);
    if (is_choice_of_times)
      remarks_.add(Code::step_order, sign.at, {sign.at},
                   fmt::format("the answers of `{}` are times, and have no order", sign.name),
                   "since when it has been is asked by `answer steps` alone",
                   "write `answer steps` in the place of `answer one of`");
    if (!traits(sign).has_order) return;
    constexpr std::array<std::string_view, 7> usual = {"normal", "usual", "as_usual", "well",
                                                       "fine",   "ok",    "healthy"};
    for (std::size_t i = 1; i < sign.values.size(); ++i)
      if (std::find(usual.begin(), usual.end(), sign.values[i].name) != usual.end())
        return say_order(
            sign, sign.at, {sign.at},
            fmt::format("`{}` is not the first step of `{}`", sign.values[i].name, sign.name));
  }

  // The first step is the usual one; a danger lies further on.
  void find_first_steps_in_alarms() {
    for (auto const& alarm : pack_.alarms)
      walk_tests(pack_, alarm.trigger(), [&](Condition const& leaf, Polarity polarity) {
        auto const& sign = pack_[leaf.test.sign];
        bool const is_first = traits(sign).has_order && !sign.of_the_patient &&
                              !tells_since_when(sign) && polarity == Polarity::positive &&
                              leaf.test.kind == Test::Kind::is_value &&
                              leaf.test.values.front() == 0;
        if (!is_first) return;
        auto const statement = alarm.floor_of ? sign.at : alarm.at;
        say_order(sign, leaf.at, {statement, sign.at},
                  fmt::format("`{}`, the first step of `{}`, sets off the {} `{}`",
                              sign.values.front().name, sign.name,
                              alarm.floor_of ? "floor" : "alarm", alarm.name));
      });
  }

  // The shares of a rule go by the order of its bands, which a reader takes for that of the steps.
  void look(Rule const& rule) {
    auto const& sign = pack_[rule.over];
    if (rule.condition || !traits(sign).has_order) return;
    std::vector<std::uint32_t> order;
    for (auto const& band : rule.bands)
      if (!band.test.values.empty()) order.push_back(band.test.values.front());
    if (order.size() != rule.bands.size() || std::is_sorted(order.begin(), order.end()) ||
        std::is_sorted(order.rbegin(), order.rend()))
      return;
    std::vector<std::string> steps;
    for (auto const& value : sign.values) steps.push_back(value.name);
    remarks_.add(Code::step_order, rule.at, {rule.at},
                 fmt::format("the bands of rule `{}` stand in another order than the steps of "
                             "`{}`: {}",
                             rule.name, sign.name, fmt::join(steps, ", ")),
                 "each share belongs to the band in its place, so two of them may have changed "
                 "places",
                 "write the bands, and the shares with them, in the order of the steps");
  }

  // There the shortest time comes first, and may be the worst.
  static bool tells_since_when(Sign const& sign) {
    return std::all_of(sign.values.begin(), sign.values.end(), [](Value const& value) {
      auto const unit = find_unit(value.name);
      return unit && unit->dimension == Dimension::time;
    });
  }

  void say_order(Sign const& sign, Place at, std::vector<Place> statements, std::string what) {
    remarks_.add(Code::step_order, at, std::move(statements), std::move(what),
                 "steps stand from the usual to the worst: `at least` and the usual answer go by "
                 "their order",
                 fmt::format("turn the steps of `{}` round, or write `one of` where they have no "
                             "order",
                             sign.name));
  }

  // Two names with one difference between them share one of their two forms with a letter left out
  // or two neighbours changed over, so each is compared with few others.
  template <class Things>
  void find_alike(Things const& things, std::string_view kind) {
    constexpr std::size_t shortest = 5;  // shorter names differ by a letter as a matter of course
    std::unordered_multimap<std::string, std::size_t> by_form;
    for (std::size_t i = 0; i < things.size(); ++i) {
      auto const& name = things[i].name;
      if (name.size() < shortest || things[i].at.span.end == 0) continue;
      std::vector<std::string> forms{name};
      for (std::size_t cut = 0; cut < name.size(); ++cut)
        forms.push_back(std::string(name).erase(cut, 1));
      std::vector<std::size_t> seen;
      for (auto const& form : forms) {
        auto const [first, last] = by_form.equal_range(form);
        for (auto other = first; other != last; ++other)
          if (std::find(seen.begin(), seen.end(), other->second) == seen.end())
            seen.push_back(other->second);
      }
      for (auto const other : seen)
        if (edit_distance(name, things[other].name, 1) == 1 &&
            !differ_by_digit(name, things[other].name) && !is_slip_told(things[other], things[i]))
          say_alike(things[other], things[i], kind);
      for (auto& form : forms) by_form.emplace(std::move(form), i);
    }
  }

  // `yew_g`, `yew_h`: whoever names the one for the other is told that its unit does not fit.
  static bool is_slip_told(Sign const& a, Sign const& b) {
    return traits(a).is_number && traits(b).is_number && a.unit.dimension != b.unit.dimension;
  }
  static bool is_slip_told(Cause const&, Cause const&) { return false; }

  // `vomits_2`, `vomits_3` are meant to be told apart.
  static bool differ_by_digit(std::string_view a, std::string_view b) {
    auto const digits = [](std::string_view name) {
      return std::count_if(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; });
    };
    auto const letters = [](std::string_view name) {
      std::string out;
      for (char const c : name)
        if (c < '0' || c > '9') out += c;
      return out;
    };
    return digits(a) + digits(b) > 0 && letters(a) == letters(b);
  }

  template <class Thing>
  void say_alike(Thing const& first, Thing const& second, std::string_view kind) {
    remarks_
        .add(Code::names_alike, second.at, {first.at, second.at},
             fmt::format("the {}s `{}` and `{}` differ by one letter", kind, first.name,
                         second.name),
             "a slip of one key names the other, and nobody is told",
             "give one of them another name, or make one of the two")
        .notes.push_back({fmt::format("`{}` is here", first.name), first.at});
  }

  Pack const& pack_;
  Remarks& remarks_;
};

}  // namespace

void find_odd_signs(Pack const& pack, Remarks& remarks) { OddSigns(pack, remarks).find(); }

}  // namespace flinch
