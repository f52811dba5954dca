#pragma once
// An ordinary case out of an ordinary line: every name known, every answer of its sign's kind,
// nothing twice. Anything else is left to the reader of trees, which says what is wrong; of what
// both accept they make the same case.
#include <span>
#include <vector>

#include "flinch/casefile/read_case.hpp"
#include "flinch/model/pack.hpp"
#include "json/plain_line.hpp"
#include "model/sign_set.hpp"
#include "model/told.hpp"
#include "text/name_table.hpp"

namespace flinch {

/// Holds scratch memory, and looks at the pack. One a thread.
class PlainCaseReader {
 public:
  PlainCaseReader(Pack const& pack, Outcomes outcomes);

  /// Whether the tokens are an ordinary case, which `patient` then is; otherwise it is anything.
  [[nodiscard]] bool read(std::span<json::Token const> tokens, Case& patient);

 private:
  using Tokens = std::span<json::Token const>;
  enum class Under : std::uint8_t { patient, answers };

  [[nodiscard]] bool signs(Under under);
  [[nodiscard]] bool came_for(std::size_t at, Case& patient);
  [[nodiscard]] bool outcome(Case& patient);
  [[nodiscard]] bool answer(SignId sign, std::size_t at, Case& patient);
  [[nodiscard]] bool word(SignId sign, std::string_view word, Case& patient);
  [[nodiscard]] bool amount(SignId sign, std::string_view text, Case& patient);
  [[nodiscard]] bool findings(SignId sign, std::size_t at, Case& patient);
  [[nodiscard]] bool marks(SignId sign, std::size_t& at, std::vector<SiteMark>& out);
  [[nodiscard]] bool mark(SignId sign, std::string_view text, std::vector<SiteMark>& out);
  void pass_over();

  Pack const& pack_;
  Outcomes outcomes_;
  Told is_told_;
  NameTable signs_, sites_, breeds_;
  Tokens tokens_;
  std::size_t next_ = 0;
  SignSet answered_;                 ///< empty between lines
  std::vector<std::size_t> places_;  ///< of each answered sign, where its answer begins
};

}  // namespace flinch
