#include "exchange/read_response.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "exchange/answer_reader.hpp"
#include "flinch/casefile/read_tree.hpp"
#include "flinch/json/document.hpp"
#include "flinch/text/nearest.hpp"

namespace flinch::cli {
namespace {

Tree map_at(Place at) { return {Tree::Kind::map, {}, false, {}, {}, at}; }
Tree list_at(Place at) { return {Tree::Kind::list, {}, false, {}, {}, at}; }

// The tree of a case file, out of the items of a response.
class ResponseReader {
 public:
  ResponseReader(Pack const& pack, JsonReader& json)
      : pack_(pack), json_(json), answers_(pack, json) {}

  Tree read(Tree const& response) {
    json_.refuse_others(response, {"resourceType", "id",        "meta",      "implicitRules",
                                   "language",     "text",      "contained", "extension",
                                   "identifier",   "basedOn",   "partOf",    "questionnaire",
                                   "status",       "subject",   "encounter", "authored",
                                   "author",       "source",    "item",      "_questionnaire",
                                   "_status",      "_authored", "_language"});
    form(response);
    status(response);
    for (auto const* key : {"contained", "extension", "implicitRules"})
      if (auto const* node = response.find(key); node != nullptr)
        json_.unread(node->at, fmt::format("`{}` is not taken over", key));
    items(response);
    return tree(response.at);
  }

 private:
  void form(Tree const& response) {
    auto const* node = response.find("questionnaire");
    if (node == nullptr) {
      json_.unread(response.at,
                   "it does not say to which `questionnaire` it is a response: its "
                   "items are taken for those of this pack");
      return;
    }
    auto const named = json_.text(response, "questionnaire");
    if (!named) return;
    auto const bar = named->find('|');
    if (named->substr(0, bar) != address(pack_, Vocabulary::form)) {
      json_
          .error(Code::exchange_shape, node->at,
                 "this is a response to another form than that of this pack")
          .notes.push_back({fmt::format("the form of `{}` is {}: flinch signs --questionnaire",
                                        pack_.name, address(pack_, Vocabulary::form)),
                            {}});
      return;
    }
    if (bar != std::string::npos && named->substr(bar + 1) != pack_.version)
      json_.unread(node->at, fmt::format("it was filled in for version {} of the form; this is {}",
                                         named->substr(bar + 1), pack_.version));
  }

  void status(Tree const& response) {
    auto const found = json_.text(response, "status");
    if (found == "entered-in-error")
      json_.error(Code::exchange_shape, response.find("status")->at,
                  "it was entered in error, says its sender: there is no case to take");
    else if (!found && response.find("status") == nullptr)
      json_.error(Code::exchange_shape, response.at, "a response has a `status`");
  }

  void items(Tree const& of) {
    for (auto const* item : json_.objects(of, "item")) {
      if (json_.has_enough(item->at)) return;
      one(*item);
    }
  }

  void one(Tree const& item) {
    json_.refuse_others(
        item, {"id", "extension", "linkId", "definition", "text", "_text", "answer", "item"});
    if (auto const* node = item.find("extension"); node != nullptr)
      json_.unread(node->at, "extensions of an item are not taken over");
    auto const link = json_.text(item, "linkId");
    if (!link) {
      if (item.find("linkId") == nullptr)
        json_.error(Code::exchange_shape, item.at, "an item has a `linkId`");
      return;
    }
    auto const at = item.find("linkId")->at;
    if (is_group(*link)) {
      if (auto const* node = item.find("answer"); node != nullptr)
        json_.error(Code::exchange_item, node->at,
                    fmt::format("`{}` is a group: its items are answered", *link));
      items(item);
      return;
    }
    if (item.find("item") != nullptr && !json_.objects(item, "item").empty())
      json_.error(Code::exchange_item, item.find("item")->at,
                  fmt::format("`{}` has no items of its own", *link));
    answered(*link, at, json_.objects(item, "answer"));
  }

  static bool is_group(std::string_view link) {
    return link == link::patient || link == link::signs || link == link::outcome ||
           link == link::words;
  }

  void answered(std::string const& link, Place at, std::vector<Tree const*> const& answers) {
    if (answers.empty()) return;  // not answered is not known
    if (auto const sign = pack_.find_sign(link)) return of_sign(*sign, at, answers);
    if (link == link::came_for) return came_for(answers);
    if (link.ends_with(link::clear))
      if (auto const sign = pack_.find_sign(link.substr(0, link.size() - link::clear.size())))
        if (traits(pack_[*sign]).has_places) return clear(*sign, at, answers);
    if (link == link::outcome_cause || link == link::outcome_needed)
      return outcome(link, at, answers);
    for (auto const& words : words_items())
      if (link == words.link) {
        if (is_single(link, answers))
          if (auto text = answers_.words(*answers.front()))
            add(root_, words.key, at, std::move(*text));
        return;
      }
    unknown(link, at);
  }

  void unknown(std::string const& link, Place at) {
    std::vector<std::string_view> names = {link::came_for, link::outcome_cause,
                                           link::outcome_needed};
    for (auto const& sign : pack_.signs) names.push_back(sign.name);
    for (auto const& words : words_items()) names.push_back(words.link);
    auto& error =
        json_.error(Code::exchange_item, at,
                    fmt::format("the form has no item `{}`: its answer would be lost", link));
    if (auto const near = nearest(link, names))
      error.did_you_mean(*near);
    else
      error.notes.push_back({"the items of the form: flinch signs --questionnaire", {}});
  }

  bool is_single(std::string const& link, std::vector<Tree const*> const& answers) {
    if (answers.size() == 1) return true;
    json_.error(Code::exchange_item, answers[1]->at,
                fmt::format("`{}` has one answer, and {} are given", link, answers.size()));
    return false;
  }

  void of_sign(SignId id, Place at, std::vector<Tree const*> const& answers) {
    auto const& sign = pack_[id];
    if (traits(sign).has_places) return found(id, at, answers);
    if (!is_single(sign.name, answers)) return;
    if (auto answer = answers_.of_sign(sign, *answers.front()))
      add(sign.of_the_patient ? patient_ : signs_, sign.name, at, std::move(*answer));
  }

  struct Places {
    Place at;
    std::optional<Tree> word;  ///< yes, no, can't tell
    std::vector<Tree> found;
    std::vector<Tree> clear;
    std::optional<Place> found_at, clear_at;
  };

  Places* places(SignId id, Place at, std::optional<Place> Places::*part) {
    auto& one = places_.try_emplace(index(id), Places{at, {}, {}, {}, {}, {}}).first->second;
    if (one.*part) {
      json_.error(Code::answered_twice, at, fmt::format("`{}` is answered twice", pack_[id].name))
          .notes.push_back({"first answered here", *(one.*part)});
      return nullptr;
    }
    one.*part = at;
    return &one;
  }

  // Each site goes to `sites`; `word` gets yes, no and can't tell.
  template <class Word>
  void read_places(SignId id, std::vector<Tree const*> const& answers, std::vector<Tree>& sites,
                   Word const& word) {
    for (auto const* answer : answers) {
      if (json_.has_enough(answer->at)) return;
      auto read = answers_.of_sign(pack_[id], *answer);
      if (!read) continue;
      if (read->scalar == "yes" || read->scalar == "no" || read->scalar == "can't tell")
        word(std::move(*read));
      else
        sites.push_back(std::move(*read));
    }
  }

  void found(SignId id, Place at, std::vector<Tree const*> const& answers) {
    auto* const one = places(id, at, &Places::found_at);
    if (one == nullptr) return;
    read_places(id, answers, one->found, [&](Tree word) {
      if (one->word)
        json_.error(Code::exchange_item, word.at,
                    fmt::format("`{}` is answered by \"{}\" and \"{}\" at once", pack_[id].name,
                                one->word->scalar, word.scalar));
      else
        one->word = std::move(word);
    });
  }

  void clear(SignId id, Place at, std::vector<Tree const*> const& answers) {
    auto* const one = places(id, at, &Places::clear_at);
    if (one == nullptr) return;
    read_places(id, answers, one->clear, [&](Tree const& word) {
      json_.error(Code::exchange_answer, word.at,
                  fmt::format("`{}{}` is answered by sites", pack_[id].name, link::clear));
    });
  }

  void came_for(std::vector<Tree const*> const& answers) {
    if (root_.find("came for") != nullptr) {
      json_.error(Code::answered_twice, answers.front()->at,
                  fmt::format("`{}` is answered twice", link::came_for));
      return;
    }
    auto list = list_at(answers.front()->at);
    for (auto const* answer : answers)
      if (auto name = answers_.code(*answer, Vocabulary::signs, "what it came for"))
        list.items.push_back(std::move(*name));
    if (!list.items.empty()) root_.members.push_back({"came for", list.at, list});
  }

  void outcome(std::string const& link, Place at, std::vector<Tree const*> const& answers) {
    if (!is_single(link, answers)) return;
    bool const is_cause = link == link::outcome_cause;
    if (auto name =
            answers_.code(*answers.front(), is_cause ? Vocabulary::causes : Vocabulary::tiers,
                          is_cause ? "a cause" : "how soon"))
      add(outcome_, is_cause ? "cause" : "needed", at, std::move(*name));
  }

  void add(Tree& to, std::string_view key, Place at, Tree value) {
    if (auto const* first = to.find(key); first != nullptr) {
      json_.error(Code::answered_twice, at, fmt::format("`{}` is answered twice", key))
          .notes.push_back({"first answered here", first->at});
      return;
    }
    to.members.push_back({std::string(key), at, std::move(value)});
  }

  // Found and clear sites of one sign, as a case file holds them.
  void gather_places() {
    for (auto& [id, one] : places_) {
      auto const& sign = pack_.signs[id];
      auto& to = sign.of_the_patient ? patient_ : signs_;
      bool const is_yes = one.word && one.word->scalar == "yes";
      if (one.word && !is_yes && !(one.found.empty() && one.clear.empty())) {
        json_.error(Code::exchange_item, one.word->at,
                    fmt::format("`{}` is answered by \"{}\" and by sites at once", sign.name,
                                one.word->scalar));
        continue;
      }
      if (one.word && one.found.empty() && one.clear.empty()) {
        to.members.push_back({sign.name, one.at, std::move(*one.word)});
        continue;
      }
      auto map = map_at(one.at);
      if (!one.found.empty() || is_yes) {
        auto list = list_at(one.at);
        list.items = std::move(one.found);
        map.members.push_back(
            {"found", one.at, list.items.empty() ? std::move(*one.word) : std::move(list)});
      }
      if (!one.clear.empty()) {
        auto list = list_at(one.at);
        list.items = std::move(one.clear);
        map.members.push_back({"clear", one.at, std::move(list)});
      }
      if (!map.members.empty()) to.members.push_back({sign.name, one.at, std::move(map)});
    }
  }

  Tree tree(Place at) {
    gather_places();
    auto out = std::move(root_);
    out.at = at;
    out.members.push_back({std::string(pack_.patient_key()), at, std::move(patient_)});
    out.members.push_back({"answers", at, std::move(signs_)});
    if (!outcome_.members.empty()) out.members.push_back({"outcome", at, std::move(outcome_)});
    return out;
  }

  Pack const& pack_;
  JsonReader& json_;
  AnswerReader answers_;
  std::map<std::size_t, Places> places_;
  Tree root_ = map_at({}), patient_ = map_at({}), signs_ = map_at({}), outcome_ = map_at({});
};

// The one response of a document, and what else stands beside it.
class DocumentReader {
 public:
  DocumentReader(Pack const& pack, JsonReader& json) : pack_(pack), json_(json) {}

  std::optional<Tree> read(Tree const& root) {
    look_at(root);
    if (response_ == nullptr) {
      json_
          .error(Code::exchange_shape, root.at,
                 "there is no QuestionnaireResponse in it, alone or in a Bundle")
          .notes.push_back({"what `flinch share` writes holds one", {}});
      return std::nullopt;
    }
    return ResponseReader(pack_, json_).read(*response_);
  }

 private:
  void look_at(Tree const& resource) {
    auto const type = json_.text(resource, "resourceType");
    if (!type) {
      if (resource.find("resourceType") == nullptr)
        json_.error(Code::exchange_shape, resource.at, "a resource has a `resourceType`");
    } else if (type == "QuestionnaireResponse") {
      response(resource);
    } else if (type == "Bundle") {
      bundle(resource);
    } else if (type == "Patient") {
      patient(resource);
    } else if (!is_made_anew(*type)) {
      json_.unread(resource.find("resourceType")->at,
                   fmt::format("a resource of type {} is not taken over", *type));
    }
  }

  // What follows from the answers is not read: it follows anew.
  static bool is_made_anew(std::string_view type) {
    return type == "RiskAssessment" || type == "ServiceRequest" || type == "CarePlan" ||
           type == "Provenance" || type == "Device" || type == "Questionnaire";
  }

  void response(Tree const& resource) {
    if (response_ == nullptr) {
      response_ = &resource;
      return;
    }
    json_
        .error(Code::exchange_shape, resource.at,
               "this is a second QuestionnaireResponse: a case has one, send them one by one")
        .notes.push_back({"the first stands here", response_->at});
  }

  void bundle(Tree const& resource) {
    if (is_in_bundle_) {
      json_.error(Code::exchange_shape, resource.at, "a Bundle within a Bundle is not read");
      return;
    }
    is_in_bundle_ = true;
    for (auto const* entry : json_.objects(resource, "entry")) {
      if (json_.has_enough(entry->at)) return;
      auto const* inside = entry->find("resource");
      if (inside == nullptr) continue;
      if (inside->kind == Tree::Kind::map)
        look_at(*inside);
      else
        json_.error(Code::exchange_shape, inside->at, "`resource` is an object");
    }
  }

  void patient(Tree const& resource) {
    for (auto const* extension : json_.objects(resource, "extension")) {
      if (json_.text(*extension, "url") != fhir::animal) continue;
      for (auto const* part : json_.objects(*extension, "extension"))
        if (json_.text(*part, "url") == "species")
          if (auto const* value = part->find("valueCodeableConcept");
              value != nullptr && value->kind == Tree::Kind::map)
            species(*value);
    }
  }

  // The standard's code, where there is one, decides; otherwise the text, as `share` writes it.
  // What is told in neither way may be any animal.
  void species(Tree const& value) {
    if (pack_.species.empty()) return;
    auto const wanted = species_code(pack_.species);
    auto const text = json_.text(value, "text");
    bool const is_in_words =
        text && (are_same_words(*text, pack_.species) || are_same_words(*text, pack_.words.one));
    bool is_coded = false;
    for (auto const* coding : json_.objects(value, "coding")) {
      is_coded = true;
      auto const code = json_.text(*coding, "code");
      if (!wanted || !code || json_.text(*coding, "system") != fhir::species) continue;
      if (*code != *wanted) return refuse_species(*coding->find("code"), *code);
      if (text && !is_in_words)
        json_.unread(
            value.find("text")->at,
            fmt::format("the patient is \"{}\"; its code is that of the pack's species, `{}`",
                        *text, pack_.species));
      return;
    }
    if (is_in_words) return;
    if (text)
      refuse_species(*value.find("text"), *text);
    else if (is_coded)
      refuse_species(value, "another code");
  }

  static bool are_same_words(std::string_view text, std::string_view name) {
    return std::equal(text.begin(), text.end(), name.begin(), name.end(), [](char one, char other) {
      return std::tolower(static_cast<unsigned char>(one)) ==
             std::tolower(static_cast<unsigned char>(other));
    });
  }

  void refuse_species(Tree const& place, std::string_view told) {
    auto const code = species_code(pack_.species);
    json_
        .error(Code::case_species, place.at,
               fmt::format("this pack is for the species `{}`{}, and the patient is `{}`",
                           pack_.species, code ? fmt::format(" (`{}`)", *code) : "", told))
        .notes.push_back({"for a patient of another species give its pack with --pack", {}});
  }

  Pack const& pack_;
  JsonReader& json_;
  Tree const* response_ = nullptr;
  bool is_in_bundle_ = false;
};

}  // namespace

Outcome<Case> read_response(SourceSet const& sources, FileId file, Pack const& pack) {
  constexpr std::size_t deepest = 64;
  Report report;
  std::optional<Case> read;
  if (auto const root =
          json::read(sources, file, {.bytes = largest_document, .depth = deepest}, report)) {
    JsonReader json(report);
    if (auto const tree = DocumentReader(pack, json).read(*root))
      read = read_case_tree(*tree, pack, Outcomes::read, report);
  }
  bool const is_sound = !report.has_errors();
  Outcome<Case> out{std::nullopt, report.take()};
  if (is_sound && read) out.value = std::move(read);
  return out;
}

}  // namespace flinch::cli
