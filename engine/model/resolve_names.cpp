// Which statements there are, what they are called, and who has read them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/syntax/reading.hpp"
#include "flinch/syntax/vocabulary.hpp"
#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"
#include "model/fit.hpp"
#include "model/resolver.hpp"

namespace flinch {
namespace {

syntax::Name built_in(char const* text) { return {text, {}}; }

// The patient's own signs. Ranges are as wide as any animal: the pack narrows them to its species.
std::vector<Sign> patient_signs() {
  std::vector<Sign> signs(patient_sign::count);
  auto const define = [&](SignId id, char const* name, char const* label, AnswerKind kind) {
    auto& sign = signs[index(id)];
    sign.name = name;
    sign.label = label;
    sign.kind = kind;
    sign.of_the_patient = true;
  };
  define(patient_sign::age, "age", "age", AnswerKind::number);
  define(patient_sign::weight, "weight", "weight", AnswerKind::number);
  define(patient_sign::sex, "sex", "sex", AnswerKind::one_of);
  define(patient_sign::neutered, "neutered", "neutered", AnswerKind::yes_or_no);
  define(patient_sign::size, "size", "size", AnswerKind::steps);
  define(patient_sign::breed, "breed", "breed", AnswerKind::breed);
  define(patient_sign::weight_confirmed, "weight_confirmed", "weight, asked once more",
         AnswerKind::number);
  auto& age = signs[index(patient_sign::age)];
  age.unit = *find_unit("years");
  age.high = 200;
  auto& weight = signs[index(patient_sign::weight)];
  weight.unit = *find_unit("kg");
  weight.low = 0.001;
  weight.high = 10000;
  auto& confirmed = signs[index(patient_sign::weight_confirmed)];
  confirmed.unit = weight.unit;
  confirmed.low = weight.low;
  confirmed.high = weight.high;
  confirmed.ask = "Is the weight that was told right? Weigh again if you can.";
  signs[index(patient_sign::sex)].values = {{"male", "male"}, {"female", "female"}};
  for (auto const size : usual_sizes)
    signs[index(patient_sign::size)].values.push_back({std::string(size), std::string(size)});
  return signs;
}

}  // namespace

Resolver::Resolver(std::vector<syntax::File> const& files, BreedTable breeds,
                   std::vector<LeftOut> left_out, bool is_whole, Report& report)
    : files_(files), left_out_(std::move(left_out)), is_whole_(is_whole), report_(report) {
  pack_.breeds = std::move(breeds);
}

Pack Resolver::resolve() {
  for (auto const& file : files_) collect(file);
  forgive_what_is_left_out();
  define_names();
  names_by_their_words();
  pack_head();
  sources();
  tiers();
  sites();
  groups();
  signs();
  means();
  sign_relations();
  causes();
  families();
  rules();
  overlaps();
  alarms();
  care();
  examples();
  accepts();
  readings();
  return std::move(pack_);
}

bool Resolver::is_kind_unknown(std::uint32_t sign) const {
  if (sign < patient_sign::count || sign >= first_means_) return false;
  auto const& answer = written_signs_[sign - patient_sign::count].statement->answer;
  if (!answer) return true;
  auto const* measure = std::get_if<syntax::Measure>(&answer->kind);
  return measure != nullptr && measure->unit && !find_unit(measure->unit->text);
}

// The kinds of names that others refer to.
std::vector<Symbols*> Resolver::used_names() {
  return {&source_names_, &tier_names_, &site_names_,  &group_names_, &sign_names_,
          &cause_names_,  &rule_names_, &alarm_names_, &care_names_};
}

void Resolver::forgive_what_is_left_out() {
  for (auto* names : used_names()) {
    names->left_out(left_out_);
    if (!is_whole_) names->forgive_strangers();
  }
  for (auto const& file : left_out_) pack_.not_included.push_back(file.file);
}

// By which statements names of a kind are defined.
std::vector<std::string_view> Resolver::keywords_of(Symbols const& names) const {
  if (&names == &sign_names_) return {"sign", "means"};
  if (&names == &cause_names_) return {"cause", "family"};
  if (&names == &group_names_) return {"breeds"};
  return {names.kind()};
}

void Resolver::collect(syntax::File const& file) {
  for (auto const& lost : file.lost) {
    for (auto* names : used_names()) {
      for (auto const& name : lost.names) names->forgive(name);
      auto const keywords = keywords_of(*names);
      bool const is_its_kind =
          std::find(keywords.begin(), keywords.end(), lost.keyword) != keywords.end();
      if (is_its_kind && lost.is_unreadable) names->forgive_strangers();
    }
  }
  auto damaged = file.damaged.begin();
  for (std::size_t i = 0; i < file.statements.size(); ++i) {
    bool const is_next = damaged != file.damaged.end() && damaged->statement == i;
    auto const* const damage = is_next ? &*damaged++ : nullptr;
    std::visit(
        [&]<class T>(T const& s) {
          if constexpr (std::is_same_v<T, syntax::PackHead>) written_packs_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Source>) written_sources_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Tier>) written_tiers_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Site>) written_sites_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Breeds>) written_breeds_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Sign>) written_signs_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Means>) written_means_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Cause>) written_causes_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Family>)
            written_families_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Rule>) written_rules_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Alarm>) written_alarms_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Overlap>)
            written_overlaps_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Care>) written_care_.push_back({&s, damage});
          if constexpr (std::is_same_v<T, syntax::Example>)
            written_examples_.push_back({&s, damage});
        },
        file.statements[i]);
  }
}

void Resolver::define_names() {
  auto const define_all = [&](auto const& written, Symbols& names, std::uint32_t from = 0) {
    for (auto const& w : written) {
      auto const& s = *w.statement;
      names.define(s.name, from++, report_);
      if constexpr (requires { s.title; })
        if (s.title) names.called(s.name.text, s.title->text);
      if constexpr (requires { s.also_called; })
        for (auto const& words : s.also_called) names.called(s.name.text, words.text);
      if constexpr (requires { s.also_said; })
        for (auto const& said : s.also_said)
          if (!said.value) names.called(s.name.text, said.words.text);
    }
  };
  define_all(written_sources_, source_names_);
  define_all(written_tiers_, tier_names_);
  define_all(written_sites_, site_names_);
  pack_.signs = patient_signs();
  for (std::uint32_t i = 0; i < pack_.signs.size(); ++i)
    sign_names_.define(built_in(pack_.signs[i].name.c_str()), i, report_);
  define_all(written_signs_, sign_names_, patient_sign::count);
  first_means_ = static_cast<std::uint32_t>(patient_sign::count + written_signs_.size());
  define_all(written_means_, sign_names_, first_means_);
  define_all(written_causes_, cause_names_);
  first_family_ = static_cast<std::uint32_t>(written_causes_.size());
  for (std::uint32_t i = 0; i < written_families_.size(); ++i) {
    auto const& name = written_families_[i].statement->name;
    if (auto const& title = written_families_[i].statement->title)
      cause_names_.called(name.text, title->text);
    auto const earlier = cause_names_.find(name.text);
    if (!earlier) {
      cause_names_.define(name, first_family_ + i, report_);
      continue;
    }
    report_
        .error(
            Code::doubled_name, name.at,
            fmt::format("family `{}` {}", name.text,
                        *earlier < first_family_ ? "has the name of a cause" : "is defined twice"))
        .notes.push_back({"first defined here", cause_names_.place_of(name.text)});
  }
  define_all(written_rules_, rule_names_);
  define_all(written_alarms_, alarm_names_);
  define_floors();
  define_all(written_overlaps_, overlap_names_);
  define_all(written_care_, care_names_);
  define_all(written_examples_, example_names_);
  for (auto const& group : pack_.breeds.groups) {
    group_names_.define(built_in(group.key.c_str()),
                        static_cast<std::uint32_t>(pack_.groups.size()), report_);
    pack_.groups.push_back(group);
  }
  define_all(written_breeds_, group_names_, static_cast<std::uint32_t>(pack_.groups.size()));
}

// `affects front leg`, `first "Sore mouth"`: what people read, where its name was wanted.
void Resolver::names_by_their_words() {
  for (auto const& file : files_)
    for (auto const& written : file.words_for_names) {
      auto const all = used_names();
      auto const names = std::find_if(
          all.begin(), all.end(), [&](Symbols const* one) { return one->kind() == written.kind; });
      auto const name = names == all.end() ? std::nullopt : (*names)->named_by(written.words);
      auto* error = name ? report_.find(Code::expected, written.error_at) : nullptr;
      if (error == nullptr) continue;
      error->at = written.at;
      error->message =
          fmt::format("expected the name of a{} {}, found the words `{}`",
                      written.kind == "alarm" ? "n" : "", written.kind, shown(written.words));
      error->notes.clear();
      error->did_you_mean(*name, (*names)->place_of(*name));
    }
}

// A floor is an alarm that is called by its sign and its tier.
void Resolver::define_floors() {
  for (auto const& written : written_signs_) {
    auto const& s = *written.statement;
    std::vector<std::string> own;
    for (auto const& floor : s.alone) {
      own.push_back(fmt::format("{}_alone_{}", s.name.text, floor.see.text));
      auto const before = std::count(own.begin(), own.end(), own.back());
      floor_names_.push_back(before == 1 ? own.back() : fmt::format("{}_{}", own.back(), before));
      alarm_names_.define(
          {floor_names_.back(), floor.see.at},
          static_cast<std::uint32_t>(written_alarms_.size() + floor_names_.size() - 1), report_);
    }
    if (!written.damaged()) continue;
    for (auto const& tier : written_tiers_)
      alarm_names_.forgive(fmt::format("{}_alone_{}", s.name.text, tier.statement->name.text));
  }
}

// One reading for every kind of statement: what may stand is known by the statement's name.
void Resolver::accepts() {
  auto const& known = acceptable_warnings();
  auto const accept_warning = [&](syntax::Accept const& accept, std::optional<Place> statement) {
    auto const& name = accept.warning;
    auto const found = std::find_if(known.begin(), known.end(),
                                    [&](Code code) { return code_text(code) == name.text; });
    if (found != known.end()) {
      pack_.accepted.push_back({*found, accept.reason.text, statement, name.at});
      return;
    }
    constexpr std::size_t longest_shown = 60;
    auto const shown = name.text.substr(0, whole_character(name.text, longest_shown));
    auto& error =
        report_.error(Code::unknown_warning, name.at, fmt::format("unknown warning `{}`", shown));
    std::vector<std::string_view> names;
    for (auto const code : known) names.push_back(code_text(code));
    if (auto const near = nearest(name.text, names))
      error.did_you_mean(*near);
    else
      error.notes.push_back({fmt::format("these can be accepted: {}", fmt::join(names, ", ")), {}});
  };
  for (auto const& file : files_)
    for (auto const& statement : file.statements)
      std::visit(
          [&]<class T>(T const& s) {
            if constexpr (std::is_same_v<T, syntax::PackHead>)
              for (auto const& accept : s.accepts) accept_warning(accept, std::nullopt);
            else if constexpr (!std::is_same_v<T, syntax::Include>)
              for (auto const& accept : s.accepts) accept_warning(accept, s.name.at);
          },
          statement);
}

// Marks are made where somebody has left one to hold against, nowhere else: printing every
// statement at every start would be felt.
void Resolver::readings() {
  for (auto const& file : files_)
    for (auto const& statement : file.statements) {
      auto const* name = syntax::name_of(statement);
      if (name == nullptr) continue;
      ++pack_.statements;
      auto const& written = syntax::readings_of(statement);
      if (written.empty()) continue;
      auto const mark = syntax::mark_of(statement);
      for (auto const& one : written)
        pack_.readings.push_back({one.reader.text, one.date.text,
                                  !one.mark                ? ReadingState::unmarked
                                  : one.mark->text == mark ? ReadingState::stands
                                                           : ReadingState::changed,
                                  name->at, one.reader.at});
    }
}

void Resolver::missing(std::string_view kind, syntax::Name const& name, std::string_view clause) {
  auto& error = report_.error(Code::missing_clause, name.at,
                              fmt::format("{} `{}` has no `{}`", kind, name.text, clause));
  auto const* words = syntax::find_statement_words(kind);
  if (words == nullptr) return;
  for (auto const& one : words->clauses)
    if (one.phrase == clause)
      error.notes.push_back({fmt::format("written as in `{}`", one.form), {}});
}

// `harm` falls from tier to tier, so the example is below that of the tier before.
void Resolver::missing_harm(syntax::Name const& tier) {
  if (pack_.tiers.empty() || !pack_.tiers.back().harm) return missing("tier", tier, "harm");
  auto const& before = pack_.tiers.back();
  report_.error(Code::missing_clause, tier.at, fmt::format("tier `{}` has no `harm`", tier.text))
      .notes.push_back({fmt::format("written as in `harm {:.3g}`, less than that of `{}`",
                                    *before.harm / 2, before.name),
                        {}});
}

std::vector<SourceId> Resolver::cited(std::vector<syntax::Name> const& names) {
  std::vector<SourceId> out;
  for (auto const& name : names)
    if (auto const found = source_names_.find(name, report_)) out.push_back(SourceId{*found});
  return out;
}

std::vector<std::string> Resolver::other_calls(std::vector<syntax::Text> const& written) {
  std::vector<std::string> out;
  for (auto const& also : written) {
    if (also.text.find_first_not_of(" \t\r\n") == std::string::npos)
      report_.error(Code::expected, also.at, "expected the words behind `also called`, found none");
    else
      out.push_back(also.text);
  }
  return out;
}

std::optional<double> Resolver::quantity(syntax::Quantity const& written, Dimension dimension) {
  auto const unit = find_unit(written.unit);
  if (!unit || unit->dimension != dimension) {
    auto& error = report_.error(
        Code::unit_misfit, written.at,
        written.unit.empty() ? fmt::format("this needs a unit: {}", units_that_fit(dimension))
                             : fmt::format("unit `{}` does not fit here; these do: {}",
                                           written.unit, units_that_fit(dimension)));
    suggest_unit(error, written.value, written.unit, std::array{dimension});
    return std::nullopt;
  }
  return convert(written.value, *unit, Unit{"", dimension, 1, 0});
}

}  // namespace flinch
