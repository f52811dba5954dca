#include "model/answer_builder.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/model/shown_weight.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/text/nearest.hpp"
#include "model/fit.hpp"

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

}  // namespace

std::optional<SignId> AnswerBuilder::sign(std::string_view name, Place at) {
  if (auto const found = pack_.find_sign(name)) return found;
  suggest(report_.error(Code::unknown_name, at, fmt::format("unknown sign `{}`", name)), name,
          names_of(pack_.signs));
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
  if (is_new(sign, at)) case_.answers.emplace_back(sign, std::move(answer));
}

void AnswerBuilder::yes_or_no(SignId sign, bool yes, Place at) {
  auto const kind = pack_[sign].kind;
  if (kind == AnswerKind::yes_or_no) return set(sign, yes, at);
  if (kind == AnswerKind::sites) return set(sign, Findings{yes, !yes, {}, {}}, at);
  auto& error = report_.error(Code::answer_misfit, at,
                              fmt::format("`{}` is not answered yes or no", pack_[sign].name));
  if (!pack_[sign].values.empty())
    error.notes.push_back(
        {fmt::format("it has {}", fmt::join(names_of(pack_[sign].values), ", ")), {}});
}

void AnswerBuilder::cannot_tell(SignId sign, Place at) {
  if (is_new(sign, at)) case_.cannot_tell.push_back(sign);
}

void AnswerBuilder::word(SignId sign, std::string_view word, Place at) {
  auto const& s = pack_[sign];
  switch (s.kind) {
    case AnswerKind::yes_or_no:
      if (word == "yes" || word == "no") return set(sign, word == "yes", at);
      report_.error(Code::answer_misfit, at,
                    fmt::format("`{}` is answered yes or no, not `{}`", s.name, word));
      return;
    case AnswerKind::steps:
    case AnswerKind::one_of:
      for (std::uint32_t i = 0; i < s.values.size(); ++i)
        if (s.values[i].name == word) return set(sign, Choice{i}, at);
      suggest(report_.error(Code::unknown_value, at,
                            fmt::format("`{}` has no {} `{}`; it has {}", s.name,
                                        s.kind == AnswerKind::steps ? "step" : "choice", word,
                                        fmt::join(names_of(s.values), ", "))),
              word, names_of(s.values));
      return;
    case AnswerKind::breed:
      if (auto const breed = pack_.breeds.find(word)) return set(sign, Choice{*breed}, at);
      {
        std::vector<std::string_view> keys;
        for (auto const& breed : pack_.breeds.breeds) keys.push_back(breed.key);
        suggest(report_.error(Code::unknown_name, at, fmt::format("unknown breed `{}`", word)),
                word, keys);
      }
      return;
    case AnswerKind::number:
      report_.error(
          Code::answer_misfit, at,
          fmt::format("`{}` is a number{}", s.name,
                      s.unit.name.empty() ? ""
                                          : fmt::format(" with its unit, such as `{} {}`",
                                                        syntax::print_number(s.low), s.unit.name)));
      return;
    case AnswerKind::sites:
      if (word == "yes" || word == "no") return yes_or_no(sign, word == "yes", at);
      return found(sign, word, at);
  }
}

void AnswerBuilder::amount(SignId sign, double value, std::string_view unit_name, Place at) {
  auto const& s = pack_[sign];
  if (s.kind != AnswerKind::number) {
    report_.error(Code::answer_misfit, at, fmt::format("`{}` is not a number", s.name));
    return;
  }
  auto const fitting = fitting_amount(s, value, unit_name, at, report_);
  if (!fitting) return;
  auto const converted = *fitting;
  if (converted < s.low || converted > s.high) {
    bool const is_weight = sign == patient_sign::weight || sign == patient_sign::weight_confirmed;
    auto const shown = is_weight ? weight_unit(pack_) : WeightUnit{s.unit.name, 1};
    report_.error(Code::answer_range, at,
                  fmt::format("{} {} is not believable for `{}`: it lies between {} and {} {}",
                              syntax::print_number(value), unit_name, s.name,
                              syntax::print_number(s.low * shown.in_a_kg),
                              syntax::print_number(s.high * shown.in_a_kg), shown.name));
    return;
  }
  set(sign, converted, at);
}

std::optional<SiteMark> AnswerBuilder::site(SignId sign, std::string_view text, Place at) {
  SiteMark mark;
  auto name = text;
  for (auto const& [word, side] : {std::pair{"left ", Side::left}, {"right ", Side::right}}) {
    if (!name.starts_with(word)) continue;
    mark.side = side;
    name.remove_prefix(std::string_view(word).size());
  }
  auto const found = pack_.find_site(name);
  if (!found) {
    suggest(report_.error(Code::unknown_name, at, fmt::format("unknown site `{}`", name)), name,
            names_of(pack_.sites));
    return std::nullopt;
  }
  mark.site = *found;
  if (!site_fits(pack_, pack_[sign], mark, at, report_)) return std::nullopt;
  return mark;
}

Findings* AnswerBuilder::findings(SignId sign, Place at) {
  if (pack_[sign].kind != AnswerKind::sites) {
    report_.error(Code::answer_misfit, at,
                  fmt::format("`{}` is not answered by sites", pack_[sign].name));
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

Case AnswerBuilder::take() {
  std::sort(case_.answers.begin(), case_.answers.end(),
            [](auto const& a, auto const& b) { return a.first < b.first; });
  answered_.clear();
  return std::exchange(case_, {});
}

}  // namespace flinch
