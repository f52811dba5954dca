#include "exchange/questionnaire.hpp"

#include <fmt/format.h>

#include "exchange/enable_when.hpp"
#include "flinch/model/choice.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/telling/caution.hpp"

namespace flinch::cli {
namespace {

// The standard's rule for `name`: a capital, then letters, digits and underscores.
std::string computable_name(std::string const& name) {
  std::string out;
  bool is_capital = true;
  for (char const c : name) {
    if (c == '_') {
      is_capital = true;
      continue;
    }
    out += is_capital && c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    is_capital = false;
  }
  return out;
}

Json option(Json coding) { return {{"valueCoding", std::move(coding)}}; }

Json display(std::string const& link, std::string const& text) {
  auto const control =
      Json{{"url", fhir::item_control},
           {"valueCodeableConcept",
            {{"coding", Json::array({coding(fhir::item_controls, "help", "Help-Button")})}}}};
  return {
      {"extension", Json::array({control})}, {"linkId", link}, {"text", text}, {"type", "display"}};
}

class QuestionnaireWriter {
 public:
  explicit QuestionnaireWriter(Pack const& pack) : pack_(pack) {}

  Json write() {
    auto patient = group(link::patient, "The animal", items(true));
    auto signs = group(link::signs, "What is seen and told", items(false));
    Json out = {{"resourceType", "Questionnaire"},
                {"language", "en"},
                {"url", address(pack_, Vocabulary::form)},
                {"version", pack_.version},
                {"name", computable_name(pack_.name)},
                {"title", pack_.title},
                {"status", "active"},
                {"subjectType", Json::array({"Patient"})},
                {"description", description()}};
    out["item"] =
        Json::array({std::move(patient), came_for(), std::move(signs), outcome(), words()});
    return out;
  }

 private:
  static Json group(char const* link, char const* text, Json items) {
    return {{"linkId", link}, {"text", text}, {"type", "group"}, {"item", std::move(items)}};
  }

  Json items(bool of_the_patient) {
    auto out = Json::array();
    for (auto const& sign : pack_.signs)
      if (sign.of_the_patient == of_the_patient) add(sign, out);
    return out;
  }

  void add(Sign const& sign, Json& items) {
    auto one = question(sign.name, sign.ask.empty() ? sign.label : sign.ask, sign);
    auto help = sign.help;
    if (traits(sign).is_number)
      help += fmt::format("{}Between {} and {}{}{}.", help.empty() ? "" : " ",
                          syntax::print_number(sign.low), syntax::print_number(sign.high),
                          sign.unit.name.empty() ? "" : " ", sign.unit.name);
    if (!help.empty())
      one["item"] = Json::array({display(sign.name + std::string(link::help), help)});
    items.push_back(std::move(one));
    if (!traits(sign).has_places) return;
    auto clear = Json{{"linkId", sign.name + std::string(link::clear)},
                      {"text", sign.label + ": where was it looked for and not found?"},
                      {"type", "choice"},
                      {"repeats", true}};
    clear["answerOption"] = site_options(sign);
    items.push_back(std::move(clear));
  }

  Json question(std::string const& link, std::string const& text, Sign const& sign) {
    bool const is_number = traits(sign).is_number;
    bool const is_count = is_number && sign.unit.dimension == Dimension::none;
    Json out;
    if (is_number && !is_count) out["extension"] = units(sign.unit.dimension);
    out["linkId"] = link;
    out["text"] = text;
    out["type"] = is_count ? "decimal" : is_number ? "quantity" : "choice";
    auto when = enable_when(pack_, sign);
    if (!when.is_whole)
      shown_more_often_ += fmt::format("{}`{}`", shown_more_often_.empty() ? "" : ", ", sign.name);
    if (!when.terms.empty()) {
      auto const count = when.terms.size();
      out["enableWhen"] = std::move(when.terms);
      if (count > 1) out["enableBehavior"] = when.is_any ? "any" : "all";
    }
    if (traits(sign).has_places) out["repeats"] = true;
    if (!is_number) out["answerOption"] = options(sign);
    return out;
  }

  [[nodiscard]] Json options(Sign const& sign) const {
    auto out = Json::array();
    if (traits(sign).has_places) out = site_options(sign);
    if (traits(sign).takes_yes_or_no) {
      out.push_back(option(yes_coding()));
      out.push_back(option(no_coding()));
    }
    for (std::uint32_t i = 0; i < choice_count(pack_, sign); ++i)
      out.push_back(option(choice_coding(pack_, sign, {i})));
    out.push_back(option(cannot_tell_coding()));
    return out;
  }

  [[nodiscard]] Json site_options(Sign const& sign) const {
    auto out = Json::array();
    for (auto const& mark : sites_of(pack_, sign)) out.push_back(option(site_coding(pack_, mark)));
    return out;
  }

  static Json units(Dimension dimension) {
    auto out = Json::array();
    for (auto const& unit : ucum_units(dimension))
      out.push_back({{"url", fhir::unit_option},
                     {"valueCoding", coding(fhir::ucum, ucum_code(unit), unit.name)}});
    return out;
  }

  [[nodiscard]] Json came_for() const {
    Json out = {{"linkId", link::came_for},
                {"text", "What worries the keeper: what was told unasked, in that order"},
                {"type", "choice"},
                {"repeats", true}};
    out["answerOption"] = Json::array();
    for (std::uint32_t i = 0; i < pack_.signs.size(); ++i)
      if (!pack_.signs[i].of_the_patient)
        out["answerOption"].push_back(option(sign_coding(pack_, SignId{i})));
    return out;
  }

  [[nodiscard]] Json outcome() const {
    Json cause = {{"linkId", link::outcome_cause},
                  {"text", "What it turned out to have"},
                  {"type", "choice"}};
    cause["answerOption"] = Json::array();
    for (std::uint32_t i = 0; i < pack_.causes.size(); ++i)
      cause["answerOption"].push_back(option(cause_coding(pack_, CauseId{i})));
    cause["answerOption"].push_back(option(cause_coding(pack_, std::nullopt)));
    Json needed = {{"linkId", link::outcome_needed},
                   {"text", "How soon it had to be seen"},
                   {"type", "choice"}};
    needed["answerOption"] = Json::array();
    for (std::uint32_t i = 0; i < pack_.tiers.size(); ++i)
      needed["answerOption"].push_back(option(tier_coding(pack_, TierId{i})));
    return group(link::outcome, "How it turned out", Json::array({cause, needed}));
  }

  static Json words() {
    auto items = Json::array();
    for (auto const& one : words_items())
      items.push_back({{"linkId", one.link}, {"text", one.text}, {"type", "string"}});
    return group(link::words, "Who it is about: leave empty where the answers go further",
                 std::move(items));
  }

  [[nodiscard]] std::string description() const {
    auto out = fmt::format(
        "{} A question that is left empty is not known; it never counts as no. The groups "
        "`{}`, `{}` and `{}` may be left empty.",
        caution, link::came_for, link::outcome, link::words);
    if (!shown_more_often_.empty())
      out +=
          " Asked more often here than by the program itself, since `enableWhen` cannot say "
          "when they apply: " +
          shown_more_often_ + ".";
    return out;
  }

  Pack const& pack_;
  std::string shown_more_often_;
};

}  // namespace

Json questionnaire(Pack const& pack) { return QuestionnaireWriter(pack).write(); }

}  // namespace flinch::cli
