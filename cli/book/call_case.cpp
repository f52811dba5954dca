#include "book/call_case.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "flinch/casefile/read_case_line.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

template <class Things>
bool has_named(Things const& things, std::string const& name) {
  return std::any_of(things.begin(), things.end(),
                     [&](auto const& thing) { return thing.name == name; });
}

}  // namespace

struct CallReader::Readers {
  Readers(Pack const& its_pack, Outcomes outcomes) : pack(its_pack), lines(its_pack, outcomes) {}

  void leave_out_signs(Json& tree, std::string_view under, std::vector<std::string>& names) const {
    auto const found = tree.find(under);
    if (found == tree.end() || !found->is_object()) return;
    for (auto it = found->begin(); it != found->end();) {
      if (it.key() == "species" || pack.find_sign(it.key())) {
        ++it;
        continue;
      }
      names.push_back(it.key());
      it = found->erase(it);
    }
  }

  void leave_out_outcome(Json& tree, std::vector<std::string>& names) const {
    auto const found = tree.find("outcome");
    if (found == tree.end()) return;
    auto const leave_out = [&](char const* key, auto const& things) {
      auto const value = found->find(key);
      if (value == found->end() || !value->is_string() || *value == "none") return;
      if (has_named(things, value->template get<std::string>())) return;
      names.push_back(value->template get<std::string>());
      found->erase(key);
    };
    leave_out("cause", pack.causes);
    leave_out("needed", pack.tiers);
    if (found->empty()) tree.erase("outcome");
  }

  Pack const& pack;
  CaseLineReader lines;
};

CallReader::CallReader(Pack const& pack, Outcomes outcomes)
    : readers_(std::make_unique<Readers>(pack, outcomes)) {}
CallReader::~CallReader() = default;
CallReader::CallReader(CallReader&&) noexcept = default;
CallReader& CallReader::operator=(CallReader&&) noexcept = default;

std::optional<CallCase> CallReader::read(CallLine const& call) {
  auto& lines = readers_->lines;
  if (auto const& plain = lines.read(call.line)) return CallCase{*plain.value, {}};
  auto tree = Json::parse(call.line, nullptr, false);
  if (!tree.is_object()) return std::nullopt;
  CallCase out;
  readers_->leave_out_signs(tree, readers_->pack.patient_key(), out.unknown_names);
  readers_->leave_out_signs(tree, "answers", out.unknown_names);
  readers_->leave_out_outcome(tree, out.unknown_names);
  if (auto const told = tree.find("came for"); told != tree.end() && told->is_array())
    for (auto it = told->begin(); it != told->end();)
      it = it->is_string() && readers_->pack.find_sign(it->get<std::string>()) ? it + 1
                                                                               : told->erase(it);
  auto const* read = &lines.read(tree.dump());
  if (!*read) {
    // Two desks at once: one takes back what the other was told that the patient came for.
    tree.erase("came for");
    read = &lines.read(tree.dump());
  }
  if (!*read) return std::nullopt;
  out.patient = *read->value;
  return out;
}

void add_words(CallLine const& call, Case& patient) {
  auto const tree = Json::parse(call.words, nullptr, false);
  if (!tree.is_object()) return;
  auto const put = [&](char const* key, std::string& into) {
    auto const found = tree.find(key);
    if (found != tree.end() && found->is_string()) into = found->get<std::string>();
  };
  put("name", patient.name);
  put("caller", patient.caller);
  put("call back", patient.call_back);
  put("ring back at", patient.ring_back_at);
  put("note", patient.note);
}

}  // namespace flinch::cli
