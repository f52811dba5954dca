#include "flinch/casefile/read_case.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "casefile/case_examples.hpp"
#include "casefile/free_texts.hpp"
#include "flinch/casefile/read_tree.hpp"
#include "flinch/syntax/vocabulary.hpp"
#include "flinch/text/nearest.hpp"
#include "flinch/yaml/document.hpp"
#include "model/answer_builder.hpp"
#include "model/fit.hpp"
#include "model/told.hpp"

namespace flinch {
namespace {

using yaml::Node;

class CaseReader {
 public:
  CaseReader(Pack const& pack, Outcomes outcomes, Report& report)
      : pack_(pack), outcomes_(outcomes), report_(report), builder_(pack, report) {}

  Case read(Node const& root) {
    if (root.kind != Node::Kind::map) {
      report_.error(Code::case_shape, root.at,
                    fmt::format("a case is a map with `name`, `{}`, `answers` and `note`",
                                pack_.patient_key()));
      return {};
    }
    // What else the case of another species holds are that species' names.
    if (is_of_another_species(root)) return {};
    Case words;
    Node const* complaint = nullptr;
    for (auto const& [key, at, value] : root.members) {
      auto const free_text =
          std::find_if(free_texts.begin(), free_texts.end(),
                       [&name = key](FreeText const& one) { return one.key == name; });
      if (free_text != free_texts.end())
        words.*(free_text->member) = text(value);
      else if (key == pack_.patient_key())
        patient(value);
      else if (key == "answers")
        answers(value);
      else if (key == "outcome") {
        if (outcomes_ == Outcomes::read) outcome(value);
      } else if (key == "came for")
        complaint = &value;
      else
        unknown_key(key, at,
                    {"name", pack_.patient_key(), "came for", "answers", "note", "caller",
                     "call back", "ring back at", "outcome"});
    }
    auto out = builder_.take();
    if (complaint != nullptr) came_for(*complaint, out);
    out.outcome = outcome_;
    for (auto const& one : free_texts) out.*(one.member) = std::move(words.*(one.member));
    return out;
  }

 private:
  void unknown_key(std::string_view key, Place at, std::vector<std::string_view> const& known) {
    auto& error = report_.error(Code::case_key, at, fmt::format("unknown key `{}`", key));
    if (pack_.find_sign(key))
      error.notes.push_back({"answers to signs stand under `answers`", {}});
    else if (auto const near = nearest(key, known))
      error.did_you_mean(*near);
    else
      error.notes.push_back({fmt::format("keys here are {}", fmt::join(known, ", ")), {}});
  }

  std::string text(Node const& node) {
    if (node.kind == Node::Kind::scalar) return node.scalar;
    if (node.kind != Node::Kind::nothing)
      report_.error(Code::case_shape, node.at, "a text is expected here");
    return {};
  }

  void patient(Node const& node) {
    if (node.kind != Node::Kind::map) {
      report_.error(Code::case_shape, node.at,
                    fmt::format("`{}` holds species, age, weight, breed, sex, neutered",
                                pack_.patient_key()));
      return;
    }
    for (std::size_t i = 0; i < node.members.size(); ++i) {
      auto const& [key, at, value] = node.members[i];
      if (key == "species") continue;  // read before all else
      // Between braces `0,5 kg` is cut at its comma.
      auto const* const rest = i + 1 < node.members.size() ? &node.members[i + 1] : nullptr;
      if (rest != nullptr && rest->value.kind == Node::Kind::nothing && !rest->key.empty() &&
          rest->key.front() >= '0' && rest->key.front() <= '9') {
        report_
            .error(Code::unit_misfit, value.at,
                   fmt::format("`{},{}` is no amount", value.scalar, rest->key))
            .notes.push_back({doubt_of_comma(value.scalar, rest->key)
                                  .value_or(fmt::format("the decimal mark is a point: `{}.{}`",
                                                        value.scalar, rest->key)),
                              {}});
        ++i;
        continue;
      }
      auto const sign = pack_.find_sign(key);
      if (!sign || !pack_[*sign].of_the_patient) {
        unknown_key(key, at, {"species", "age", "weight", "breed", "sex", "neutered", "size"});
        continue;
      }
      answer(*sign, value, at);
    }
  }

  bool is_of_another_species(Node const& root) {
    bool is_of_another = false;
    for (auto const& [key, at, value] : root.members) {
      if (key == pack_.patient_key()) {
        auto const* told = value.find("species");
        if (told == nullptr || pack_.species.empty() || text(*told) == pack_.species) continue;
        another_species(told->scalar, told->at);
      } else if (holds_a_patient(key, value)) {
        another_species(key, at);
      } else {
        continue;
      }
      is_of_another = true;
    }
    return is_of_another;
  }

  // A key that nothing else is called, and that holds what is told of a patient.
  [[nodiscard]] static bool holds_a_patient(std::string_view key, Node const& value) {
    return key != "answers" &&
           std::any_of(syntax::patient_facts.begin(), syntax::patient_facts.end(),
                       [&](auto fact) { return value.find(fact) != nullptr; });
  }

  void another_species(std::string_view told, Place at) {
    auto& error = report_.error(
        Code::case_species, at,
        pack_.species.empty()
            ? fmt::format(
                  "this pack names no species: the patient stands under `patient`, not `{}`", told)
            : fmt::format("this pack is for the species `{}`; nothing here holds for `{}`",
                          pack_.species, told));
    if (auto const near = nearest(told, {pack_.patient_key()}))
      error.notes.push_back({fmt::format("did you mean `{}`?", *near), {}});
    error.notes.push_back({"for a case of another species give its pack with --pack", {}});
  }

  void answers(Node const& node) {
    if (node.kind == Node::Kind::nothing) return;
    if (node.kind != Node::Kind::map) {
      report_.error(Code::case_shape, node.at,
                    "`answers` holds the names of signs and their answers");
      return;
    }
    for (auto const& [key, at, value] : node.members) {
      if (has_errors_enough(at)) return;
      if (lacks_colon(key, at, value)) continue;
      if (auto const sign = builder_.sign(key, at)) answer(*sign, value, at);
    }
  }

  // `{eats less}`.
  bool lacks_colon(std::string_view key, Place at, Node const& value) {
    auto const blank = key.find(' ');
    if (value.kind != Node::Kind::nothing || blank == std::string_view::npos) return false;
    auto const name = key.substr(0, blank);
    if (!pack_.find_sign(name)) return false;
    report_.error(Code::case_shape, at, fmt::format("`{}` is no answer", key))
        .notes.push_back({fmt::format("a colon stands between a sign and its answer: `{}: {}`",
                                      name, key.substr(blank + 1)),
                          {}});
    return true;
  }

  // Each unknown name is compared with all that exist: a file of nothing else would take minutes.
  bool has_errors_enough(Place at) {
    constexpr std::size_t most_errors = 100;
    if (report_.error_count() < most_errors) return false;
    if (report_.error_count() == most_errors)
      report_.error(Code::too_many_errors, at,
                    fmt::format("{} mistakes so far: the rest is not looked at", most_errors));
    return true;
  }

  void sites(SignId sign, std::vector<Node> const& items,
             void (AnswerBuilder::*place)(SignId, std::string_view, Place)) {
    for (auto const& item : items) {
      if (has_errors_enough(item.at)) return;
      site(sign, item, place);
    }
  }

  // Only what was told can be the reason for coming.
  void came_for(Node const& node, Case& patient) {
    if (node.kind == Node::Kind::nothing) return;
    if (node.kind != Node::Kind::list) {
      report_.error(
          Code::case_shape, node.at,
          fmt::format("`came for` is a list of signs, such as `[{}]`", sign_example(pack_)));
      return;
    }
    Told const is_told(pack_);
    for (auto const& item : node.items) {
      if (has_errors_enough(item.at)) return;
      if (item.kind != Node::Kind::scalar || item.scalar.empty()) {
        report_.error(Code::case_shape, item.at, "the name of a sign is expected here");
        continue;
      }
      auto const sign = builder_.sign(item.scalar, item.at);
      if (!sign) continue;
      auto const found = std::find_if(patient.answers.begin(), patient.answers.end(),
                                      [&](auto const& answer) { return answer.first == *sign; });
      if (found == patient.answers.end() || !is_told(*sign, found->second))
        report_
            .error(Code::case_complaint, item.at,
                   fmt::format("`{}` is not answered so that it is there", item.scalar))
            .notes.push_back({"what the patient came for is also among the `answers`", {}});
      else if (std::find(patient.came_for.begin(), patient.came_for.end(), *sign) !=
               patient.came_for.end())
        report_.error(Code::case_complaint, item.at,
                      fmt::format("`{}` stands here twice", item.scalar));
      else
        patient.came_for.push_back(*sign);
    }
  }

  void outcome(Node const& node) {
    if (node.kind != Node::Kind::map || node.members.empty()) {
      report_.error(
          Code::case_shape, node.at,
          "`outcome` holds `cause`, what the patient turned out to have, and `needed`, the "
          "tier that it really needed");
      return;
    }
    outcome_.emplace();
    for (auto const& [key, at, value] : node.members) {
      if (key == "cause") {
        outcome_->is_cause_known = true;
        if (text(value) != "none") outcome_->cause = named<CauseId>("cause", pack_.causes, value);
      } else if (key == "needed") {
        outcome_->needed = named<TierId>("tier", pack_.tiers, value);
      } else {
        unknown_key(key, at, {"cause", "needed"});
      }
    }
  }

  template <class Id, class Things>
  std::optional<Id> named(std::string_view kind, Things const& things, Node const& node) {
    if (node.kind != Node::Kind::scalar || node.scalar.empty()) {
      report_.error(Code::case_shape, node.at, fmt::format("the name of a {} is expected", kind));
      return std::nullopt;
    }
    std::vector<std::string_view> names;
    for (std::uint32_t i = 0; i < things.size(); ++i) {
      if (things[i].name == node.scalar) return Id{i};
      names.push_back(things[i].name);
    }
    auto& error = report_.error(Code::unknown_name, node.at,
                                fmt::format("unknown {} `{}`", kind, node.scalar));
    if (auto const near = nearest(node.scalar, names)) error.did_you_mean(*near);
    return std::nullopt;
  }

  void answer(SignId sign, Node const& node, Place key_at) {
    switch (node.kind) {
      case Node::Kind::nothing:
        report_.error(Code::case_shape, key_at,
                      fmt::format("`{}` has no answer; write `can't tell` if nobody knows",
                                  pack_[sign].name));
        return;
      case Node::Kind::scalar:
        builder_.written(sign, node.scalar, node.at);
        return;
      case Node::Kind::list:
        sites(sign, node.items, &AnswerBuilder::found);
        return;
      case Node::Kind::map:
        for (auto const& [key, at, value] : node.members) {
          if (key != "found" && key != "clear") {
            unknown_key(key, at, {"found", "clear"});
            continue;
          }
          auto const place = key == "found" ? &AnswerBuilder::found : &AnswerBuilder::clear;
          if (key == "found" && value.scalar == "yes")
            builder_.found(sign, "", value.at);  // somewhere, and nobody knows where
          else if (value.kind == Node::Kind::list)
            sites(sign, value.items, place);
          else
            site(sign, value, place);
        }
        return;
    }
  }

  void site(SignId sign, Node const& node,
            void (AnswerBuilder::*place)(SignId, std::string_view, Place)) {
    if (node.kind != Node::Kind::scalar || node.scalar.empty()) {
      report_.error(Code::case_shape, node.at,
                    fmt::format("a site is expected here, such as `{}`", site_example(pack_)));
      return;
    }
    (builder_.*place)(sign, node.scalar, node.at);
  }

  Pack const& pack_;
  Outcomes outcomes_;
  Report& report_;
  AnswerBuilder builder_;
  std::optional<CaseOutcome> outcome_;
};

}  // namespace

Case read_case_tree(Node const& root, Pack const& pack, Outcomes outcomes, Report& report) {
  return CaseReader(pack, outcomes, report).read(root);
}

Outcome<Case> read_case(SourceSet const& sources, FileId file, Pack const& pack,
                        Outcomes outcomes) {
  Report report;
  std::optional<Case> read;
  if (auto const root = yaml::read(sources, file, {}, report))
    read = read_case_tree(*root, pack, outcomes, report);
  bool const sound = !report.has_errors();
  Outcome<Case> out{std::nullopt, report.take()};
  if (sound && read) out.value = std::move(read);
  return out;
}

}  // namespace flinch
