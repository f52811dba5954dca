#include "model/symbols.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "flinch/text/display.hpp"
#include "flinch/text/nearest.hpp"

namespace flinch {

void Symbols::define(syntax::Name const& name, std::uint32_t index, Report& report) {
  auto const [entry, is_new] = entries_.try_emplace(name.text, Entry{index, name.at});
  if (is_new) return;
  // One of the two was probably meant to have another name, which others use.
  forgive_strangers();
  report
      .error(Code::doubled_name, name.at,
             fmt::format("{} `{}` is defined twice", kind_, shown(name.text)))
      .notes.push_back({"first defined here", entry->second.at});
}

std::optional<std::string> Symbols::named_by(std::string_view words) const {
  auto const letter = [](char c) {
    if (c == '_') return ' ';
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  std::optional<std::string> out;
  for (auto const& [told, name] : words_) {
    bool const is_it = std::equal(words.begin(), words.end(), told.begin(), told.end(),
                                  [&](char a, char b) { return letter(a) == letter(b); });
    if (!is_it || out == name) continue;
    if (out) return std::nullopt;
    out = name;
  }
  return out;
}

std::optional<std::uint32_t> Symbols::find(std::string_view name) const {
  auto const found = entries_.find(std::string(name));
  if (found == entries_.end()) return std::nullopt;
  return found->second.index;
}

std::optional<std::uint32_t> Symbols::find(syntax::Name const& name, Report& report) const {
  if (auto const index = find(name.text)) return index;
  if (forgiven_.count(name.text) != 0) return std::nullopt;
  auto const* file = forgives_strangers_ ? nullptr : left_out_with(name.text);
  if (file != nullptr && std::exchange(file->is_told, true)) return std::nullopt;
  auto hint = file == nullptr ? named_by(name.text) : std::nullopt;
  if (file == nullptr && !hint) hint = near(name.text);
  if (file == nullptr && !hint && (forgives_strangers_ || !told_.insert(name.text).second))
    return std::nullopt;
  auto& error = report.error(Code::unknown_name, name.at,
                             fmt::format("unknown {} `{}`", kind_, shown(name.text)));
  if (file != nullptr)
    error.notes.push_back(
        {fmt::format("`{0}` in the pack's folder defines it, and nothing includes "
                     "that file: write `include \"{0}\"` in the pack",
                     file->file),
         {}});
  else if (hint)
    error.did_you_mean(*hint, place_of(*hint));
  else if (auto others = other_names(name.text, names()))
    error.notes.push_back({std::move(*others), {}});
  return std::nullopt;
}

bool Symbols::is_forgiven(std::string_view name) const {
  if (forgiven_.count(std::string(name)) != 0) return true;
  return forgives_strangers_ && !named_by(name) && !near(name);
}

LeftOut const* Symbols::left_out_with(std::string const& name) const {
  if (left_out_ == nullptr) return nullptr;
  for (auto const& file : *left_out_)
    if (std::find(file.names.begin(), file.names.end(), name) != file.names.end()) return &file;
  return nullptr;
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
