#include "flinch/explain/taken.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flinch {
namespace {

// Up: a figure shown must not hide how much it was.
std::string rounded_up(double amount) {
  if (amount <= 0) return "0";
  auto const step = std::pow(10.0, std::floor(std::log10(amount)) - 2);
  auto const up = std::ceil(amount / step - 1e-6) * step;
  return amount >= 1000 ? fmt::format("{:.0f}", up) : fmt::format("{:g}", up);
}

// Food is told in grams.
std::string mass_words(double mg) {
  constexpr double told_in_grams_mg = 1000;
  return mg < told_in_grams_mg ? rounded_up(mg) + " mg" : rounded_up(mg / 1000) + " g";
}

// Down to the milligram or tenth of a gram: a level is never told higher than it is.
std::string level_words(double mg_per_kg) {
  constexpr double told_in_grams_mg = 1000;
  return mg_per_kg < told_in_grams_mg ? fmt::format("{:g} mg", mg_per_kg)
                                      : fmt::format("{:g} g", mg_per_kg / 1000);
}

}  // namespace

std::string level_text(ToxicLevel const& level) {
  return level.mg_per_kg > 0
             ? fmt::format("{} per kg: {}", level_words(level.mg_per_kg), level.harm)
             : level.harm;
}

std::string taken_text(Pack const& pack, Exposure const& exposure) {
  auto out = pack.care[exposure.care].title;
  if (exposure.is_this == Truth::unknown) out += ", if it was this";
  out += exposure.mg ? ": " + mass_words(*exposure.mg) : std::string(": how much is not known");
  if (exposure.hours)
    out += fmt::format(", {:g} hour{} ago", *exposure.hours, *exposure.hours == 1 ? "" : "s");
  if (exposure.mg_per_kg) out += fmt::format(", about {} per kg", mass_words(*exposure.mg_per_kg));
  return out;
}

std::string harm_text(Pack const& pack, Assessment const& result, Exposure const& exposure) {
  auto const& levels = pack.care[exposure.care].levels;
  if (!exposure.mg) return "an amount that is not known counts as a harmful one";
  if (!exposure.mg_per_kg)
    return result.find(patient_sign::weight) == nullptr
               ? fmt::format("without a weight it counts as for the smallest {}", pack.words.one)
               : fmt::format(
                     "with such a weight it counts as for the smallest {}: check the number "
                     "and its unit",
                     pack.words.one);
  if (exposure.reached.empty()) return "below the published levels, which does not make it safe";
  auto const& level = levels[exposure.reached.back()];
  return (level.mg_per_kg > 0 ? "reaches " : "") + level_text(level);
}

}  // namespace flinch
