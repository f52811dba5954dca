// A program of somebody else's: a pack and a case from strings, an answer out.
#include <flinch/assess/assessment.hpp>
#include <flinch/casefile/read_case.hpp>
#include <flinch/model/load.hpp>
#include <iostream>

int main() {
  flinch::SourceSet sources;
  auto const pack = flinch::load_pack(
      "pack.flinch",
      [](std::string_view) -> std::optional<std::string> {
        return R"(pack tiny "Tiny"
  unlisted 100 per 1000
source judgement
  text "Judgement"
tier now "Now"
  within 1 hour
  harm 19
  say "Go."
tier watch "Watch"
  within 28 days
  say "Watch."
sign retching "retching"
  ask "Does it retch?"
  answer yes or no
  seen by anyone
sign swollen "swollen"
  ask "Is the belly swollen?"
  answer yes or no
  seen by anyone
alarm bloat "Bloat"
  if retching and swollen
  see now
  because "A twisted stomach cannot empty."
  cite judgement
)";
      },
      sources);
  if (!pack) {
    std::cerr << flinch::render(pack.diagnostics, sources);
    return 2;
  }
  auto const file = sources.add("case.yaml", "answers: {retching: yes, swollen: yes}\n");
  auto const dog = flinch::read_case(sources, file, **pack.value);
  flinch::Tables const tables(*pack.value);
  auto const result = flinch::Assessor(tables).assess(*dog.value);
  std::cout << "tier " << (**pack.value)[*result.judgement.tier].name << ", "
            << (*pack.value)->signs.size() - flinch::dog_sign::count << " signs\n";
  return 0;
}
