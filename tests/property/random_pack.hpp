#pragma once
// Packs and cases by chance, from a seed: the same seed gives the same text.
#include <random>
#include <string>

#include "flinch/model/pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {

/// Whether alarms may use `not` over a danger sign (they then say `on purpose`).
enum class Alarms : bool { sound, on_purpose };

/// Whether rules name families and signs have floors, or the causes and the alarms that those stand
/// for are written out.
enum class Wording : bool { short_hand, written_out };

/// The text of a pack with signs of every kind, wholes and parts, named conditions, breeds, rules
/// with and without bands, families, overlaps, alarms and floors, and things taken with their
/// levels. It may break a check of the whole (a condition that never varies): such a pack is thrown
/// away by the caller.
[[nodiscard]] std::string random_pack(unsigned seed, Alarms alarms,
                                      Wording wording = Wording::short_hand);

/// The same, loaded with the breed table that it names.
[[nodiscard]] Loaded load_random_pack(unsigned seed, Alarms alarms,
                                      Wording wording = Wording::short_hand);

/// Answers to about half of the signs, contradictions included.
[[nodiscard]] Case random_case(Pack const& pack, std::mt19937& random);

/// A random answer to a sign; sites answers may hold clear sites as well.
[[nodiscard]] Answer random_answer(Pack const& pack, SignId sign, std::mt19937& random);

/// Makes the answers what a case file would say: without sites outside a sign's own choice and
/// findings that say nothing, and with clear sites that are all of them for a no.
void drop_misplaced(Pack const& pack, Case& patient);

/// Makes some of what is told the complaint; of most cases that tell something.
void add_complaint(Pack const& pack, Case& patient, std::mt19937& random);

}  // namespace flinch::test
