#pragma once
// Where a desk keeps its case.
#include <functional>
#include <string>
#include <vector>

#include "flinch/model/case.hpp"

namespace flinch::cli {

struct CaseKeeper {
  struct Kept {
    std::string trouble;  ///< why it is not kept; empty: it is on the disk
    std::string notice;   ///< it is kept, and this is worth telling
  };
  /// Keeps the case as it now is; `from_book` are the signs that nobody answered in this call.
  std::function<Kept(Case const& patient, std::vector<SignId> const& from_book)> keep;
  std::string place;  ///< where: a file's name, or the book
  /// Whether words are kept letter by letter; otherwise once they are all typed.
  bool takes_letters = true;
  /// Whether somebody is reminded of the time to ring back that stands in the case.
  bool reminds = false;
};

}  // namespace flinch::cli
