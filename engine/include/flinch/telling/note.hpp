#pragma once
// The note that hands a patient over to the vet, in the trade's four parts; one sheet.
#include <string>
#include <vector>

#include "flinch/model/case.hpp"
#include "flinch/telling/telling.hpp"

namespace flinch {

struct NoteItem {
  std::string label;  ///< may be empty
  std::string text;
};
struct NotePart {
  std::string title;
  std::vector<NoteItem> items;
};

/// Situation, background, assessment and recommendation, in this order. Of the answers of no it
/// names those that matter: a yes in their place would raise the tier or put another cause first.
[[nodiscard]] std::vector<NotePart> handover_note(Tables const& tables, Case const& patient,
                                                  Assessment const& result,
                                                  Setting const& setting = {});

}  // namespace flinch
