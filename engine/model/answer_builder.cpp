#include "model/answer_builder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/model/choice.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "model/fit.hpp"
#include "model/measure_text.hpp"
#include "model/wording.hpp"

namespace flinch {
namespace {

void suggest(Diagnostic& diagnostic, std::string_view word,
             std::vector<std::string_view> const& names) {
  if (auto const near = nearest(word, names))
    diagnostic.did_you_mean(*near);
  else if (auto others = other_names(word, names))
    diagnostic.notes.push_back({std::move(*others), {}});
}

template <class Things>
std::vector<std::string_view> names_of(Things const& things) {
  std::vector<std::string_view> names;
  for (auto const& thing : things) names.push_back(thing.name);
  return names;
}

std::string way_of_answering(Sign const& sign) {
  return traits(sign).has_values ? fmt::format("it has {}", fmt::join(names_of(sign.values), ", "))
                                 : fmt::format("it {}", traits(sign).way);
}

// What such a word says of the sex, where it says that the patient is neutered as well.
std::optional<std::string_view> sex_of_the_neutered(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 20> words = {{
      {"castrated", "male"},
      {"wether", "male"},
      {"gelding", "male"},
      {"steer", "male"},
      {"capon", "male"},
      {"castrate", "male"},
      {"spayed", "female"},
      {"neutered", ""},
      {"desexed", ""},
      {"mn", "male"},
      {"mc", "male"},
      {"fn", "female"},
      {"fs", "female"},
      {"male neutered", "male"},
      {"neutered male", "male"},
      {"castrated male", "male"},
      {"female neutered", "female"},
      {"neutered female", "female"},
      {"female spayed", "female"},
      {"spayed female", "female"},
  }};
  auto const small = in_small_letters(word);
  for (auto const& [said, sex] : words)
    if (said == small) return sex;
  return std::nullopt;
}

// "male (buck), female (doe)": with the words of the pack, which are understood as well.
std::string sexes(SpeciesWords const& words) {
  auto const called = [](std::vector<std::string> const& also) {
    return also.empty() ? std::string() : fmt::format(" ({})", fmt::join(also, ", "));
  };
  return fmt::format("male{}, female{}", called(words.male), called(words.female));
}

// The name of the one site that has this title, or is also called so.
std::optional<std::string_view> site_called(Pack const& pack, std::string_view words) {
  auto const wanted = in_small_letters(words);
  std::optional<std::string_view> only;
  for (auto const& site : pack.sites) {
    auto const& also = site.also_called;
    bool const is_called = in_small_letters(site.title) == wanted ||
                           std::any_of(also.begin(), also.end(), [&](std::string const& one) {
                             return in_small_letters(one) == wanted;
                           });
    if (!is_called) continue;
    if (only) return std::nullopt;
    only = site.name;
  }
  return only;
}

std::string_view a_paired_site(Pack const& pack) {
  for (auto const& site : pack.sites)
    if (site.paired) return site.name;
  return "SITE";
}

}  // namespace

// An everyday word of the pack for one of the sexes, or a slip of the key.
std::optional<std::string> AnswerBuilder::meant_sex(std::string_view word) const {
  if (word == "m" || word == "M") return "male";
  if (word == "f" || word == "F") return "female";
  // A word of the pack is what was meant itself: it is understood, and a word for the neutered says
  // more than the sex.
  std::vector<std::string_view> said = {"male", "female"};
  auto const& words = pack_.words;
  for (auto const* of : {&words.male, &words.female, &words.neutered_male, &words.neutered_female})
    said.insert(said.end(), of->begin(), of->end());
  return nearest(word, said);
}

std::optional<SignId> AnswerBuilder::sign(std::string_view name, Place at) {
  if (auto const found = pack_.find_sign(name)) return found;
  suggest(report_.error(Code::unknown_name, at, fmt::format("unknown sign `{}`", shown(name))),
          name, names_of(pack_.signs));
  return std::nullopt;
}

bool AnswerBuilder::is_new(SignId sign, Place at) {
  auto const [earlier, is_new] = answered_.emplace(static_cast<std::uint32_t>(index(sign)), at);
  if (!is_new)
    report_.error(Code::answered_twice, at, fmt::format("`{}` is answered twice", pack_[sign].name))
        .notes.push_back({"first answered here", earlier->second});
  return is_new;
}

void AnswerBuilder::set(SignId sign, Answer answer, Place at) {
  if (sign == patient_sign::neutered && neutered_by_word_) {
    if (answer == Answer(false)) not_neutered(*neutered_by_word_, "is answered no", at);
    return;
  }
  if (is_new(sign, at)) case_.answers.emplace_back(sign, std::move(answer));
}

// A word for the neutered answers `neutered` too, whether that stands beside it or not.
void AnswerBuilder::sex(SexWord told, std::string_view word, Place at) {
  set(patient_sign::sex, Choice{told.is_male ? 0U : 1U}, at);
  if (!told.is_neutered) return;
  auto const beside =
      std::find_if(case_.answers.begin(), case_.answers.end(),
                   [](auto const& answer) { return answer.first == patient_sign::neutered; });
  auto const& untold = case_.cannot_tell;
  if (std::find(untold.begin(), untold.end(), patient_sign::neutered) != untold.end())
    not_neutered(word, "could not be told", at);
  else if (beside == case_.answers.end())
    set(patient_sign::neutered, true, at);
  else if (beside->second == Answer(false))
    not_neutered(word, "is answered no", at);
  neutered_by_word_ = word;
}

void AnswerBuilder::not_neutered(std::string_view word, std::string_view beside, Place at) {
  report_
      .error(Code::answered_twice, at,
             fmt::format("`{}` says neutered, and `neutered` {}", word, beside))
      .notes.push_back({"one of the two is wrong", {}});
}

// As an example of what may be answered.
static std::string lowest_amount(Sign const& sign) {
  return fmt::format("{:g}{}{}", sign.low, sign.unit.name.empty() ? "" : " ", sign.unit.name);
}

void AnswerBuilder::yes_or_no(SignId sign, bool yes, Place at) {
  if (traits(pack_[sign]).takes_yes_or_no) return set(sign, plain_answer(pack_[sign], yes), at);
  auto& error = report_.error(Code::answer_misfit, at,
                              fmt::format("`{}` is not answered yes or no", pack_[sign].name));
  if (!pack_[sign].values.empty())
    error.notes.push_back({fmt::format("it has {}: an example says `with {} {}`, a case `{}: {}`",
                                       fmt::join(names_of(pack_[sign].values), ", "),
                                       pack_[sign].name, pack_[sign].values.front().name,
                                       pack_[sign].name, pack_[sign].values.front().name),
                           {}});
  else if (traits(pack_[sign]).is_number)
    error.notes.push_back({fmt::format("it is a number, told with its unit: an example says `with "
                                       "{0} {1}`, a case `{0}: {1}`",
                                       pack_[sign].name, lowest_amount(pack_[sign])),
                           {}});
}

void AnswerBuilder::cannot_tell(SignId sign, Place at) {
  if (sign == patient_sign::neutered && neutered_by_word_)
    return not_neutered(*neutered_by_word_, "could not be told", at);
  if (is_new(sign, at)) case_.cannot_tell.push_back(sign);
}

void AnswerBuilder::written(SignId sign, std::string_view text, Place at) {
  if (text == "can't tell") return cannot_tell(sign, at);
  if (traits(pack_[sign]).is_number)
    if (auto const read = read_amount(text)) return amount(sign, read->value, read->unit, at);
  word(sign, text, at);
}

void AnswerBuilder::word(SignId sign, std::string_view word, Place at) {
  auto const& s = pack_[sign];
  auto const& its = traits(s);
  if (its.takes_yes_or_no && (word == "yes" || word == "no"))
    return set(sign, plain_answer(s, word == "yes"), at);
  if (auto const choice = find_choice(pack_, s, word)) return set(sign, *choice, at);
  if (its.has_places) return found(sign, word, at);
  if (its.has_values) return unlisted_value(sign, word, at);
  if (its.is_breed) return unknown_breed(word, at);
  if (its.is_number) {
    report_.error(
        Code::answer_misfit, at,
        fmt::format(
            "`{}` is a number{}", s.name,
            s.unit.name.empty()
                ? ""
                : fmt::format(" with its unit, such as `{} {}`",
                              syntax::print_number(s.low > 0 ? s.low : s.high / 2), s.unit.name)));
    return;
  }
  report_
      .error(Code::answer_misfit, at,
             fmt::format("`{}` is answered yes or no, not `{}`", s.name, word))
      .notes.push_back(
          {"what nobody could tell is `can't tell` in a case, `unknown` in an example", {}});
}

void AnswerBuilder::unknown_breed(std::string_view word, Place at) {
  if (forgives_breeds_) return;
  std::vector<std::string_view> keys;
  for (auto const& breed : pack_.breeds.breeds) keys.push_back(breed.key);
  suggest(report_.error(Code::unknown_name, at, fmt::format("unknown breed `{}`", shown(word))),
          word, keys);
}

// No value of that name: of a sex it may be an everyday word of the pack.
void AnswerBuilder::unlisted_value(SignId sign, std::string_view word, Place at) {
  auto const& s = pack_[sign];
  bool const is_sex = sign == patient_sign::sex;
  if (is_sex) {
    if (auto const told = sex_called(pack_.words, word)) return sex(*told, word, at);
    if (forgives_sexes_) return;
  }
  auto& error =
      report_.error(Code::unknown_value, at,
                    fmt::format("`{}` has no {} `{}`; it has {}", s.name, traits(s).value, word,
                                is_sex ? sexes(pack_.words)
                                       : fmt::format("{}", fmt::join(names_of(s.values), ", "))));
  if (is_sex) return explain_sex(error, word);
  if (auto const near = nearest(word, names_of(s.values))) error.did_you_mean(*near);
}

void AnswerBuilder::explain_sex(Diagnostic& error, std::string_view word) const {
  if (auto const sex = sex_of_the_neutered(word)) {
    error.notes.push_back(
        {shows_examples_
             ? fmt::format("whether it is neutered stands beside the sex: `sex {}, neutered yes`",
                           sex->empty() ? "male" : *sex)
             : fmt::format(
                   "`neutered: yes` stands beside the sex: {}",
                   sex->empty() ? "`sex: male` or `sex: female`" : fmt::format("`sex: {}`", *sex)),
         {}});
    return;
  }
  auto const& young = pack_.words.young;
  if (std::find(young.begin(), young.end(), in_small_letters(word)) != young.end())
    error.notes.push_back(
        {fmt::format("`{}` tells that it is young: say its age, as in `age 5 months`", word), {}});
  else if (auto const near = meant_sex(word))
    error.did_you_mean(*near);
}

void AnswerBuilder::amount(SignId sign, double value, std::string_view unit_name, Place at) {
  auto const& s = pack_[sign];
  if (!traits(s).is_number) {
    report_.error(Code::answer_misfit, at,
                  fmt::format("`{}` is not a number: {}", s.name, way_of_answering(s)));
    return;
  }
  auto const fitting = fitting_amount(s, value, unit_name, at, report_);
  if (!fitting) return;
  if (!is_believable(pack_, sign, *fitting, value, unit_name, at, report_)) return;
  set(sign, *fitting, at);
}

std::optional<SiteMark> AnswerBuilder::site(SignId sign, std::string_view text, Place at) {
  SiteMark mark;
  auto name = text;
  for (auto const& [word, side] : {std::pair{"left ", Side::left}, {"right ", Side::right}}) {
    if (!name.starts_with(word)) continue;
    mark.side = side;
    name.remove_prefix(std::string_view(word).size());
  }
  auto found = pack_.find_site(name);
  // As people say it, where only one site is called so.
  if (!found)
    if (auto const called = site_called(pack_, name)) found = pack_.find_site(*called);
  if (!found) {
    auto& error =
        report_.error(Code::unknown_name, at, fmt::format("unknown site `{}`", shown(name)));
    auto const last = name.substr(name.rfind(' ') + 1);
    auto const first = name.substr(0, std::min(name.find(' '), name.size()));
    if ((last == "left" || last == "right") && pack_.find_site(first))
      error.did_you_mean(fmt::format("{} {}", last, first));
    else if (name.find(',') != std::string_view::npos)
      error.notes.push_back({fmt::format("several places are a list: `[{}]`", text), {}});
    else if (name == "left" || name == "right")
      error.notes.push_back({fmt::format("the side stands before its site, as in `{} {}`", name,
                                         a_paired_site(pack_)),
                             {}});
    else
      suggest(error, name, names_of(pack_.sites));
    return std::nullopt;
  }
  mark.site = *found;
  if (!site_fits(pack_, pack_[sign], mark, at, report_)) return std::nullopt;
  return mark;
}

Findings* AnswerBuilder::findings(SignId sign, Place at) {
  if (!traits(pack_[sign]).has_places) {
    report_.error(Code::answer_misfit, at,
                  fmt::format("`{}` is not answered by sites: {}", pack_[sign].name,
                              way_of_answering(pack_[sign])));
    return nullptr;
  }
  auto const same = std::find_if(case_.answers.begin(), case_.answers.end(),
                                 [&](auto const& answer) { return answer.first == sign; });
  if (same != case_.answers.end()) return std::get_if<Findings>(&same->second);
  if (!is_new(sign, at)) return nullptr;
  case_.answers.emplace_back(sign, Findings{});
  return std::get_if<Findings>(&case_.answers.back().second);
}

void AnswerBuilder::found(SignId sign, std::string_view text, Place at) {
  auto* findings = this->findings(sign, at);
  if (findings == nullptr) return;
  if (findings->clear_everywhere) {
    report_.error(Code::answered_twice, at,
                  fmt::format("`{}` is answered no and found", pack_[sign].name));
    return;
  }
  findings->found_somewhere = true;
  if (text.empty()) return;
  if (auto const mark = site(sign, text, at)) findings->found.push_back(*mark);
}

void AnswerBuilder::clear(SignId sign, std::string_view text, Place at) {
  auto* findings = this->findings(sign, at);
  if (findings == nullptr) return;
  if (auto const mark = site(sign, text, at)) findings->clear.push_back(*mark);
}

void AnswerBuilder::refuse_never_neutered() {
  auto const answer_to = [&](SignId sign) -> Answer const* {
    auto const found = std::find_if(case_.answers.begin(), case_.answers.end(),
                                    [&](auto const& answer) { return answer.first == sign; });
    return found == case_.answers.end() ? nullptr : &found->second;
  };
  auto const* neutered = answer_to(patient_sign::neutered);
  auto const* sex = answer_to(patient_sign::sex);
  if (neutered == nullptr || *neutered != Answer(true)) return;
  auto const& never = pack_.sex_never_neutered;
  bool const is_of_that_sex = never && sex != nullptr && *sex == Answer(Choice{*never});
  if (!pack_.is_never_neutered && !is_of_that_sex) return;
  auto const who =
      is_of_that_sex ? "a " + pack_[patient_sign::sex].values[*never].name : std::string("it");
  report_
      .error(Code::answer_misfit,
             answered_.at(static_cast<std::uint32_t>(index(patient_sign::neutered))),
             fmt::format("this pack says that {} is never neutered", who))
      .notes.push_back({"leave out `neutered`, or take `never neutered` out of the pack", {}});
}

Case AnswerBuilder::take() {
  for (auto& [sign, answer] : case_.answers)
    if (auto* findings = std::get_if<Findings>(&answer))
      findings->clear_everywhere =
          findings->clear_everywhere || is_clear_all_over(pack_, pack_[sign], *findings);
  std::sort(case_.answers.begin(), case_.answers.end(),
            [](auto const& a, auto const& b) { return a.first < b.first; });
  answered_.clear();
  return std::exchange(case_, {});
}

}  // namespace flinch
