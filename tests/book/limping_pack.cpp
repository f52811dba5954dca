#include "book/limping_pack.hpp"

#include "support/small_pack.hpp"

namespace flinch::test {

std::shared_ptr<Pack const> limping_pack(std::string const& rest) {
  return pack_of(R"(
sign limping "limping"
  ask "Does it limp?"
  answer yes or no
  seen by anyone
)" + rest + R"(
cause sprain "Sprain"
  base 10 per 1000
  see watch
  because "x"
  cite judgement
rule limps "Limps"
  if limping
  usual 1%
  in sprain 90%
  because "x"
  cite judgement
)");
}

}  // namespace flinch::test
