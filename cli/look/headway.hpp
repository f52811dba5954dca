#pragma once
// How far long work has come, on a line of its own for whoever waits at a terminal.
#include <chrono>
#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "look/page.hpp"

namespace flinch::cli {

/// Writes nothing where standard error is no terminal, nor in the first second. The line goes when
/// the work is over.
class Headway {
 public:
  /// `doing` in words: "reading cases". `of` is how many there are, where that is known.
  Headway(std::ostream& err, Look const& look, std::string_view doing,
          std::optional<std::uint64_t> of = std::nullopt);
  ~Headway() { hide(); }
  Headway(Headway const&) = delete;
  Headway& operator=(Headway const&) = delete;

  /// So many are done, or, where that is told, such a share (0 to 1) of the work.
  void reach(std::uint64_t done, std::optional<double> share = std::nullopt);
  /// Takes the line away, before something else is written; the next `reach` may bring it back.
  void hide();

 private:
  using Clock = std::chrono::steady_clock;

  std::ostream& err_;
  bool is_watched_;
  std::string doing_;
  std::optional<std::uint64_t> of_;
  Clock::time_point next_;  ///< when the line is written again
  bool is_shown_ = false;
};

}  // namespace flinch::cli
