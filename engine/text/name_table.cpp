#include "text/name_table.hpp"

#include <bit>
#include <cstring>

namespace flinch {
namespace {

// The beginning, the end and the length of a name tell most names apart.
std::uint64_t mixed(std::string_view name) {
  std::uint64_t first = 0;
  std::uint64_t last = 0;
  if (name.size() >= sizeof(first)) {
    std::memcpy(&first, name.data(), sizeof(first));
    std::memcpy(&last, name.data() + name.size() - sizeof(last), sizeof(last));
  } else {
    for (char const c : name) first = first << 8U | static_cast<unsigned char>(c);
  }
  constexpr std::uint64_t odd = 0x9E3779B97F4A7C15;  // 2 to the 64 over the golden ratio
  auto const mix = (first ^ std::rotl(last, 23) ^ name.size()) * odd;
  return mix ^ mix >> 32U;
}

}  // namespace

NameTable::NameTable(std::size_t names) : slots_(std::bit_ceil(2 * names + 2)) {}

// Where the name is, or would be.
std::size_t NameTable::slot(std::string_view name) const {
  auto const last = slots_.size() - 1;
  auto at = static_cast<std::size_t>(mixed(name)) & last;
  while (slots_[at].is_taken && slots_[at].name != name) at = (at + 1) & last;
  return at;
}

void NameTable::add(std::string_view name, std::uint32_t number) {
  auto& its = slots_[slot(name)];
  if (!its.is_taken) its = {name, number, true};
}

std::optional<std::uint32_t> NameTable::find(std::string_view name) const {
  auto const& its = slots_[slot(name)];
  return its.is_taken ? std::optional(its.number) : std::nullopt;
}

}  // namespace flinch
