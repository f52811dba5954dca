#pragma once
// A case on one line, as a JSON object with the names of a case file in YAML.
//
//   {"name": "Bramble", "patient": {"age": "11 years", "neutered": true}, "answers": {"lame": true,
//    "tender": ["left elbow"], "appetite": "less", "trembling": "can't tell"}}
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include "flinch/casefile/read_case.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Reads line after line for one pack, which must outlive it. It holds scratch memory: one a
/// thread.
class CaseLineReader {
 public:
  /// Bytes of one line that are read, about a thousand times those of an ordinary case.
  static constexpr std::size_t longest_line = std::size_t{512} << 10U;

  explicit CaseLineReader(Pack const& pack, Outcomes outcomes = Outcomes::ignored);
  ~CaseLineReader();
  CaseLineReader(CaseLineReader&&) noexcept;
  CaseLineReader& operator=(CaseLineReader&&) noexcept;

  /// The case on this line (without its line break), or every mistake in it, as `read_case` reports
  /// them; places are byte offsets into the line. `true` and `false` answer yes and no. Good until
  /// the next line.
  [[nodiscard]] Outcome<Case> const& read(std::string_view line);

  /// The name on the line read last, if it could be read; also when the rest could not.
  [[nodiscard]] std::string const& name() const;

  /// What `read` would report of a line of so many bytes, more than `longest_line`.
  [[nodiscard]] static Diagnostic too_long(std::size_t bytes);

 private:
  struct Readers;
  std::unique_ptr<Readers> readers_;
};

}  // namespace flinch
