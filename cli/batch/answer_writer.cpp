#include "batch/answer_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <nlohmann/json.hpp>
#include <utility>

#include "look/schema.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t decimals = 6;

// A probability to six places, to the nearest as its exact binary value is. Only next to the middle
// between two neighbours could the product round to the wrong side: fmt sees to those.
void put_probability(double probability, std::string& out) {
  constexpr double scale = 1e6;
  constexpr double near_middle = 1e-6;  // the error of the product is below 1e-9
  auto const scaled = probability * scale;
  auto rounded = static_cast<std::uint32_t>(std::clamp(scaled, 0.0, scale) + 0.5);
  auto const off = scaled - rounded;
  if (!(off > -0.5 + near_middle && off < 0.5 - near_middle)) {
    fmt::format_to(std::back_inserter(out), "{:.6f}", probability);
    return;
  }
  std::array<char, decimals + 2> text{};
  for (std::size_t i = decimals + 1; i > 1; --i) {
    text[i] = static_cast<char>('0' + rounded % 10);
    rounded /= 10;
  }
  text[1] = '.';
  text[0] = static_cast<char>('0' + rounded);
  out.append(text.data(), text.size());
}

void put_number(std::uint64_t number, std::string& out) {
  fmt::format_int const digits(number);
  out.append(digits.data(), digits.size());
}

bool is_plain(std::string_view text) {
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; });
}

void put_name(std::string_view name, std::string& out) {
  if (name.empty() || !is_plain(name)) {
    out += in_quotes_or_null(name);
    return;
  }
  out += '"';
  out += name;
  out += '"';
}

}  // namespace

std::string in_quotes(std::string_view text) {
  using nlohmann::json;
  return json(text).dump(-1, ' ', true, json::error_handler_t::replace);
}

std::string in_quotes_or_null(std::string_view text) {
  return text.empty() ? "null" : in_quotes(text);
}

AnswerWriter::AnswerWriter(Pack const& pack) {
  for (auto const& one : pack.tiers) tiers_.push_back(in_quotes(one.name));
  tiers_.emplace_back("null");
  for (auto const& alarm : pack.alarms) alarms_.push_back(in_quotes(alarm.name));
  for (auto const& care : pack.care) care_.push_back(in_quotes(care.name));
  for (auto const& cause : pack.causes)
    causes_.push_back(fmt::format(R"({{"name":{},"posterior":)", in_quotes(cause.name)));
  causes_.emplace_back(R"({"name":null,"posterior":)");
  ending_ = fmt::format(
      R"(],"schema":{},"pack":{{"name":"{}","version":{}}},"caution":"does not diagnose; a licensed veterinarian and local rules decide"}})",
      schema_json(batch_schema).dump(), pack.name, in_quotes(pack.version));
  ending_ += '\n';
}

void AnswerWriter::write(std::uint64_t number, std::string_view name, Judgement const& judgement,
                         std::span<std::uint32_t const> head, std::string& out) const {
  using std::string_view_literals::operator""sv;
  out += R"({"line":)"sv;
  put_number(number, out);
  out += R"(,"case":)"sv;
  put_name(name, out);
  out += R"(,"tier":)"sv;
  out += tier(judgement.tier);
  out += R"(,"alarm_tier":)"sv;
  out += tier(judgement.alarm_tier);
  out += R"(,"ranking_tier":)"sv;
  out += tier(judgement.ranking_tier);
  out += R"(,"ceiling":)"sv;
  out += tier(judgement.ceiling);
  out += judgement.nothing_told ? R"(,"nothing_told":true,"contradictions":)"sv
                                : R"(,"nothing_told":false,"contradictions":)"sv;
  put_number(judgement.contradictions.size(), out);
  out += R"(,"alarms":[)"sv;
  for (auto const alarm : judgement.fired) {
    if (alarm != judgement.fired.front()) out += ',';
    out += alarms_[index(alarm)];
  }
  out += R"(],"taken":[)"sv;
  bool is_first = true;
  for (auto const& exposure : judgement.exposures) {
    if (!exposure.see) continue;
    if (!std::exchange(is_first, false)) out += ',';
    out += care_[exposure.care];
  }
  out += R"(],"causes":[)"sv;
  for (auto const place : head) {
    if (place != head.front()) out += ',';
    out += causes_[place];
    put_probability(judgement.posteriors[place], out);
    out += '}';
  }
  out += ending_;
}

}  // namespace flinch::cli
