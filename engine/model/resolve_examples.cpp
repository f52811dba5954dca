// The patients of a pack's examples, and what is promised of them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/text/nearest.hpp"
#include "model/answer_builder.hpp"
#include "model/fit.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

namespace flinch {

void Resolver::examples() {
  for (auto const& written : written_examples_) {
    auto const& e = *written.statement;
    Example out;
    out.name = e.name.text;
    out.title = title_or_name(e);
    out.at = e.name.at;
    example_answers(e, out);
    if (e.expect.empty() && !written.has_lost("expect")) missing("example", e.name, "expect");
    for (auto const& p : e.expect)
      if (auto resolved = promise(p)) out.promises.push_back(std::move(*resolved));
    pack_.examples.push_back(std::move(out));
  }
}

void Resolver::example_answers(syntax::Example const& written, Example& out) {
  AnswerBuilder builder(pack_, report_);
  builder.shows_examples();
  if (!is_whole_ && pack_.breeds.breeds.empty()) builder.forgive_breeds();
  if (!written_packs_.empty() && written_packs_.front().has_lost("called")) builder.forgive_sexes();
  auto const sign_of = [&](syntax::Name const& name) -> std::optional<SignId> {
    auto const found = sign_names_.find(name, report_);
    if (found && is_kind_unknown(*found)) return std::nullopt;
    if (found && *found < first_means_) return SignId{*found};
    if (found)
      report_.error(Code::answer_misfit, name.at,
                    fmt::format("`{}` is a meaning: an example answers signs", name.text));
    return std::nullopt;
  };
  auto const setting = [&](syntax::Setting const& s) {
    auto const sign = sign_of(s.name);
    if (!sign) return;
    if (auto const* quantity = std::get_if<syntax::Quantity>(&s.value))
      builder.amount(*sign, quantity->value, quantity->unit, quantity->at);
    else
      builder.word(*sign, std::get<syntax::Name>(s.value).text, std::get<syntax::Name>(s.value).at);
  };
  auto const side_and_site = [](syntax::SitePlace const& place) {
    return (place.side == Side::left    ? "left "
            : place.side == Side::right ? "right "
                                        : "") +
           place.site.text;
  };
  // A site whose statement could not be read was reported there.
  auto const is_to_say = [&](syntax::SitePlace const& place) {
    return pack_.find_site(place.site.text) || !site_names_.is_forgiven(place.site.text);
  };
  for (auto const& facts : written.patient) {
    // Where the species could not be read, or is missing and that was said, all lines are taken.
    bool const is_named = !pack_.species.empty();
    bool const is_open = !is_named && (is_unnamed_told_ || written_packs_.empty() ||
                                       written_packs_.front().damaged());
    if (is_open || facts.species.text == pack_.patient_key()) {
      for (auto const& s : facts.settings) setting(s);
      continue;
    }
    is_unnamed_told_ = !is_named;
    auto& error = report_.error(
        Code::case_species, facts.species.at,
        pack_.species.empty()
            ? fmt::format("this pack names no species: the line begins with `patient`, not `{}`",
                          facts.species.text)
            : fmt::format("this pack is for the species `{}`, not `{}`", pack_.species,
                          facts.species.text));
    if (!is_named)
      error.notes.push_back({fmt::format("or the pack says its species, as in `species {} \"ONE\", "
                                         "\"MANY\"`",
                                         facts.species.text),
                             {}});
    else if (auto const near = nearest(facts.species.text, {pack_.patient_key()}))
      error.did_you_mean(*near);
    else
      error.notes.push_back(
          {fmt::format("the line begins with `{}`, as the pack calls its species", pack_.species),
           {}});
  }
  for (auto const& s : written.with) setting(s);
  for (auto const& name : written.yes)
    if (auto const sign = sign_of(name)) builder.yes_or_no(*sign, true, name.at);
  for (auto const& name : written.no)
    if (auto const sign = sign_of(name)) builder.yes_or_no(*sign, false, name.at);
  for (auto const& name : written.unknown)
    if (auto const sign = sign_of(name)) builder.cannot_tell(*sign, name.at);
  for (auto const& finding : written.found) {
    auto const sign = sign_of(finding.sign);
    if (!sign) continue;
    if (finding.places.empty()) builder.found(*sign, "", finding.sign.at);
    for (auto const& place : finding.places)
      if (is_to_say(place)) builder.found(*sign, side_and_site(place), place.at);
  }
  for (auto const& finding : written.clear) {
    auto const sign = sign_of(finding.sign);
    if (!sign) continue;
    for (auto const& place : finding.places)
      if (is_to_say(place)) builder.clear(*sign, side_and_site(place), place.at);
  }
  builder.refuse_never_neutered();
  out.patient = builder.take();
  out.patient.name = out.name;
}

std::optional<Promise> Resolver::promise(syntax::Promise const& written) {
  using Kind = syntax::Promise::Kind;
  Promise out;
  out.kind = written.kind;
  out.text = syntax::print(written);
  auto const refers = syntax::words_of(written.kind).refers;
  if (!refers) return out;
  if (*refers == syntax::NameKind::cause) {
    auto const cause = cause_named(written.name);
    if (!cause) return std::nullopt;
    out.subject = static_cast<std::uint32_t>(*cause);
  } else {
    auto const& names = *refers == syntax::NameKind::alarm  ? alarm_names_
                        : *refers == syntax::NameKind::care ? care_names_
                                                            : tier_names_;
    auto const found = names.find(written.name, report_);
    if (!found) return std::nullopt;
    out.subject = *found;
  }
  if (written.amount) {
    out.amount = promised_amount(written);
    if (!out.amount) return std::nullopt;
  }
  if (written.portion) {
    out.portion = promised_portion(written);
    if (!out.portion) return std::nullopt;
  }
  if (written.kind == Kind::among) {
    if (written.rank.value < 1 || written.rank.value > 100) {
      report_.error(Code::count_range, written.rank.at, "a rank from 1 to 100 fits here");
      return std::nullopt;
    }
    out.rank = static_cast<std::uint32_t>(written.rank.value);
  }
  return out;
}

// In the unit in which care tells it; nothing where the measure has no dose of that kind.
std::optional<PromisedAmount> Resolver::promised_amount(syntax::Promise const& written) {
  auto const measure = care_names_.find(written.name.text);
  auto const& entry = written_care_.at(*measure);
  auto const& give = entry.statement->give;
  if (!give) {
    if (!entry.damaged())
      report_.error(
          Code::unit_misfit, written.amount->at,
          fmt::format("`{}` gives nothing by amount: it has no `give`", written.name.text));
    return std::nullopt;
  }
  auto const& dosed = give->up_to ? *give->up_to : give->amount;
  auto unit = find_unit(dosed.unit);
  bool const lacks_unit = give->per != syntax::PerWeight::no && dosed.unit.empty();
  if (!unit || lacks_unit) return std::nullopt;  // said of the dose
  if (unit->dimension == Dimension::share) unit = find_unit("g");
  auto const in_its_unit = [&](syntax::Quantity const& told) -> std::optional<double> {
    auto const own = find_unit(told.unit);
    if (own && own->dimension == unit->dimension) return convert(told.value, *own, *unit);
    report_.error(
        Code::unit_misfit, told.at,
        unit->dimension == Dimension::none
            ? fmt::format("`{}` is given by number, without a unit", written.name.text)
            : fmt::format("an amount of `{}` is told in `{}`; these fit: {}", written.name.text,
                          unit->name, units_that_fit(unit->dimension)));
    return std::nullopt;
  };
  for (auto const& told : {written.amount, written.up_to})
    if (told && told->value <= 0) {
      report_.error(Code::empty_range, told->at, "an amount that is given lies above 0");
      return std::nullopt;
    }
  auto least = *written.amount;
  if (least.unit.empty() && written.up_to) least.unit = written.up_to->unit;
  auto const first = in_its_unit(least);
  if (!first) return std::nullopt;
  if (!written.up_to) return PromisedAmount{{}, *first, std::string(unit->name)};
  auto const most = in_its_unit(*written.up_to);
  if (!most) return std::nullopt;
  if (*first < *most) return PromisedAmount{first, *most, std::string(unit->name)};
  report_.error(Code::empty_range, cover(written.amount->at, written.up_to->at),
                "amounts run from the least to the most");
  return std::nullopt;
}

// Of a form that the measure has; a liquid in mL, whatever volume it was told in.
std::optional<PromisedPortion> Resolver::promised_portion(syntax::Promise const& written) {
  using syntax::FormKind;
  constexpr std::array<std::pair<std::string_view, FormKind>, 6> counted = {
      {{"tablet", FormKind::tablet},
       {"tablets", FormKind::tablet},
       {"capsule", FormKind::capsule},
       {"capsules", FormKind::capsule},
       {"spoon", FormKind::spoon},
       {"spoons", FormKind::spoon}}};
  auto const& entry = written_care_.at(*care_names_.find(written.name.text));
  auto const& last = written.portion_up_to ? *written.portion_up_to : *written.portion;
  auto const* pieces = std::find_if(counted.begin(), counted.end(),
                                    [&](auto const& row) { return row.first == last.unit; });
  auto const volume = find_unit(last.unit);
  bool const is_liquid = volume && volume->dimension == Dimension::volume;
  if (pieces == counted.end() && !is_liquid) {
    report_.error(Code::unit_misfit, last.at,
                  fmt::format("what is drawn up is told in mL, what is counted in `tablets`, "
                              "`capsules` or `spoons`, as in `in 4 mL`, `in 1.5 tablets`"));
    return std::nullopt;
  }
  auto const kind = is_liquid ? FormKind::liquid : pieces->second;
  auto const& forms = entry.statement->forms;
  bool const has_it =
      std::any_of(forms.begin(), forms.end(), [&](auto const& form) { return form.kind == kind; });
  if (!has_it) {
    if (!entry.damaged())
      report_.error(Code::unit_misfit, last.at,
                    fmt::format("`{}` has no `form` that is measured so", written.name.text));
    return std::nullopt;
  }
  // `2 tablets to 4 mL`: the first may do without its unit, and has no other.
  if (auto const& first = written.portion->unit; written.portion_up_to && !first.empty()) {
    auto const* const own = std::find_if(counted.begin(), counted.end(),
                                         [&](auto const& row) { return row.first == first; });
    auto const of_volume = find_unit(first);
    bool const is_alike = is_liquid ? of_volume && of_volume->dimension == Dimension::volume
                                    : own != counted.end() && own->second == kind;
    if (!is_alike) {
      report_.error(Code::unit_misfit, written.portion->at,
                    fmt::format("both ends are told in the same unit: `{:g} to {:g} {}`",
                                written.portion->value, last.value, last.unit));
      return std::nullopt;
    }
  }
  auto const count = [&](syntax::Quantity const& told) {
    auto const own = find_unit(told.unit);
    return is_liquid && own && own->dimension == Dimension::volume
               ? convert(told.value, *own, *find_unit("mL"))
           : is_liquid ? convert(told.value, *volume, *find_unit("mL"))
                       : told.value;
  };
  auto const most = count(last);
  auto const least = written.portion_up_to ? std::optional(count(*written.portion)) : std::nullopt;
  if (most > 0 && (!least || (*least > 0 && *least < most)))
    return PromisedPortion{kind, least, most};
  report_.error(Code::empty_range, written.portion->at,
                "what is drawn up or counted lies above 0, and runs from the least to the most");
  return std::nullopt;
}

}  // namespace flinch
