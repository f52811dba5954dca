// `flinch signs`: the vocabulary.
#include "describe/signs_command.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <nlohmann/json.hpp>
#include <ostream>

#include "exchange/questionnaire.hpp"
#include "files/pack_source.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/text/display.hpp"
#include "look/json_text.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct SignsOptions {
  std::string pack;
  std::string containing;  ///< only signs with this in their name or words
  bool json = false;
  bool questionnaire = false;  ///< all of them, as a form
};

constexpr std::array seen_words = {"anyone", "hands", "clinic"};

std::string small_letters(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

bool mentions(Sign const& sign, std::string const& words) {
  auto const wanted = small_letters(words);
  auto const has = [&](std::string const& text) {
    return small_letters(text).find(wanted) != std::string::npos;
  };
  return has(sign.name) || has(sign.label) || has(sign.ask) ||
         std::any_of(sign.also_said.begin(), sign.also_said.end(), has) ||
         std::any_of(sign.values.begin(), sign.values.end(), [&](Value const& value) {
           return std::any_of(value.also_said.begin(), value.also_said.end(), has);
         });
}

std::string how_answered(Pack const& pack, Sign const& sign) {
  std::string out(traits(sign).words);
  if (traits(sign).has_values)
    for (auto const& value : sign.values)
      out += (&value == &sign.values.front() ? " " : ", ") + value.name;
  if (traits(sign).is_number)
    out += fmt::format(" from {} to {} {}", syntax::print_number(sign.low),
                       syntax::print_number(sign.high), sign.unit.name);
  if (!sign.within.empty()) {
    out += " in";
    for (auto const site : sign.within)
      out += (site == sign.within.front() ? " " : ", ") + pack[site].name;
  }
  while (out.back() == ' ') out.pop_back();
  return out;
}

nlohmann::ordered_json sign_json(Pack const& pack, Sign const& sign) {
  nlohmann::ordered_json out = {{"name", sign.name},
                                {"label", sign.label},
                                {"ask", sign.ask},
                                {"help", sign.help},
                                {"answer", traits(sign).words}};
  if (!sign.values.empty()) {
    auto values = nlohmann::ordered_json::array();
    for (auto const& value : sign.values)
      values.push_back(
          {{"name", value.name}, {"label", value.label}, {"also_said", value.also_said}});
    out["values"] = std::move(values);
  }
  if (traits(sign).is_number) {
    out["unit"] = sign.unit.name;
    out["low"] = sign.low;
    out["high"] = sign.high;
  }
  if (!sign.within.empty()) {
    auto sites = nlohmann::ordered_json::array();
    for (auto const site : sign.within) sites.push_back(pack[site].name);
    out["sites"] = std::move(sites);
  }
  out["seen_by"] = seen_words.at(static_cast<std::size_t>(sign.seen_by));
  out["takes_seconds"] = sign.takes_s;
  out["may_hurt"] = sign.may_hurt;
  out["asked_first"] = sign.asked_first;
  if (sign.lasts) out["lasts"] = true;
  if (sign.part_of) out["part_of"] = pack[*sign.part_of].name;
  out["also_said"] = sign.also_said;
  return out;
}

void write_sign(Pack const& pack, Sign const& sign, Page& page) {
  page.line(fmt::format("{}  {}", page.bold(sign.name), sign.label));
  if (!sign.ask.empty()) page.paragraph(sign.ask);
  if (!sign.help.empty()) page.paragraph(sign.help, 4);
  auto facts = fmt::format("answer {}; seen by {}", how_answered(pack, sign),
                           seen_words.at(static_cast<std::size_t>(sign.seen_by)));
  if (sign.may_hurt) facts += "; may hurt";
  if (sign.asked_first) facts += "; asked first";
  if (sign.lasts) facts += "; lasts";
  if (sign.part_of) facts += "; part of " + pack[*sign.part_of].name;
  page.paragraph(facts, 4);
  std::string also;
  auto const add = [&](std::string const& words) {
    also += (also.empty() ? "also said: " : ", ") + words;
  };
  for (auto const& words : sign.also_said) add(words);
  for (auto const& value : sign.values)
    for (auto const& words : value.also_said) add(fmt::format("{} ({})", words, value.label));
  if (!also.empty()) page.paragraph(also, 4);
}

Status list_signs(SignsOptions const& options, Session const& session) {
  auto const opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = *opened->pack;
  if (options.questionnaire) {
    session.out << fhir_text(questionnaire(pack));
    return Status::fine;
  }
  std::vector<Sign const*> chosen;
  for (auto const& sign : pack.signs)
    if (mentions(sign, options.containing)) chosen.push_back(&sign);
  if (options.json) {
    auto all = nlohmann::ordered_json::array();
    for (auto const* sign : chosen) all.push_back(sign_json(pack, *sign));
    session.out << json_text(all);
  } else {
    Page page(session.look);
    for (auto const* sign : chosen) write_sign(pack, *sign, page);
    session.out << page.take();
  }
  if (chosen.empty()) {
    session.err << fmt::format("no sign has the words \"{}\"\n", inert(options.containing));
    return Status::no;
  }
  return Status::fine;
}

CommandUse use_signs() {
  auto const options = std::make_shared<SignsOptions>();
  return {{{"words", &options->containing, "Only signs with these words", {.shown = "WORDS"}},
           pack_option(options->pack),
           {"--json", &options->json, "For programs"},
           {"--questionnaire", &options->questionnaire,
            "All of them as a form in HL7 FHIR, that other programs fill in: docs/exchange.md"}},
          [options](Session const& session) { return list_signs(*options, session); },
          {{"flinch signs breath", "The signs that mention breath, and how to check them"},
           {"flinch signs --questionnaire", "All of them as a form, for other programs"}}};
}

}  // namespace

Command const signs_command{"signs", "The vocabulary: every sign, how it is asked and answered",
                            use_signs};

}  // namespace flinch::cli
