#include "batch/batch_progress.hpp"

#include <array>
#include <nlohmann/json.hpp>

namespace flinch::cli {
namespace {

struct Field {
  char const* name;
  std::uint64_t Progress::*member;
};

constexpr std::array progress_fields = {Field{"input_bytes", &Progress::input_bytes},
                                        Field{"output_bytes", &Progress::output_bytes},
                                        Field{"next_line", &Progress::next_line},
                                        Field{"lines", &Progress::lines},
                                        Field{"bad", &Progress::bad},
                                        Field{"settings", &Progress::settings},
                                        Field{"tail_bytes", &Progress::tail_bytes},
                                        Field{"tail", &Progress::tail}};

}  // namespace

std::uint64_t fingerprint(std::string_view bytes, std::uint64_t so_far) {
  for (auto const c : bytes) {
    so_far ^= static_cast<unsigned char>(c);
    so_far *= 0x100000001B3U;
  }
  return so_far;
}

std::string progress_text(Progress const& progress) {
  nlohmann::ordered_json out;
  for (auto const& field : progress_fields) out[field.name] = progress.*field.member;
  return out.dump() + '\n';
}

std::optional<Progress> read_progress(std::string_view text) {
  auto const read = nlohmann::json::parse(text, nullptr, false);
  if (!read.is_object()) return std::nullopt;
  Progress out;
  for (auto const& field : progress_fields) {
    auto const found = read.find(field.name);
    if (found == read.end() || !found->is_number_unsigned()) return std::nullopt;
    out.*field.member = found->get<std::uint64_t>();
  }
  return out;
}

}  // namespace flinch::cli
