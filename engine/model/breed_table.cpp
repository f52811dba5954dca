#include "flinch/model/breed_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "flinch/text/nearest.hpp"
#include "flinch/yaml/document.hpp"
#include "model/measure_text.hpp"

namespace flinch {
namespace {

using yaml::Node;

// `Labrador-Retriever` and `labrador_retriever` are the same words.
char plain(char c) {
  return c == '_' || c == '-' ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::string plain_words(std::string_view text) {
  std::string out;
  for (char const c : text) out += plain(c);
  return out;
}

bool are_same_words(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return plain(x) == plain(y); });
}

class TableReader {
 public:
  TableReader(std::vector<NamedSize> const& sizes, std::optional<WeightRange> const& believed,
              Report& report)
      : sizes_(sizes), believed_(believed), report_(report) {}

  BreedTable read(Node const& root) {
    if (root.kind != Node::Kind::map) {
      report_.error(Code::breed_table, root.at,
                    "a breed table is a map with `groups` and `breeds`");
      return {};
    }
    for (auto const& [key, at, value] : root.members) {
      if (key == "sizes")
        report_.error(Code::breed_table, at,
                      "sizes stand in the pack: `sizes small to 5 kg, large`");
      else if (key != "groups" && key != "breeds")
        report_.error(Code::breed_table, at,
                      fmt::format("unknown key `{}`; there are `groups` and `breeds`", key));
    }
    if (auto const* groups = root.find("groups")) read_groups(*groups);
    if (auto const* breeds = root.find("breeds")) read_breeds(*breeds);
    return std::move(table_);
  }

 private:
  void read_groups(Node const& node) {
    for (auto const& [key, at, value] : node.members) {
      if (value.kind != Node::Kind::scalar)
        report_.error(Code::breed_table, at, "a group has a text that describes it");
      else
        table_.groups.push_back({key, value.scalar, {}});
    }
  }

  void read_breeds(Node const& node) {
    for (auto const& [key, at, value] : node.members) {
      if (value.kind != Node::Kind::map) {
        report_.error(Code::breed_table, at,
                      fmt::format("breed `{}` needs `name`, `size`, `weight`", key));
        continue;
      }
      Breed breed;
      breed.key = key;
      bool is_name_misspelt = false;
      for (auto const& [field, field_at, content] : value.members) {
        if (field == "name" && content.kind == Node::Kind::scalar)
          breed.name = content.scalar;
        else if (field == "size")
          breed.size = size(content);
        else if (field == "weight")
          breed.adult_weight = weight(content).value_or(WeightRange{});
        else if (field == "also")
          for (auto const& item : content.items) breed.also.push_back(item.scalar);
        else if (field == "groups")
          for (auto const& item : content.items) group(breed, item);
        else
          is_name_misspelt = unknown_part(field, field_at) == "name" || is_name_misspelt;
      }
      if (auto const* told = value.find("weight")) fits_weights(breed, told->at);
      if (breed.name.empty() && !is_name_misspelt)
        report_.error(Code::breed_table, at, fmt::format("breed `{}` has no name", key));
      remember(breed, at);
      table_.breeds.push_back(std::move(breed));
    }
  }

  // Reports it, and answers which part was probably meant.
  std::optional<std::string> unknown_part(std::string_view field, Place at) {
    auto& error = report_.error(Code::breed_table, at,
                                fmt::format("`{}` is not a part of a breed; there are `name`, "
                                            "`size`, `weight`, `also` and `groups`",
                                            field));
    auto meant = nearest(field, {"name", "size", "weight", "also", "groups"});
    if (!meant && field == "breed") meant = "name";
    if (meant) error.did_you_mean(*meant);
    return meant;
  }

  void remember(Breed const& breed, Place at) {
    auto names = breed.also;
    names.push_back(breed.key);
    for (auto const& name : names) {
      auto const [earlier, is_new] = seen_.emplace(plain_words(name), at);
      if (is_new) continue;
      bool const is_its_own = earlier->second.span == at.span;
      if (is_its_own)
        report_
            .error(
                Code::breed_table, at,
                fmt::format("`{}` names this breed twice: its key is understood by itself", name))
            .notes.push_back({"take it out of `also`", {}});
      else
        report_.error(Code::breed_table, at, fmt::format("`{}` is the name of two breeds", name))
            .notes.push_back({"first given here", earlier->second});
    }
  }

  std::optional<std::uint32_t> size(Node const& node) {
    if (sizes_.empty()) return std::nullopt;
    auto const found = std::find_if(sizes_.begin(), sizes_.end(), [&](NamedSize const& size) {
      return size.name == node.scalar;
    });
    if (found == sizes_.end()) {
      std::vector<std::string_view> names;
      for (auto const& size : sizes_) names.push_back(size.name);
      auto const near = nearest(node.scalar, names);
      constexpr std::size_t most_named = 6;
      auto const more = names.size() > most_named ? names.size() - most_named : 0;
      names.resize(names.size() - more);
      auto& error = report_.error(
          Code::breed_table, node.at,
          fmt::format("`{}` is no size; there are {}{}", node.scalar, fmt::join(names, ", "),
                      more > 0 ? fmt::format(" and {} more", more) : ""));
      if (near) error.did_you_mean(std::string(*near));
      return std::nullopt;
    }
    return static_cast<std::uint32_t>(found - sizes_.begin());
  }

  // The weights as they are written, where a dash or the unit alone is wrong; in grams where such
  // patients are told in grams.
  std::string meant_weight(std::string text) const {
    bool const is_light = believed_ && believed_->high_kg <= 2;
    for (std::string_view const dash : {"–", "—", "-"})
      if (auto const at = text.find(dash); at != std::string::npos) {
        auto low = text.substr(0, at);
        while (!low.empty() && low.back() == ' ') low.pop_back();
        auto const behind = text.find_first_not_of(' ', at + dash.size());
        text = low + " to " + (behind == std::string::npos ? "" : text.substr(behind));
        break;
      }
    for (auto const& tried : {text, text + (is_light ? " g" : " kg")})
      if (auto const range = read_range(tried, Dimension::mass); range && range->low < range->high)
        return tried;
    return is_light ? "250 to 360 g" : "25 to 36 kg";
  }

  std::optional<WeightRange> weight(Node const& node) {
    auto const range = read_range(node.scalar, Dimension::mass);
    if (!range || range->low >= range->high) {
      report_.error(Code::breed_table, node.at,
                    fmt::format("weights are written `{}`", meant_weight(node.scalar)));
      return std::nullopt;
    }
    return WeightRange{range->low, range->high};
  }

  // Said once: where sizes stand in the wrong order, no breed fits.
  void fits_weights(Breed const& breed, Place at) {
    auto const& own = breed.adult_weight;
    bool const is_known = own.low_kg > 0 && own.high_kg > own.low_kg;
    if (!is_known || is_misfit_told_) return;
    auto const misses = [&](WeightRange const& range) {
      return own.high_kg < range.low_kg || own.low_kg > range.high_kg;
    };
    if (breed.size && sizes_[*breed.size].weight && misses(*sizes_[*breed.size].weight)) {
      auto const& size = sizes_[*breed.size];
      bool const is_below = own.high_kg < size.weight->low_kg;
      is_misfit_told_ = true;
      report_
          .error(Code::breed_table, at,
                 fmt::format("breed `{}` is of the size `{}`, which {} at {}, and weighs {} to {}",
                             breed.key, size.name, is_below ? "begins" : "ends",
                             weight_text(is_below ? size.weight->low_kg : size.weight->high_kg),
                             weight_text(own.low_kg), weight_text(own.high_kg)))
          .notes.push_back({"mend the size or the weight here, or `sizes` in the pack", {}});
    } else if (believed_ && (own.low_kg < believed_->low_kg || own.high_kg > believed_->high_kg)) {
      is_misfit_told_ = true;
      report_
          .error(Code::breed_table, at,
                 fmt::format("breed `{}` weighs {} to {}, and the pack believes {} to {}",
                             breed.key, weight_text(own.low_kg), weight_text(own.high_kg),
                             weight_text(believed_->low_kg), weight_text(believed_->high_kg)))
          .notes.push_back({"mend the weight here, or `weight from` in the pack", {}});
    }
  }
  static std::string weight_text(double kg) {
    return kg < 1 ? fmt::format("{:.6g} g", 1000 * kg) : fmt::format("{:.6g} kg", kg);
  }

  void group(Breed& breed, Node const& node) {
    std::vector<std::string_view> names;
    for (std::uint32_t i = 0; i < table_.groups.size(); ++i) {
      if (table_.groups[i].key == node.scalar) {
        breed.groups.push_back(i);
        return;
      }
      names.push_back(table_.groups[i].key);
    }
    auto& error =
        report_.error(Code::breed_table, node.at, fmt::format("unknown group `{}`", node.scalar));
    if (auto const near = nearest(node.scalar, names))
      error.did_you_mean(*near);
    else if (auto others = other_names(node.scalar, names))
      error.notes.push_back({std::move(*others), {}});
  }

  std::vector<NamedSize> const& sizes_;
  std::optional<WeightRange> const& believed_;
  bool is_misfit_told_ = false;
  Report& report_;
  BreedTable table_;
  std::unordered_map<std::string, Place> seen_;
};

}  // namespace

std::optional<std::uint32_t> BreedTable::find(std::string_view name) const {
  for (std::uint32_t i = 0; i < breeds.size(); ++i) {
    auto const& breed = breeds[i];
    bool const is_it = are_same_words(breed.key, name) || are_same_words(breed.name, name) ||
                       std::any_of(breed.also.begin(), breed.also.end(),
                                   [&](auto const& also) { return are_same_words(also, name); });
    if (is_it) return i;
  }
  return std::nullopt;
}

BreedTable read_breed_table(SourceSet const& sources, FileId file,
                            std::vector<NamedSize> const& sizes,
                            std::optional<WeightRange> const& believed, Report& report) {
  auto const root = yaml::read(sources, file, {}, report);
  if (!root) return {};
  return TableReader(sizes, believed, report).read(*root);
}

}  // namespace flinch
