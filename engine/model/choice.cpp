#include "flinch/model/choice.hpp"

namespace flinch {

std::uint32_t choice_count(Pack const& pack, Sign const& sign) {
  return static_cast<std::uint32_t>(traits(sign).is_breed ? pack.breeds.breeds.size()
                                                          : sign.values.size());
}

std::string const& choice_name(Pack const& pack, Sign const& sign, Choice choice) {
  return traits(sign).is_breed ? pack.breeds.breeds[choice.index].key
                               : sign.values[choice.index].name;
}

std::string const& choice_label(Pack const& pack, Sign const& sign, Choice choice) {
  return traits(sign).is_breed ? pack.breeds.breeds[choice.index].name
                               : sign.values[choice.index].label;
}

std::optional<Choice> find_choice(Pack const& pack, Sign const& sign, std::string_view written) {
  if (traits(sign).is_breed) {
    auto const breed = pack.breeds.find(written);
    return breed ? std::optional(Choice{*breed}) : std::nullopt;
  }
  for (std::uint32_t i = 0; i < sign.values.size(); ++i)
    if (sign.values[i].name == written) return Choice{i};
  return std::nullopt;
}

}  // namespace flinch
