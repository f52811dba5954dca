#pragma once
// What is shown of a call: for people, for programs and for tables.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "book/call_case.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// Whether what tells who a patient and its keeper are goes out too.
enum class WithNames : bool { no, yes };

/// A call in words; empty where nothing was told.
struct CallWords {
  std::string tier;       ///< its title
  std::string complaint;  ///< what the patient came for; without that, what else was told first
  std::string pain;       ///< as told
  std::string weight;
  std::string outcome;
};
[[nodiscard]] CallWords words_of_call(CallLine const& call, Pack const& pack, CallReader& reader);

/// "limping, off its food"
[[nodiscard]] std::string labels_text(Pack const& pack, std::vector<SignId> const& signs);

/// "Bramble, Jo Alder, 555 0142"; "a rabbit, no name told" where nobody was named, or it was
/// forgotten.
[[nodiscard]] std::string who_text(CallLine const& call);
[[nodiscard]] std::string who_text(PatientFound const& patient);

/// A member of a list for programs. Without names the patient is its number in the book.
[[nodiscard]] nlohmann::ordered_json call_json(CallLine const& call, WithNames with_names);

/// The case on a line, for `batch` and to be imported again. Without names it is called by its
/// numbers in the book.
[[nodiscard]] std::string case_line(CallLine const& call, WithNames with_names);

/// A cell of a table: in quotes, without control characters, and never a formula.
[[nodiscard]] std::string table_cell(std::string_view text);

/// "in 25 minutes", "2 hours overdue".
[[nodiscard]] std::string until_text(std::time_t when, std::time_t now);

/// "1 call", "3 calls"
[[nodiscard]] std::string count_text(long long count, std::string_view one);

}  // namespace flinch::cli
