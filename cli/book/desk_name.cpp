#include "book/desk_name.hpp"

#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <charconv>

#include "flinch/text/display.hpp"

namespace flinch::cli {

namespace {

constexpr std::size_t longest_person = 100;  // bytes: the machine and the run stand behind it

}  // namespace

std::string this_machine() {
  std::array<char, 256> machine{};
  ::gethostname(machine.data(), machine.size() - 1);
  return machine.data();
}

DeskName DeskName::here(std::string person) {
  person.resize(whole_character(person, std::min(person.size(), longest_person)));
  return {inert(person), this_machine(), static_cast<long>(::getpid())};
}

DeskName DeskName::of(std::string const& text) {
  auto const run = text.rfind(" #");
  auto const at = run == std::string::npos ? run : text.rfind(" at ", run);
  DeskName out;
  if (at == std::string::npos) {
    out.person = text;
    return out;
  }
  auto const* const end = text.data() + text.size();
  auto const read = std::from_chars(text.data() + run + 2, end, out.process);
  if (read.ec != std::errc{} || read.ptr != end || out.process <= 0) return {text, "", 0};
  out.person = text.substr(0, at);
  out.machine = text.substr(at + 4, run - at - 4);
  return out;
}

std::string DeskName::text() const { return fmt::format("{} at {} #{}", person, machine, process); }

std::string DeskName::shown() const {
  return inert(machine.empty() ? person : fmt::format("{} at {}", person, machine));
}

bool DeskName::is_gone() const {
  return process > 0 && machine == this_machine() && ::kill(static_cast<pid_t>(process), 0) != 0 &&
         errno == ESRCH;
}

}  // namespace flinch::cli
