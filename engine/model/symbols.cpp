#include "model/symbols.hpp"

#include <fmt/format.h>

#include "flinch/text/nearest.hpp"

namespace flinch {

void Symbols::define(syntax::Name const& name, std::uint32_t index, Report& report) {
  auto const [entry, is_new] = entries_.try_emplace(name.text, Entry{index, name.at});
  if (!is_new)
    report
        .error(Code::doubled_name, name.at,
               fmt::format("{} `{}` is defined twice", kind_, name.text))
        .notes.push_back({"first defined here", entry->second.at});
}

std::optional<std::uint32_t> Symbols::find(std::string_view name) const {
  auto const found = entries_.find(std::string(name));
  if (found == entries_.end()) return std::nullopt;
  return found->second.index;
}

std::optional<std::uint32_t> Symbols::find(syntax::Name const& name, Report& report) const {
  if (auto const index = find(name.text)) return index;
  if (forgiven_.count(name.text) != 0) return std::nullopt;
  auto& error =
      report.error(Code::unknown_name, name.at, fmt::format("unknown {} `{}`", kind_, name.text));
  if (auto const hint = near(name.text))
    error.did_you_mean(*hint, place_of(*hint));
  else if (auto others = other_names(name.text, names()))
    error.notes.push_back({std::move(*others), {}});
  return std::nullopt;
}

std::optional<Place> Symbols::place_of(std::string_view name) const {
  auto const found = entries_.find(std::string(name));
  if (found == entries_.end()) return std::nullopt;
  return found->second.at;
}

std::optional<std::string> Symbols::near(std::string_view name) const {
  return nearest(name, names());
}

std::vector<std::string_view> Symbols::names() const {
  std::vector<std::string_view> out;
  out.reserve(entries_.size());
  for (auto const& [known, entry] : entries_) out.push_back(known);
  return out;
}

}  // namespace flinch
