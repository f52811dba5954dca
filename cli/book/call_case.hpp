#pragma once
// The case of a call, as a pack understands it.
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

struct CallCase {
  Case patient;
  /// Names of signs, causes and tiers that the pack does not have, as another version of it may:
  /// what they say is left out, as unknown.
  std::vector<std::string> unknown_names;
};

/// Reads the cases of calls for one pack, which must outlive it.
class CallReader {
 public:
  explicit CallReader(Pack const& pack, Outcomes outcomes = Outcomes::read);
  ~CallReader();
  CallReader(CallReader&&) noexcept;
  CallReader& operator=(CallReader&&) noexcept;

  /// The case without name, caller, number and notes; nothing when the pack cannot take what is
  /// left of it, such as a step that it does not have.
  [[nodiscard]] std::optional<CallCase> read(CallLine const& call);

 private:
  struct Readers;
  std::unique_ptr<Readers> readers_;
};

/// Puts the words of the call (name, caller, number, time to ring back, note) into the case.
void add_words(CallLine const& call, Case& patient);

}  // namespace flinch::cli
