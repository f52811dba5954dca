#include "ask/question_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/model/shown_weight.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// What is asked beside the sex, where the one that is never neutered does not settle it.
std::string asked_of_neutering(Pack const& pack) {
  if (pack.is_never_neutered) return "";
  if (!pack.sex_never_neutered) return ", and is it neutered";
  return fmt::format(", and if {}, is it neutered",
                     *pack.sex_never_neutered == 0 ? "female" : "male");
}

std::string ask_of(Pack const& pack, SignId sign) {
  auto const& one = pack.words.one;
  switch (sign) {
    case patient_sign::age:
      return fmt::format("How old is the {}?", one);
    case patient_sign::weight:
      return fmt::format("What does the {} weigh?", one);
    case patient_sign::breed:
      return fmt::format("Which breed is the {}?", one);
    case patient_sign::sex:
      return fmt::format("Is the {} male or female{}?", one, asked_of_neutering(pack));
    case patient_sign::neutered:
      return fmt::format("Is the {} neutered?", one);
    case patient_sign::size:
      return fmt::format("How big is the {}, or will it be when it is grown?", one);
    default:
      return pack[sign].ask;
  }
}

std::string places_hint(Pack const& pack, Screen::Kind screen, SignId id) {
  std::string_view const none = screen == Screen::Kind::place ? ""
                                : asks_only_where(pack[id])   ? "none; "
                                                              : "yes, no; ";
  if (is_told_by_side(pack, id)) return fmt::format("{}left, right or both; or ?", none);
  std::string places;
  for (auto const& mark : places_to_name(pack, id))
    places += (places.empty() ? "" : ", ") + site_text(pack, mark);
  return fmt::format(
      "{}places such as {}; left, right or middle for a numbered list, from the far ends up; or ?",
      none, places);
}

// What may be typed, besides the keys.
std::string hint_of(Pack const& pack, Screen::Kind screen, SignId id) {
  auto const& sign = pack[id];
  switch (id) {
    case patient_sign::age:
      return "11 and a half, 8 months, 2 years 3 months, or the birth date 2019-04-12; or ?";
    case patient_sign::weight:
      return fmt::format("{}, {}; or ?", weight_example(pack), believed_weights(pack));
    case patient_sign::breed:
      return "its name, or crossbreed; or ?";
    case patient_sign::sex:
      return sexes_to_name(pack) + "; or ?";
    default:
      break;
  }
  auto const& its = traits(sign);
  if (its.is_plain) return "yes, no or ?";
  if (its.has_places) return places_hint(pack, screen, id);
  if (its.is_number && sign.unit.dimension == Dimension::mass)
    return fmt::format("400 {0} or 2 x 200 {0}; or ?", sign.unit.name);
  if (its.is_number)
    return fmt::format("a number from {:g} to {:g}{}{}; or ?", sign.low, sign.high,
                       sign.unit.name.empty() ? "" : " ", sign.unit.name);
  return are_values_counted(sign) ? "the words of the list, or its line: line 2; or ?"
                                  : "a number or a word of the list; or ?";
}

std::string list_line(Pack const& pack, SignId sign) {
  return traits(pack[sign]).has_places && asks_only_where(pack[sign])
             ? pack[sign].ask + " (if anywhere)"
             : pack[sign].ask;
}

std::string number_bullet(std::size_t i) { return fmt::format("{:>2}  ", i + 1); }

std::string how_to_check(Pack const& pack, Sign const& sign) {
  auto const& one = pack.words.one;
  std::string out = sign.help;
  auto const add = [&](std::string_view text) {
    out += (out.empty() ? "" : " ") + std::string(text);
  };
  if (sign.of_the_patient)
    add(fmt::format("From the keeper or the {}'s papers; on scales for the weight.", one));
  if (out.empty())
    add(sign.seen_by == SeenBy::anyone
            ? fmt::format("Look and listen; no need to touch the {}.", one)
        : sign.seen_by == SeenBy::hands ? "Feel gently with flat hands, one side against the other."
                                        : "This needs equipment or training.");
  if (sign.may_hurt)
    add(fmt::format("It may hurt: stop if the {} minds, and mind your hands.", one));
  return out;
}

// "8 years, male neutered, Labrador Retriever, 31.5 kg", as far as it is asked.
std::string facts_example(Pack const& pack, Screen const& screen) {
  std::string out;
  auto const add = [&](std::string const& text) { out += (out.empty() ? "" : ", ") + text; };
  bool const with_breed =
      std::any_of(screen.questions.begin(), screen.questions.end(),
                  [](Question const& question) { return question.sign == patient_sign::breed; });
  auto const weight =
      weight_example(pack, with_breed ? std::optional<std::uint32_t>(0) : std::nullopt);
  for (auto const& question : screen.questions) {
    if (question.sign == patient_sign::age) add("8 years");
    if (question.sign == patient_sign::sex) add(pack.is_never_neutered ? "male" : "male neutered");
    if (question.sign == patient_sign::breed) add(pack.breeds.breeds.front().name);
    if (question.sign == patient_sign::weight) add(weight.substr(0, weight.find(" or ")));
  }
  return out;
}

std::string facts_text(Pack const& pack, Screen const& screen, Look const& look) {
  Page page(look);
  page.heading(fmt::format("About the {}:", pack.words.one));
  for (auto const& question : screen.questions) {
    bool const with_sex =
        question.sign == patient_sign::neutered &&
        std::any_of(screen.questions.begin(), screen.questions.end(),
                    [](Question const& q) { return q.sign == patient_sign::sex; });
    if (!with_sex) page.paragraph(ask_of(pack, question.sign), 0, "    ");
  }
  page.paragraph(
      fmt::format("(in one line with commas: {}; what is left out is asked again; ? if nobody can "
                  "tell any of these)",
                  facts_example(pack, screen)));
  return page.take();
}

}  // namespace

bool is_list(Pack const& pack, Screen const& screen) {
  if (screen.questions.size() < 2 || screen.kind == Screen::Kind::patient) return false;
  return traits(pack[screen.questions.front().sign]).takes_yes_or_no;
}

bool is_of_facts(Screen const& screen) {
  auto const& questions = screen.questions;
  return screen.kind == Screen::Kind::patient && questions.size() > 1 &&
         (questions.size() > 2 || questions[0].sign != patient_sign::sex ||
          questions[1].sign != patient_sign::neutered);
}

std::string question_text(Pack const& pack, Screen const& screen, Look const& look,
                          BesideQuestions const& beside) {
  auto const with_then = [&](std::string const& text, SignId sign) {
    auto const then = beside.of(sign);
    return then.empty() ? text : fmt::format("{} ({})", text, then);
  };
  if (is_of_facts(screen)) return facts_text(pack, screen, look);
  Page page(look);
  if (is_list(pack, screen)) {
    page.heading(!beside.heading.empty()               ? beside.heading
                 : screen.kind == Screen::Kind::danger ? "Is any of these so right now?"
                 : screen.kind == Screen::Kind::system ? "And is any of these so?"
                                                       : "Which of these are so?");
    for (std::size_t i = 0; i < screen.questions.size(); ++i)
      page.paragraph(with_then(list_line(pack, screen.questions[i].sign), screen.questions[i].sign),
                     0, number_bullet(i));
    page.paragraph(
        screen.kind != Screen::Kind::telling
            ? "(the numbers that are so; none; ?2 if you cannot tell about 2; ? for all)"
            : "(the numbers that are so, those left out count as no; none; ?2 if you cannot tell "
              "about 2; ? for all)");
    return page.take();
  }
  auto const sign = screen.questions.front().sign;
  auto const ask = screen.kind == Screen::Kind::patient && sign == patient_sign::sex &&
                           screen.questions.size() == 1
                       ? fmt::format("Is the {} male or female?", pack.words.one)
                       : ask_of(pack, sign);
  page.paragraph(
      with_then(
          screen.kind == Screen::Kind::place ? fmt::format("{}: where?", pack[sign].label) : ask,
          sign),
      0);
  for (std::size_t i = 0; i < pack[sign].values.size() && sign != patient_sign::sex; ++i)
    page.paragraph(pack[sign].values[i].label, 0, number_bullet(i));
  page.paragraph("(" + hint_of(pack, screen.kind, sign) + ")");
  return page.take();
}

std::string why_text(Pack const& pack, Screen const& screen, Look const& look,
                     BesideQuestions const& beside) {
  Page page(look);
  for (std::size_t i = 0; i < screen.questions.size(); ++i) {
    auto const& question = screen.questions[i];
    std::string text;
    if (question.sign == patient_sign::weight_confirmed) {
      text = "Amounts hang on the weight: none is told for one that can hardly be.";
    } else if (screen.kind == Screen::Kind::patient) {
      text = "Age, size, breed and sex change what is likely, and which questions make sense.";
    } else if (!question.alarms.empty()) {
      auto const& alarm = pack[question.alarms.front()];
      text = fmt::format("It could mean: {} ({}). {}", alarm.title, pack[alarm.see].title,
                         alarm.because);
    } else if (!question.taken.empty()) {
      text = fmt::format("Which it was, and how much, tells how harmful it is ({}).",
                         pack[*question.could_reach].title);
    } else if (question.rule) {
      auto const& rule = pack[*question.rule];
      text = fmt::format("It tells causes apart by: {}. {}", rule.title, rule.because);
    } else if (!beside.of(question.sign).empty()) {
      text = "It had this then: so it is told whether it is better, the same or worse.";
    } else {
      text = "The place helps to tell the causes apart.";
    }
    page.paragraph(text, 2, is_list(pack, screen) ? number_bullet(i) : "");
    if (screen.kind == Screen::Kind::patient) break;
  }
  page.paragraph(std::string(short_caution_text));
  return page.take();
}

std::string how_text(Pack const& pack, Screen const& screen, Look const& look) {
  Page page(look);
  for (std::size_t i = 0; i < screen.questions.size(); ++i) {
    page.paragraph(how_to_check(pack, pack[screen.questions[i].sign]), 2,
                   is_list(pack, screen) ? number_bullet(i) : "");
    if (screen.kind == Screen::Kind::patient) break;  // the same of all facts
  }
  return page.take();
}

std::string walk_text(Pack const& pack, SignId sign, Side side, Look const& look) {
  Page page(look);
  auto const places = site_walk(pack, sign, side);
  if (places.empty()) {
    page.paragraph("No place of this question lies there.");
    return page.take();
  }
  for (std::size_t i = 0; i < places.size(); ++i)
    page.paragraph(site_text(pack, places[i]), 0, number_bullet(i));
  page.paragraph("(numbers of this list, or names)");
  return page.take();
}

}  // namespace flinch::cli
