#include "exchange/json_reader.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flinch::cli {

constexpr std::size_t most_told = 100;

bool is_text(Tree const& node) { return node.kind == Tree::Kind::scalar && node.is_quoted; }

bool JsonReader::has_enough(Place at) {
  if (report_.error_count() < most_told) return false;
  if (report_.error_count() == most_told)
    report_.error(Code::too_many_errors, at,
                  fmt::format("{} mistakes so far: the rest is not looked at", most_told));
  return true;
}

Diagnostic& JsonReader::error(Code code, Place at, std::string message) {
  return report_.error(code, at, std::move(message));
}

void JsonReader::unread(Place at, std::string const& message) {
  if (++unread_ <= most_told) report_.warning(Code::exchange_unread, at, message);
}

std::optional<std::string> JsonReader::text(Tree const& of, std::string_view key) {
  auto const* found = of.find(key);
  if (found == nullptr) return std::nullopt;
  if (is_text(*found) && !found->scalar.empty()) return found->scalar;
  error(Code::exchange_shape, found->at, fmt::format("`{}` is a text", key));
  return std::nullopt;
}

std::vector<Tree const*> JsonReader::objects(Tree const& of, std::string_view key) {
  std::vector<Tree const*> out;
  auto const* found = of.find(key);
  if (found == nullptr) return out;
  if (found->kind != Tree::Kind::list) {
    error(Code::exchange_shape, found->at, fmt::format("`{}` is a list of objects", key));
    return out;
  }
  for (auto const& one : found->items) {
    if (has_enough(one.at)) return out;
    if (one.kind == Tree::Kind::map)
      out.push_back(&one);
    else
      error(Code::exchange_shape, one.at, fmt::format("`{}` is a list of objects", key));
  }
  return out;
}

void JsonReader::refuse_others(Tree const& of, std::initializer_list<std::string_view> known) {
  for (auto const& member : of.members) {
    if (has_enough(member.key_at)) return;
    if (std::find(known.begin(), known.end(), member.key) != known.end()) continue;
    if (member.key == "modifierExtension") {
      error(Code::exchange_shape, member.key_at,
            "a modifier extension changes what this means, and none is known here");
      continue;
    }
    error(Code::exchange_shape, member.key_at, fmt::format("`{}` is not read here", member.key))
        .notes.push_back({fmt::format("read are {}", fmt::join(known, ", ")), {}});
  }
}

}  // namespace flinch::cli
