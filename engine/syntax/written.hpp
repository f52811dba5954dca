#pragma once
// Each value of the tree as the language writes it, in one line.
#include <optional>
#include <string>
#include <vector>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {

std::string written(Name const&);
std::string written(Text const&);
std::string written(Number const&);
std::string written(Quantity const&);
std::string written(Frequency const&);
std::string written(Frequencies const&);
std::string written(Hold const&);
std::string written(Range const&);
std::string written(SourcedNumber const&);
std::string written(SitePlace const&);
std::string written(Condition const&);
std::string written(Species const&);
std::string written(Called const&);
std::string written(NeverNeutered const&);
std::string written(SizeStep const&);
std::string written(ReadAs const&);
std::string written(SeenBy const&);
std::string written(SeenAt const&);
std::string written(Said const&);
std::string written(Answer const&);
std::string written(Floor const&);
std::string written(Over const&);
std::string written(InCause const&);
std::string written(Dose const&);
std::string written(Form const&);
std::string written(Gate const&);
std::string written(Level const&);
std::string written(Benefit const&);
std::string written(Setting const&);
std::string written(PatientFacts const&);  ///< without its species, which begins the line
std::string written(Finding const&);
std::string written(Promise const&);
std::string written(Accept const&);
std::string written(Reading const&);

/// Side by side, with commas between.
template <class T>
std::string written(std::vector<T> const& items) {
  std::string out;
  for (auto const& item : items) out += (out.empty() ? "" : ", ") + written(item);
  return out;
}

}  // namespace flinch::syntax
