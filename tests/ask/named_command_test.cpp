// A command that is named to the user can be typed as it stands.
#include "look/named_command.hpp"

#include <gtest/gtest.h>

namespace flinch::cli {
namespace {

TEST(NamedCommand, KeepsThePackAndThePracticeOfWhatTakesOne) {
  GoesOnWith const on{"rules/rabbit", "practice.yaml"};
  EXPECT_EQ(named_command("care", {"dog.yaml"}, on),
            "flinch care dog.yaml --pack rules/rabbit --practice practice.yaml");
  EXPECT_EQ(named_command("ask", {"--save", "dog.yaml"}, on),
            "flinch ask --save dog.yaml --pack rules/rabbit --practice practice.yaml");
  EXPECT_EQ(named_command("describe", {"gdv"}, on), "flinch describe gdv --pack rules/rabbit");
  EXPECT_EQ(named_command("signs", {}, {}), "flinch signs");
}

TEST(NamedCommand, QuotesWhatAShellWouldCut) {
  EXPECT_EQ(named_command("care", {"my dog.yaml"}, {"", "our house.yaml"}),
            "flinch care 'my dog.yaml' --practice 'our house.yaml'");
  EXPECT_EQ(named_command("care", {"Moss's.yaml"}, {}), "flinch care 'Moss'\\''s.yaml'");
  EXPECT_EQ(named_command("care", {"$(x).yaml"}, {}), "flinch care '$(x).yaml'");
  EXPECT_EQ(named_command("care", {"a\x1b[2J"}, {}).find('\x1b'), std::string::npos);
}

}  // namespace
}  // namespace flinch::cli
