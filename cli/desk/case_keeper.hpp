#pragma once
// Where a desk keeps its case.
#include <functional>
#include <string>

#include "flinch/model/case.hpp"

namespace flinch::cli {

struct CaseKeeper {
  struct Kept {
    std::string trouble;  ///< why it is not kept; empty: it is on the disk
    std::string notice;   ///< it is kept, and this is worth telling
  };
  /// Keeps the case as it now is.
  std::function<Kept(Case const& patient)> keep;
  /// Whether words are kept letter by letter; otherwise once they are all typed.
  bool takes_letters = true;
};

}  // namespace flinch::cli
