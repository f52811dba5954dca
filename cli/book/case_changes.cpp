#include "book/case_changes.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "book/trouble.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<char const*, 5> keys_of_words = {"name", "caller", "call back", "ring back at",
                                                      "note"};

// What an entry says beside the case: the tier that was told, the time to ring back.
constexpr char const* key_of_the_book = "book";
constexpr char const* key_came_for = "came for";

Json object(std::string_view text) {
  auto out = Json::parse(text, nullptr, false);
  if (!out.is_object())
    throw BookTrouble(
        "an entry of the book cannot be read: take up the last backup (docs/book.md)");
  return out;
}

std::string text_of(Json const& tree) {
  return tree.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json changes(Json const& before, Json const& after) {
  if (!before.is_object() || !after.is_object()) return after;
  auto out = Json::object();
  for (auto const& [key, value] : before.items())
    if (!after.contains(key)) out[key] = nullptr;
  for (auto const& [key, value] : after.items()) {
    auto const was = before.find(key);
    if (was == before.end())
      out[key] = value;
    else if (*was != value)
      out[key] = changes(*was, value);
  }
  return out;
}

}  // namespace

std::string with_book_facts(std::string_view said, BookFacts const& facts) {
  auto out = object(said);
  auto put = Json::object();
  if (facts.tier) put["tier"] = facts.tier->empty() ? Json() : Json(*facts.tier);
  if (facts.ring_back) put["ring back"] = *facts.ring_back ? Json(**facts.ring_back) : Json();
  if (facts.taken_in) put["taken in"] = facts.taken_in->had_words ? "with words" : "";
  if (facts.follows) put["follows"] = *facts.follows;
  if (!facts.waited_in.empty()) put["waited in"] = facts.waited_in;
  if (!facts.species.empty()) put["species"] = facts.species;
  if (!facts.pack.empty()) put["pack"] = facts.pack;
  if (!put.empty()) out[key_of_the_book] = std::move(put);
  return text_of(out);
}

bool has_waited_in(std::string_view said, std::string const& file) {
  auto const tree = object(said);
  auto const facts = tree.find(key_of_the_book);
  return facts != tree.end() && facts->is_object() && facts->contains("waited in") &&
         facts->at("waited in") == file;
}

std::optional<TakenInMark> taken_in_mark(std::string_view said) {
  auto const tree = object(said);
  auto const facts = tree.find(key_of_the_book);
  if (facts == tree.end() || !facts->is_object() || !facts->contains("taken in"))
    return std::nullopt;
  return TakenInMark{facts->at("taken in") != ""};
}

bool has_outcome(std::string_view said) {
  auto const tree = object(said);
  auto const found = tree.find("outcome");
  return found != tree.end() && !found->is_null();
}

std::string species_in(std::string_view said) {
  auto const tree = object(said);
  std::string out;
  for (auto const& [key, value] : tree.items()) {
    if (!value.is_object() || key == "answers" || key == "outcome") continue;
    if (key != key_of_the_book)
      out = key;
    else if (auto const its = value.find("species"); its != value.end() && its->is_string())
      out = its->get<std::string>();
    if (!out.empty()) break;
  }
  return out == "patient" ? "" : out;
}

SaidAndWords apart(std::string_view changes) {
  auto said = object(changes);
  auto words = Json::object();
  for (auto const* key : keys_of_words)
    if (auto const found = said.find(key); found != said.end()) {
      words[key] = *found;
      said.erase(key);
    }
  return {text_of(said), text_of(words)};
}

AnswersApart answers_apart(std::string_view changes, std::vector<std::string> const& names) {
  auto rest = object(changes);
  auto of_these = Json::object();
  auto const answers = rest.find("answers");
  if (answers != rest.end() && answers->is_object()) {
    for (auto const& name : names)
      if (auto const found = answers->find(name); found != answers->end()) {
        of_these["answers"][name] = *found;
        answers->erase(name);
      }
    if (answers->empty()) rest.erase("answers");
  }
  return {text_of(of_these), text_of(rest)};
}

std::vector<std::string> answered_in(std::string_view changes, std::string_view patient_key) {
  auto const tree = object(changes);
  std::vector<std::string> out;
  for (std::string_view const key : {std::string_view("answers"), patient_key})
    if (auto const found = tree.find(key); found != tree.end() && found->is_object())
      for (auto const& [name, value] : found->items()) out.push_back(name);
  return out;
}

std::string changes_between(std::string_view before, std::string_view after) {
  return text_of(changes(object(before), object(after)));
}

std::string came_for_of_both(std::string_view changes, std::string_view before,
                             std::string_view after, std::string_view stands) {
  auto out = object(changes);
  if (!out.contains(key_came_for)) return std::string(changes);
  auto const list = [](std::string_view line) {
    auto const tree = object(line);
    auto const found = tree.find(key_came_for);
    return found != tree.end() && found->is_array() ? *found : Json::array();
  };
  auto const holds = [](Json const& all, Json const& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
  };
  auto const was = list(before);
  auto const is = list(after);
  auto both = Json::array();
  for (auto const& one : list(stands))
    if (holds(is, one) || !holds(was, one)) both.push_back(one);
  for (auto const& one : is)
    if (!holds(was, one) && !holds(both, one)) both.push_back(one);
  out[key_came_for] = both.empty() ? Json() : both;
  return text_of(out);
}

std::string said_together(std::string_view line, std::string_view changes) {
  Folded out;
  out.add(line);
  out.add(apart(changes).said);
  return out.text();
}

struct Folded::Tree {
  Json json = Json::object();
};

Folded::Folded() : tree_(std::make_unique<Tree>()) {}
Folded::~Folded() = default;
Folded::Folded(Folded&&) noexcept = default;
Folded& Folded::operator=(Folded&&) noexcept = default;

void Folded::add(std::string_view changes) {
  auto patch = object(changes);
  if (species_.empty()) species_ = species_in(changes);
  if (auto const facts = patch.find(key_of_the_book); facts != patch.end()) {
    if (pack_.empty() && facts->is_object() && facts->contains("pack") &&
        facts->at("pack").is_string())
      pack_ = facts->at("pack").get<std::string>();
    if (facts->is_object() && facts->contains("follows") &&
        facts->at("follows").is_number_integer())
      follows_ = facts->at("follows").get<long long>();
    patch.erase(key_of_the_book);
  }
  tree_->json.merge_patch(patch);
}
std::string Folded::text() const { return text_of(tree_->json); }

}  // namespace flinch::cli
