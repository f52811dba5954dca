// Any bytes typed in answer to any sign of the shipped pack: no crash, no hang; an answer fits its
// sign and is believable, and a remark is one harmless line. The first byte chooses the sign.
#include <cstdlib>

#include "flinch/interview/answer_entry.hpp"
#include "flinch/text/display.hpp"
#include "fuzz/target.hpp"
#include "pack/shipped_pack.hpp"

namespace {

using namespace flinch;

bool fits(Pack const& pack, Sign const& sign, Answer const& answer) {
  switch (sign.kind) {
    case AnswerKind::yes_or_no:
      return std::holds_alternative<bool>(answer);
    case AnswerKind::steps:
    case AnswerKind::one_of:
      return std::holds_alternative<Choice>(answer) &&
             std::get<Choice>(answer).index < sign.values.size();
    case AnswerKind::breed:
      return std::holds_alternative<Choice>(answer) &&
             std::get<Choice>(answer).index < pack.breeds.breeds.size();
    case AnswerKind::number:
      return std::holds_alternative<double>(answer) && std::get<double>(answer) >= sign.low &&
             std::get<double>(answer) <= sign.high;
    case AnswerKind::sites:
      return std::holds_alternative<Findings>(answer);
  }
  return false;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  static auto const pack = test::shipped_pack();
  if (size == 0) return 0;
  // Signs of every kind, the dog's own and a few others.
  static std::vector<SignId> const signs = [] {
    std::vector<SignId> out;
    for (std::uint32_t i = 0; i < pack->signs.size(); ++i)
      if (i < patient_sign::count || pack->signs[i].kind != AnswerKind::yes_or_no)
        out.push_back(SignId{i});
    return out;
  }();
  auto const sign = signs[data[0] % signs.size()];
  std::string_view const typed(reinterpret_cast<char const*>(data) + 1, size - 1);
  auto const entry = read_entry(*pack, sign, typed, {{2026, 11, 25}, Side::left});
  if (entry.answer && !fits(*pack, (*pack)[sign], *entry.answer)) std::abort();
  if (!entry.answer && !entry.cannot_tell && entry.remark.empty()) std::abort();
  if (inert(entry.remark) != entry.remark) std::abort();
  if (entry.answer && (*pack)[sign].kind == AnswerKind::sites)
    static_cast<void>(clear_elsewhere(*pack, sign, std::get<Findings>(*entry.answer).found));
  auto const sex = read_sex(*pack, typed);
  if (inert(sex.remark) != sex.remark) std::abort();
  return 0;
}
