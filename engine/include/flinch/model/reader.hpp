#pragma once
// Who is asked, and who reads.
#include <cstdint>

namespace flinch {

/// Decides which signs can be asked for, and what is told of the answer.
enum class Reader : std::uint8_t {
  keeper,    ///< at home or at the front desk: sees what anyone can see
  nurse,     ///< at the telephone, a keeper at the other end: sees the same
  handler,   ///< with hands on the patient: feels as well; is told what a keeper is told, and what
             ///< is open to hands
  clinician  ///< everything
};

}  // namespace flinch
