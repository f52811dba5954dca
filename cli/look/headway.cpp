#include "look/headway.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flinch::cli {
namespace {

constexpr std::chrono::milliseconds first_wait{1000};
constexpr std::chrono::milliseconds between{200};

}  // namespace

Headway::Headway(std::ostream& err, Look const& look, std::string_view doing,
                 std::optional<std::uint64_t> of)
    : err_(err),
      is_watched_(look.err_is_terminal),
      doing_(doing),
      of_(of),
      next_(Clock::now() + first_wait) {}

void Headway::reach(std::uint64_t done, std::optional<double> share) {
  if (!is_watched_) return;
  auto const now = Clock::now();
  if (now < next_) return;
  next_ = now + between;
  auto const known = share ? share
                     : of_ && *of_ > 0
                         ? std::optional(static_cast<double>(done) / static_cast<double>(*of_))
                         : std::nullopt;
  err_ << fmt::format("\r{}: {}", doing_, done);
  if (of_) err_ << fmt::format(" of {}", *of_);
  if (known) err_ << fmt::format(", {:.0f} %", 100 * *known);
  err_ << "\x1b[K" << std::flush;
  is_shown_ = true;
}

void Headway::hide() {
  if (!is_shown_) return;
  err_ << "\r\x1b[K" << std::flush;
  is_shown_ = false;
}

}  // namespace flinch::cli
