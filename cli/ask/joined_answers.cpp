#include "ask/joined_answers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "ask/ask_keys.hpp"
#include "flinch/model/units.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::vector<std::string> parts_of(std::string_view line) {
  std::vector<std::string> out(1);
  for (char const c : line) {
    if (c == ',' || c == ';')
      out.emplace_back();
    else
      out.back() += c;
  }
  // A comma within a number parts nothing: "31,5 kg".
  for (std::size_t i = 0; i + 1 < out.size();) {
    auto const is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (!out[i].empty() && is_digit(out[i].back()) && !out[i + 1].empty() &&
        is_digit(out[i + 1].front())) {
      out[i] += "," + out[i + 1];
      out.erase(out.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    } else {
      ++i;
    }
  }
  for (auto& part : out) part = trimmed_small(part);
  std::erase(out, std::string());
  return out;
}

bool is_bare_number(std::string const& text) {
  return text.find_first_not_of("0123456789.,/ ") == std::string::npos;
}

std::optional<std::size_t> whole_number(std::string const& text) {
  std::size_t number = 0;
  auto const read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
  return number;
}

class FactReader {
 public:
  FactReader(Pack const& pack, std::vector<SignId> const& facts, EntryContext const& context)
      : pack_(pack), facts_(facts), context_(context) {}

  JoinedReply read(std::string_view line) {
    for (auto const& part : parts_of(line)) take(part);
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool is_asked(SignId sign) const {
    return std::find(facts_.begin(), facts_.end(), sign) != facts_.end();
  }

  void add(SignId sign, Answer answer) {
    auto const is_it = [&](auto const& one) { return one.first == sign; };
    auto const there = std::find_if(out_.answers.begin(), out_.answers.end(), is_it);
    if (there == out_.answers.end()) {
      out_.answers.emplace_back(sign, std::move(answer));
    } else if (there->second != answer) {
      refuse(fmt::format("Told twice, and not alike: {}.", pack_[sign].label));
      out_.answers.erase(there);
    }
  }

  void refuse(std::string const& remark) {
    out_.remark += (out_.remark.empty() ? "" : " ") + remark;
  }

  void take(std::string const& part) {
    if (is_bare_number(part))
      return refuse(
          fmt::format("{}: the age or the weight? Say it with its unit, such as 8 years or {}.",
                      inert(part), weight_example(pack_)));
    bool is_read = false;
    if (is_asked(patient_sign::sex)) {
      auto const sex = read_sex(pack_, part);
      if (sex.remark.empty() && (sex.sex || sex.neutered)) {
        if (sex.sex) add(patient_sign::sex, *sex.sex);
        if (sex.neutered) add(patient_sign::neutered, *sex.neutered);
        return;
      }
    }
    for (auto const sign : {patient_sign::age, patient_sign::weight, patient_sign::breed}) {
      if (is_read || !is_asked(sign)) continue;
      auto const entry = read_entry(pack_, sign, part, context_);
      if (!entry.answer) continue;
      add(sign, *entry.answer);
      is_read = true;
    }
    if (is_read) return;
    if (!is_asked(patient_sign::breed))
      return refuse(fmt::format("Not understood: \"{}\".", inert(part)));
    auto breed = read_entry(pack_, patient_sign::breed, part, context_);
    out_.suggested = std::move(breed.suggested);
    refuse(breed.remark);
  }

  Pack const& pack_;
  std::vector<SignId> const& facts_;
  EntryContext const& context_;
  JoinedReply out_;
};

}  // namespace

JoinedReply read_facts(Pack const& pack, std::vector<SignId> const& facts, std::string_view line,
                       EntryContext const& context) {
  if (means_cannot_tell(line)) return {{}, facts, {}};
  return FactReader(pack, facts, context).read(line);
}

JoinedReply read_choices(Pack const& pack, std::vector<SignId> const& questions,
                         std::string_view line) {
  if (means_cannot_tell(line)) return {{}, questions, {}};
  std::size_t count = 0;
  for (auto const sign : questions) count += pack[sign].values.size();
  JoinedReply out;
  auto const refuse = [&](std::string remark) {
    out = {{}, {}, std::move(remark)};
    return out;
  };
  auto const add = [&](SignId sign, Answer answer) {
    for (auto const& one : out.answers)
      if (one.first == sign && one.second != answer) return false;
    out.answers.emplace_back(sign, std::move(answer));
    return true;
  };
  auto parts = parts_of(line);
  // "2 5 8" and "1,4": numbers alone.
  if (line.find_first_not_of("0123456789 ,;") == std::string_view::npos) {
    parts.clear();
    std::string number;
    for (char const c : std::string(line) + " ") {
      if (c >= '0' && c <= '9')
        number += c;
      else if (!number.empty())
        parts.push_back(std::exchange(number, {}));
    }
  }
  for (auto const& part : parts) {
    if (auto const number = whole_number(part)) {
      auto left = *number;
      if (left < 1 || left > count)
        return refuse(fmt::format("The numbers go from 1 to {}: one for each question.", count));
      for (auto const sign : questions) {
        auto const size = pack[sign].values.size();
        if (left > size) {
          left -= size;
          continue;
        }
        if (!add(sign, Choice{static_cast<std::uint32_t>(left - 1)}))
          return refuse(fmt::format("Two answers to one question: {}.", pack[sign].label));
        break;
      }
      continue;
    }
    std::vector<std::pair<SignId, Answer>> meant;
    for (auto const sign : questions)
      if (auto const entry = read_entry(pack, sign, part, {}); entry.answer)
        meant.emplace_back(sign, *entry.answer);
    if (meant.size() != 1)
      return refuse(fmt::format("{}: \"{}\". Type one number for each question, 1 to {}.",
                                meant.empty() ? "Not understood" : "To which question", inert(part),
                                count));
    if (!add(meant[0].first, meant[0].second))
      return refuse(fmt::format("Two answers to one question: {}.", pack[meant[0].first].label));
  }
  if (out.answers.empty()) return refuse(fmt::format("Type one number for each, 1 to {}.", count));
  return out;
}

}  // namespace flinch::cli
