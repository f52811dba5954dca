#include "flinch/explain/open_count.hpp"

#include <fmt/format.h>

namespace flinch {

std::string open_count_text(Pack const& pack, std::vector<OpenQuestion> const& questions,
                            SeenAt seen_at) {
  std::size_t anyone = 0;
  std::size_t of_the_patient = 0;
  std::size_t hands = 0;
  std::size_t clinic = 0;
  std::size_t untold = 0;
  for (auto const& question : questions) {
    auto const& sign = pack[question.sign];
    if (question.could_not_tell)
      ++untold;
    else if (sign.of_the_patient)
      ++of_the_patient;
    else
      ++(sign.seen_by == SeenBy::anyone ? anyone : sign.seen_by == SeenBy::hands ? hands : clinic);
  }
  std::string parts;
  auto const add = [&](std::size_t count, std::string_view what) {
    if (count > 0) parts += fmt::format("{}{} {}", parts.empty() ? "" : ", ", count, what);
  };
  add(anyone, "anyone can tell");
  add(of_the_patient, fmt::format("of the {} itself", pack.words.one));
  add(hands, hands == 1 ? "needs hands on it" : "need hands on it");
  add(clinic, fmt::format("{} {}", clinic == 1 ? "needs" : "need",
                          seen_at == SeenAt::home ? "the vet" : "a clinic"));
  add(untold, "could not be told");
  return parts.empty() ? "none open" : fmt::format("{} open: {}", questions.size(), parts);
}

}  // namespace flinch
