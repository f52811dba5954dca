// What is typed in a call: answers, details of caller and patient, words to search for.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "call/call_model.hpp"
#include "desk/offer_taken.hpp"
#include "desk/ring_back_time.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

Date date_of(std::time_t time) {
  std::tm local{};
  localtime_r(&time, &local);
  return {local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
}

}  // namespace

void CallModel::commit_typed() {
  auto const sign = state_.subject;
  if (state_.typed.empty()) return go_on_asking();
  // A number here is one of a list that is on no screen.
  if (traits(pack()[sign]).has_places &&
      state_.typed.find_first_not_of("0123456789 ,") == std::string::npos)
    return refuse("Type the place in words; Esc goes back to the list");
  auto entry = read_typed(sign);
  if (!entry.answer && !entry.cannot_tell) return refuse(entry.remark);
  if (is_found(sign) && commit_places(sign, entry)) return;
  if (sign == patient_sign::weight_confirmed) return take_weight_again(std::move(entry));
  answer(sign, std::move(entry.answer));
}

// What was typed, as an answer; of breeds that were offered yes takes the only one, or its number.
Entry CallModel::read_typed(SignId sign) {
  auto const offered = std::exchange(offered_, {});
  bool const is_breed = sign == patient_sign::breed;
  if (auto const taken = offer_taken(offered.size(), state_.typed); is_breed && taken)
    return {offered[*taken], false, {}};
  auto entry = read_entry(pack(), sign, state_.typed, {date_of(state_.now), Side::any});
  if (is_breed && !entry.answer && !entry.cannot_tell) offered_ = entry.suggested;
  if (is_breed && !offered.empty() && read_yes_or_no(state_.typed))
    entry.remark = "Then type another name, or ? if unknown";
  return entry;
}

// Of what was found already: places are added to those known, and no word that is meant for the
// place takes the finding back.
bool CallModel::commit_places(SignId sign, flinch::Entry const& entry) {
  auto const& label = pack()[sign].label;
  if (entry.cannot_tell) {
    go_on_asking();
    state_.message = fmt::format("{}: yes, nobody can tell where", label);
    return true;
  }
  auto findings = std::get<Findings>(*entry.answer);
  if (!findings.found_somewhere) {
    report_trouble(fmt::format(
        "{} stays yes: type the place, Enter if not known; Ctrl-Z takes it back", label));
    return true;
  }
  auto const& earlier = std::get<Findings>(state_.result.find(sign)->answer).found;
  findings.found.insert(findings.found.begin(), earlier.begin(), earlier.end());
  std::vector<SiteMark> once;
  for (auto const& mark : findings.found)
    if (std::find(once.begin(), once.end(), mark) == once.end()) once.push_back(mark);
  findings.found = std::move(once);
  answer(sign, std::move(findings));
  return true;
}

std::string CallModel::field_text(DetailField const& field) const {
  if (field.text != nullptr) return state_.patient.*(field.text);
  for (auto const& [sign, answer] : state_.patient.answers)
    if (sign == field.sign) return answer_text(pack(), sign, answer);
  return "";
}

// Takes over what was typed in the field; false when it cannot be understood.
bool CallModel::commit_field() {
  if (!state_.is_editing) return true;
  auto const field = detail_fields(pack())[state_.field];
  auto const typed = state_.typed;
  if (typed != field_text(field)) {
    if (field.text != nullptr) {
      remember(fmt::format("{}: {}", field.label, typed));
      state_.patient.*(field.text) = typed;
    } else if (typed.empty()) {
      remember(fmt::format("{}: not known", field.label));
      forget(field.sign);
    } else if (field.sign == patient_sign::sex) {
      auto entry = read_sex(pack(), typed);
      if (!entry.sex && !entry.cannot_tell) {
        refuse(entry.remark.empty() ? fmt::format("And is the {} male or female?", pack().words.one)
                                    : entry.remark);
        return false;
      }
      remember(fmt::format("{}: {}", field.label, typed));
      set(field.sign, std::move(entry.sex));
      if (entry.neutered) set(patient_sign::neutered, std::move(entry.neutered));
    } else {
      auto entry = read_typed(field.sign);
      if (!entry.answer && !entry.cannot_tell) {
        refuse(entry.remark);
        return false;
      }
      bool const is_breed = entry.answer && field.sign == patient_sign::breed;
      remember(fmt::format("{}: {}", field.label,
                           is_breed ? answer_text(pack(), field.sign, *entry.answer) : typed));
      set(field.sign, std::move(entry.answer));
    }
    reassess();
  }
  state_.is_editing = false;
  state_.typed.clear();
  if (field.text == &Case::ring_back_at) date_ring_back();
  return true;
}

// A clock time that is over is tomorrow's: the day stands with it, as part of the same step.
void CallModel::date_ring_back() {
  auto& agreed = state_.patient.ring_back_at;
  auto const& tier = state_.result.judgement.tier;
  auto const time = agreed_time(agreed, tier ? &pack()[*tier] : nullptr, state_.now);
  if (!time) return;
  agreed = time->text;
  if (!time->warning.empty()) report_trouble(time->warning);
}

void CallModel::refuse(std::string const& why) {
  report_trouble(why);
  is_refused_ = true;
}

void CallModel::search_again() {
  state_.found = search_.find(state_.typed, found_at_most, asked());
  // "Doe" is no beginning of "does": no number is offered for what tells the sex.
  if (tells_sex(state_.typed) && (state_.found.empty() || !state_.found[0].is_exact))
    state_.found.clear();
  state_.cursor = 0;
  state_.is_picked = false;
}

}  // namespace flinch::cli
