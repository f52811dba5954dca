#include "files/prepared_pack.hpp"

// No list of a pack comes near what 32 bits can count, and there are a hundred thousand lists.
#include <cstdint>
#define CEREAL_SIZE_TYPE std::uint32_t
#include <cereal/cereal.hpp>
#include <cereal/types/optional.hpp>
#include <cereal/types/string.hpp>
#include <cereal/types/utility.hpp>
#include <cereal/types/variant.hpp>
#include <cereal/types/vector.hpp>
#include <cstring>

namespace flinch::cli {
namespace {

// The library's own archives of bytes work on streams, which are asked for each single number anew:
// half of the time it took to read a pack. These two work on memory.

class BytesOut : public cereal::OutputArchive<BytesOut, cereal::AllowEmptyClassElision> {
 public:
  explicit BytesOut(std::string& bytes)
      : cereal::OutputArchive<BytesOut, cereal::AllowEmptyClassElision>(this), bytes_(bytes) {}

  void put(void const* from, std::size_t size) {
    if (size > 0) bytes_.append(static_cast<char const*>(from), size);
  }

 private:
  std::string& bytes_;
};

class BytesIn : public cereal::InputArchive<BytesIn, cereal::AllowEmptyClassElision> {
 public:
  explicit BytesIn(std::string_view bytes)
      : cereal::InputArchive<BytesIn, cereal::AllowEmptyClassElision>(this), left_(bytes) {}

  /// Throws cereal::Exception where so many are not left.
  void copy(void* to, std::size_t size) {
    if (size > left_.size()) throw cereal::Exception("the bytes end early");
    if (size == 0) return;  // an empty list has no place to copy to
    std::memcpy(to, left_.data(), size);
    left_.remove_prefix(size);
  }

 private:
  std::string_view left_;
};

template <class Number>
std::enable_if_t<std::is_arithmetic_v<Number>> save(BytesOut& archive, Number const& it) {
  archive.put(&it, sizeof it);
}
template <class Number>
std::enable_if_t<std::is_arithmetic_v<Number>> load(BytesIn& archive, Number& it) {
  archive.copy(&it, sizeof it);
}
template <class Bytes>
void save(BytesOut& archive, cereal::BinaryData<Bytes> const& it) {
  archive.put(it.data, it.size);
}
template <class Bytes>
void load(BytesIn& archive, cereal::BinaryData<Bytes>& it) {
  archive.copy(it.data, it.size);
}
template <class Archive, class Size>
void serialize(Archive& archive, cereal::SizeTag<Size>& it) {
  archive(it.size);
}
template <class Archive, class Value>
void serialize(Archive& archive, cereal::NameValuePair<Value>& it) {
  archive(it.value);
}

}  // namespace
}  // namespace flinch::cli

CEREAL_SETUP_ARCHIVE_TRAITS(flinch::cli::BytesIn, flinch::cli::BytesOut)

// One function a type, found by the library through the type's namespace. A structured binding must
// name each member: who adds one to a type is told by the compiler to add it here.

namespace flinch::syntax {

template <class Archive>
void serialize(Archive& archive, Name& it) {
  auto& [text, at] = it;
  archive(text, at);
}

template <class Archive>
void serialize(Archive& archive, Quantity& it) {
  auto& [value, unit, at] = it;
  archive(value, unit, at);
}

template <class Archive>
void serialize(Archive& archive, Dose& it) {
  auto& [amount, up_to, per, route, every, every_up_to, often, duration] = it;
  archive(amount, up_to, per, route, every, every_up_to, often, duration);
}

template <class Archive>
void serialize(Archive& archive, Form& it) {
  auto& [kind, strength, per, splits, splits_at] = it;
  archive(kind, strength, per, splits, splits_at);
}

}  // namespace flinch::syntax

namespace flinch {

template <class Archive>
void serialize(Archive& archive, Span& it) {
  auto& [begin, end] = it;
  archive(begin, end);
}

template <class Archive>
void serialize(Archive& archive, Place& it) {
  auto& [file, span] = it;
  archive(file, span);
}

// A unit is one of a fixed list, and its name a view into that.
template <class Archive>
std::string save_minimal(Archive const&, Unit const& unit) {
  return std::string(unit.name);
}
template <class Archive>
void load_minimal(Archive const&, Unit& unit, std::string const& name) {
  unit = find_unit(name).value_or(Unit{});
}

template <class Archive>
void serialize(Archive& archive, SiteMark& it) {
  auto& [site, side] = it;
  archive(site, side);
}

template <class Archive>
void serialize(Archive& archive, Test& it) {
  auto& [kind, sign, mark, values, low, high, low_included, high_included, group] = it;
  archive(kind, sign, mark, values, low, high, low_included, high_included, group);
}

template <class Archive>
void serialize(Archive& archive, Condition& it) {
  auto& [kind, test, meaning, needed, parts, at] = it;
  archive(kind, test, meaning, needed, parts, at);
}

template <class Archive>
void serialize(Archive& archive, Reference& it) {
  auto& [name, text, doi, url, grade, read, at] = it;
  archive(name, text, doi, url, grade, read, at);
}

template <class Archive>
void serialize(Archive& archive, Tier& it) {
  auto& [name, title, within_s, harm, say, until_then, at] = it;
  archive(name, title, within_s, harm, say, until_then, at);
}

template <class Archive>
void serialize(Archive& archive, Site& it) {
  auto& [name, title, inside, paired, also_called, at] = it;
  archive(name, title, inside, paired, also_called, at);
}

template <class Archive>
void serialize(Archive& archive, WeightRange& it) {
  auto& [low_kg, high_kg] = it;
  archive(low_kg, high_kg);
}

template <class Archive>
void serialize(Archive& archive, Breed& it) {
  auto& [key, name, size, adult_weight, also, groups] = it;
  archive(key, name, size, adult_weight, also, groups);
}

template <class Archive>
void serialize(Archive& archive, BreedGroup& it) {
  auto& [key, title, at] = it;
  archive(key, title, at);
}

template <class Archive>
void serialize(Archive& archive, BreedTable& it) {
  auto& [breeds, groups] = it;
  archive(breeds, groups);
}

template <class Archive>
void serialize(Archive& archive, SpeciesWords& it) {
  auto& [one, many, male, female, young, neutered_male, neutered_female] = it;
  archive(one, many, male, female, young, neutered_male, neutered_female);
}

template <class Archive>
void serialize(Archive& archive, DosedWeights& it) {
  auto& [lightest_kg, heaviest_kg] = it;
  archive(lightest_kg, heaviest_kg);
}

template <class Archive>
void serialize(Archive& archive, WeightDoubts& it) {
  auto& [above_of_high, below_of_low, pounds_above, leeway_kg] = it;
  archive(above_of_high, below_of_low, pounds_above, leeway_kg);
}

template <class Archive>
void serialize(Archive& archive, SyringeMarks& it) {
  auto& [swallowed_mL, injected_mL] = it;
  archive(swallowed_mL, injected_mL);
}

template <class Archive>
void serialize(Archive& archive, OutlineDot& it) {
  auto& [x, y, radius] = it;
  archive(x, y, radius);
}

template <class Archive>
void serialize(Archive& archive, OutlinePoint& it) {
  auto& [site, x, y] = it;
  archive(site, x, y);
}

template <class Archive>
void serialize(Archive& archive, OutlineView& it) {
  auto& [behind, body, dots, points] = it;
  archive(behind, body, dots, points);
}

template <class Archive>
void serialize(Archive& archive, Outline& it) {
  auto& [width, height, left, right] = it;
  archive(width, height, left, right);
}

template <class Archive>
void serialize(Archive& archive, Value& it) {
  auto& [name, label, also_said] = it;
  archive(name, label, also_said);
}

template <class Archive>
void serialize(Archive& archive, Sign& it) {
  auto& [name, label, ask, help, kind, within, values, unit, low, high, seen_by, takes_s, may_hurt,
         tells_pain, asked_first, lasts, yes_if_seen_before, yes_if_worse, of_the_patient, part_of,
         applies_if, also_said, mentioned, at] = it;
  archive(name, label, ask, help, kind, within, values, unit, low, high, seen_by, takes_s, may_hurt,
          tells_pain, asked_first, lasts, yes_if_seen_before, yes_if_worse, of_the_patient, part_of,
          applies_if, also_said, mentioned, at);
}

template <class Archive>
void serialize(Archive& archive, Means& it) {
  auto& [name, title, condition, at] = it;
  archive(name, title, condition, at);
}

template <class Archive>
void serialize(Archive& archive, Cause& it) {
  auto& [name, title, affects, base, see, not_pain, also_called, next, because, cites, at] = it;
  archive(name, title, affects, base, see, not_pain, also_called, next, because, cites, at);
}

template <class Archive>
void serialize(Archive& archive, Family& it) {
  auto& [name, title, members, at] = it;
  archive(name, title, members, at);
}

template <class Archive>
void serialize(Archive& archive, RuleEntry& it) {
  auto& [cause, frequencies, sample_size, source, family, at] = it;
  archive(cause, frequencies, sample_size, source, family, at);
}

template <class Archive>
void serialize(Archive& archive, Band& it) {
  auto& [test, text] = it;
  archive(test, text);
}

template <class Archive>
void serialize(Archive& archive, Rule& it) {
  auto& [name, title, condition, over, bands, usual, usual_sample_size, usual_source, entries,
         because, cites, at] = it;
  archive(name, title, condition, over, bands, usual, usual_sample_size, usual_source, entries,
          because, cites, at);
}

template <class Archive>
void serialize(Archive& archive, Alarm& it) {
  auto& [name, title, condition, see, say, gives_way_to, on_purpose, floor_of, because, cites, at] =
      it;
  archive(name, title, condition, see, say, gives_way_to, on_purpose, floor_of, because, cites, at);
}

template <class Archive>
void serialize(Archive& archive, Overlap& it) {
  auto& [name, share, rules, at] = it;
  archive(name, share, rules, at);
}

template <class Archive>
void serialize(Archive& archive, CareGate& it) {
  auto& [condition, reason] = it;
  archive(condition, reason);
}

template <class Archive>
void serialize(Archive& archive, ToxicLevel& it) {
  auto& [mg_per_kg, see, harm] = it;
  archive(mg_per_kg, see, harm);
}

template <class Archive>
void serialize(Archive& archive, Benefit& it) {
  auto& [share, text] = it;
  archive(share, text);
}

template <class Archive>
void serialize(Archive& archive, Slimming& it) {
  auto& [ideal_score, each_point, slowest_a_week, fastest_a_week, benefits] = it;
  archive(ideal_score, each_point, slowest_a_week, fastest_a_week, benefits);
}

template <class Archive>
void serialize(Archive& archive, Care& it) {
  auto& [name, title, give, how, say, gives_way_to, avoid, is_fasting, otherwise, watch, by_mouth,
         first_aid, while_waiting, slims_by, slimming, taken, since, levels, at_most, forms,
         for_clinician, problem, causes, fit_if, never_if, ask_vet_if, stop_if, grade, because,
         cites, at] = it;
  archive(name, title, give, how, say, gives_way_to, avoid, is_fasting, otherwise, watch, by_mouth,
          first_aid, while_waiting, slims_by, slimming, taken, since, levels, at_most, forms,
          for_clinician, problem, causes, fit_if, never_if, ask_vet_if, stop_if, grade, because,
          cites, at);
}

template <class Archive>
void serialize(Archive& archive, PromisedAmount& it) {
  auto& [least, most, unit] = it;
  archive(least, most, unit);
}

template <class Archive>
void serialize(Archive& archive, PromisedPortion& it) {
  auto& [kind, least, most] = it;
  archive(kind, least, most);
}

template <class Archive>
void serialize(Archive& archive, Promise& it) {
  auto& [kind, subject, rank, amount, portion, text] = it;
  archive(kind, subject, rank, amount, portion, text);
}

template <class Archive>
void serialize(Archive& archive, Findings& it) {
  auto& [found_somewhere, clear_everywhere, found, clear] = it;
  archive(found_somewhere, clear_everywhere, found, clear);
}

template <class Archive>
void serialize(Archive& archive, Choice& it) {
  auto& [index] = it;
  archive(index);
}

template <class Archive>
void serialize(Archive& archive, CaseOutcome& it) {
  auto& [is_cause_known, cause, needed] = it;
  archive(is_cause_known, cause, needed);
}

template <class Archive>
void serialize(Archive& archive, Case& it) {
  auto& [name, caller, call_back, ring_back_at, note, answers, cannot_tell, outcome, came_for] = it;
  archive(name, caller, call_back, ring_back_at, note, answers, cannot_tell, outcome, came_for);
}

template <class Archive>
void serialize(Archive& archive, Example& it) {
  auto& [name, title, patient, promises, at] = it;
  archive(name, title, patient, promises, at);
}

template <class Archive>
void serialize(Archive& archive, Accepted& it) {
  auto& [warning, reason, statement, at] = it;
  archive(warning, reason, statement, at);
}

template <class Archive>
void serialize(Archive& archive, Reading& it) {
  auto& [reader, on, state, statement, at] = it;
  archive(reader, on, state, statement, at);
}

template <class Archive>
void serialize(Archive& archive, Pack& it) {
  auto& [name, title, version, species, words, doses, weight_doubts, size_by_weight, grown_years,
         is_never_neutered, sex_never_neutered, seen_at, body_surface, resting_energy,
         syringe_marks, outline, unlisted, hold_low, hold_high, sources, figure_sources, tiers,
         sites, breeds, groups, group_breeds, signs, means, causes, families, rules, alarms,
         overlaps, care, examples, accepted, readings, not_included, statements, at, sign_index,
         site_index] = it;
  archive(name, title, version, species, words, doses, weight_doubts, size_by_weight, grown_years,
          is_never_neutered, sex_never_neutered, seen_at, body_surface, resting_energy,
          syringe_marks, outline, unlisted, hold_low, hold_high, sources, figure_sources, tiers,
          sites, breeds, groups, group_breeds, signs, means, causes, families, rules, alarms,
          overlaps, care, examples, accepted, readings, not_included, statements, at);
  // What the lists say already, in no order that two builds would share.
  if constexpr (Archive::is_loading::value) {
    for (auto const& site : sites) site_index.emplace(site.name, SiteId(site_index.size()));
    for (auto const& sign : signs) sign_index.emplace(sign.name, SignId(sign_index.size()));
  }
}

}  // namespace flinch

namespace flinch::cli {

std::string prepare_pack(Pack const& pack) {
  std::string out;
  BytesOut archive(out);
  archive(pack);
  return out;
}

std::shared_ptr<Pack const> prepared_pack(std::string_view bytes) {
  BytesIn archive(bytes);
  auto pack = std::make_shared<Pack>();
  archive(*pack);
  return pack;
}

}  // namespace flinch::cli
