#include "exchange/answer_reader.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>

namespace flinch::cli {
namespace {

constexpr std::string_view cannot_tell = "can't tell";

// The digits of a JSON number without its exponent, as amounts of a case are written.
std::optional<std::string> plain_digits(Tree const& node) {
  if (node.kind != Tree::Kind::scalar || node.is_quoted) return std::nullopt;
  double value = 0;
  auto const* const end = node.scalar.data() + node.scalar.size();
  auto const [read_to, error] = std::from_chars(node.scalar.data(), end, value);
  if (error != std::errc{} || read_to != end) return std::nullopt;
  std::array<char, 512> digits{};  // the longest double takes 327
  auto const [last, failed] =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  if (failed != std::errc{}) return std::nullopt;
  return std::string(digits.data(), last);
}

std::string codes_that_fit(Dimension dimension) {
  std::string out;
  for (auto const& unit : ucum_units(dimension))
    out += fmt::format("{}`{}`", out.empty() ? "" : ", ", ucum_code(unit));
  return out;
}

}  // namespace

Tree scalar(std::string text, Place at) {
  return {Tree::Kind::scalar, std::move(text), true, {}, {}, at};
}

AnswerReader::AnswerReader(Pack const& pack, JsonReader& json)
    : pack_(pack),
      json_(json),
      values_(address(pack, Vocabulary::values)),
      sites_(address(pack, Vocabulary::sites)),
      breeds_(address(pack, Vocabulary::breeds)) {}

std::optional<AnswerReader::Value> AnswerReader::value(Tree const& answer) {
  std::optional<Value> out;
  for (auto const& [key, at, node] : answer.members) {
    std::string_view name = key;
    if (name == "id" || name == "extension") continue;
    if (name.starts_with('_')) name.remove_prefix(1);
    if (!name.starts_with("value")) {
      json_.error(Code::exchange_shape, at,
                  fmt::format("`{}` is not read here: questions do not stand below answers", key));
      return std::nullopt;
    }
    if (out) {
      json_.error(Code::exchange_shape, at, "an answer has one value");
      return std::nullopt;
    }
    out = Value{name.substr(5), &node, at};
  }
  if (!out) out = Value{"", &answer, answer.at};
  return out;
}

std::optional<std::string> AnswerReader::why_absent(Tree const& node) {
  if (node.kind != Tree::Kind::map) return std::nullopt;
  for (auto const* one : json_.objects(node, "extension")) {
    auto const url = json_.text(*one, "url");
    if (url == fhir::absent_reason) return json_.text(*one, "valueCode");
    json_.unread(one->at, fmt::format("the extension `{}` is not taken over", url.value_or("")));
  }
  return std::nullopt;
}

std::optional<Tree> AnswerReader::misfit(std::string_view link, Value const& value,
                                         std::string_view wanted) {
  json_
      .error(Code::exchange_answer, value.at,
             value.type.empty()
                 ? fmt::format("`{}` has an answer without a value", link)
                 : fmt::format("`{}` is not answered by `value{}`", link, value.type))
      .notes.push_back({fmt::format("it is answered by `{}`", wanted), {}});
  return std::nullopt;
}

std::optional<Tree> AnswerReader::of_sign(Sign const& sign, Tree const& answer) {
  auto const found = value(answer);
  if (!found) return std::nullopt;
  auto const why = why_absent(*found->node);
  bool const has_value = !found->type.empty() && !(found->node->kind == Tree::Kind::map &&
                                                   found->node->members.size() == 1 &&
                                                   found->node->find("extension") != nullptr);
  if (!has_value && why) {
    if (*why == fhir::asked_unknown) return scalar(std::string(cannot_tell), found->at);
    json_.unread(found->at,
                 fmt::format("`{}` was not answered ({}): it stays unknown", sign.name, *why));
    return std::nullopt;
  }
  return traits(sign).is_number ? number(sign, *found) : coded(sign, *found);
}

std::optional<Tree> AnswerReader::coded(Sign const& sign, Value const& value) {
  if (value.type != "Coding" || value.node->kind != Tree::Kind::map)
    return misfit(sign.name, value, "valueCoding");
  auto const system = json_.text(*value.node, "system");
  auto const code = json_.text(*value.node, "code");
  if (!system || !code) {
    json_.error(Code::exchange_answer, value.node->at,
                fmt::format("`{}` is answered by a code with its `system`", sign.name));
    return std::nullopt;
  }
  auto const at = value.node->find("code")->at;
  if (system == fhir::absent && code == fhir::asked_unknown)
    return scalar(std::string(cannot_tell), at);
  bool const is_plain = traits(sign).takes_yes_or_no;
  if (is_plain && system == fhir::yes_no && (code == "Y" || code == "N"))
    return scalar(code == "Y" ? "yes" : "no", at);
  if (traits(sign).has_places && system == sites_) return scalar(*code, at);
  if (traits(sign).is_breed && system == breeds_) return scalar(*code, at);
  if (!sign.values.empty() && system == values_ && code->starts_with(sign.name + '/'))
    return scalar(code->substr(sign.name.size() + 1), at);
  json_
      .error(Code::exchange_answer, at,
             fmt::format("`{}` of the code system `{}` is no answer to `{}`", *code, *system,
                         sign.name))
      .notes.push_back(
          {"its answers are the options of the form: flinch signs --questionnaire", {}});
  return std::nullopt;
}

std::optional<Tree> AnswerReader::number(Sign const& sign, Value const& value) {
  if (sign.unit.dimension != Dimension::none) {
    if (value.type != "Quantity" || value.node->kind != Tree::Kind::map)
      return misfit(sign.name, value, "valueQuantity");
    return amount(sign, *value.node);
  }
  if (value.type != "Decimal" && value.type != "Integer")
    return misfit(sign.name, value, "valueDecimal");
  auto digits = plain_digits(*value.node);
  if (!digits) return misfit(sign.name, value, "valueDecimal");
  return scalar(std::move(*digits), value.node->at);
}

std::optional<Tree> AnswerReader::amount(Sign const& sign, Tree const& quantity) {
  auto const fitting = fmt::format("these UCUM codes fit: {}", codes_that_fit(sign.unit.dimension));
  auto const refuse = [&](Place at, std::string message) -> std::optional<Tree> {
    json_.error(Code::exchange_answer, at, std::move(message)).notes.push_back({fitting, {}});
    return std::nullopt;
  };
  if (auto const* comparator = quantity.find("comparator"); comparator != nullptr)
    return refuse(comparator->at,
                  fmt::format("`{}` is one number: \"more than\" or \"less than\" cannot be kept",
                              sign.name));
  auto const* value = quantity.find("value");
  auto const digits = value == nullptr ? std::nullopt : plain_digits(*value);
  if (!digits)
    return refuse(value == nullptr ? quantity.at : value->at,
                  fmt::format("`{}` has no number as its value", sign.name));
  auto const system = json_.text(quantity, "system");
  auto const code = json_.text(quantity, "code");
  if (system != fhir::ucum || !code)
    return refuse(quantity.at, fmt::format("the unit of `{}` is a `code` of the `system` {}",
                                           sign.name, fhir::ucum));
  auto const unit = unit_of_ucum(*code);
  if (!unit || unit->dimension != sign.unit.dimension)
    return refuse(quantity.find("code")->at,
                  fmt::format("the unit `{}` cannot be converted to {}", *code, sign.unit.name));
  return scalar(fmt::format("{} {}", *digits, unit->name), value->at);
}

std::optional<Tree> AnswerReader::code(Tree const& answer, Vocabulary vocabulary,
                                       std::string_view what) {
  auto const found = value(answer);
  if (!found) return std::nullopt;
  auto const system = address(pack_, vocabulary);
  if (found->type == "Coding" && found->node->kind == Tree::Kind::map &&
      json_.text(*found->node, "system") == system)
    if (auto const code = json_.text(*found->node, "code"))
      return scalar(*code, found->node->find("code")->at);
  json_.error(Code::exchange_answer, found->at,
              fmt::format("{} is named by a code of the system {}", what, system));
  return std::nullopt;
}

std::optional<Tree> AnswerReader::words(Tree const& answer) {
  auto const found = value(answer);
  if (!found) return std::nullopt;
  if (found->type != "String" || !is_text(*found->node))
    return misfit("a free text", *found, "valueString");
  return scalar(found->node->scalar, found->node->at);
}

}  // namespace flinch::cli
