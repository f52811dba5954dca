// What tells who somebody is stands in no error, and every place stays where it was.
#include "flinch/casefile/without_words.hpp"

#include <gtest/gtest.h>

namespace flinch {
namespace {

struct Row {
  char const* text;
  char const* shown;
};

TEST(WithoutWords, BlotsOutFreeTextAlone) {
  for (auto const& [text, shown] : std::initializer_list<Row>{
           {"name: Zaphyra\nanswers: {lame: yes}\n", "name: *******\nanswers: {lame: yes}\n"},
           {"{name: Zaphyra, call back: 555, answers: {lame: yess}}",
            "{name: *******, call back: ***, answers: {lame: yess}}"},
           {"{\"note\": \"a, b: \\\" c\", \"answers\": {\"lame\": \"yes\"}}",
            "{\"note\": *** ** ** **, \"answers\": {\"lame\": \"yes\"}}"},
           {"call back: {a: 555}\nnote: [one,\n  two]\nlame: yes",
            "call back: *** ****\nnote: *****\n  ****\nlame: yes"},
           {"note: |\n  one\n\n  two: x\nanswers: {}", "note: *\n  ***\n\n  **** *\nanswers: {}"},
           {"caller: Jo, Quandary # there\nlame: yes", "caller: *** ******** * *****\nlame: yes"},
           {"# before: Zaphyra\nlame: yes # fine", "# ******* *******\nlame: yes # fine"},
           {"caller: \"Quandary\nnote: x", "caller: *********\n***** *"},
           {"nickname: x\nname of it: y\nsurname: z", "nickname: x\nname of it: y\nsurname: z"},
           // Within brackets a plain value goes on over the end of its line.
           {"{name: Rex\n  of Mrs Quandary, answers: {lame: yess}}",
            "{name: ***\n  ** *** ********, answers: {lame: yess}}"},
           {"{\n  lame: yes,\n  name: Rex\n  of Mrs Quandary,\n  lame: yess}",
            "{\n  lame: yes,\n  name: ***\n  ** *** ********,\n  lame: yess}"},
           {"[{name: Rex\nof Mrs Quandary}, lame]", "[{name: ***\n** *** ********}, lame]"},
           {"{lame: yes, name:\n  Zaphyra\n  Quandary}",
            "{lame: yes, name:\n  *******\n  ********}"},
           {"answers: {lame: yes}\nname: Rex\nlame: yes",
            "answers: {lame: yes}\nname: ***\nlame: yes"},
           {"- name: Zoé\n- lame", "- name: **\u00B7\n- lame"}})
    EXPECT_EQ(without_words(text), shown);
}

TEST(WithoutWords, KeepsEveryPlace) {
  std::string const text = "name: Zo\u00E9 \u732B \U0001F415\nnote: \xC3\nlame: yes\n";
  auto const shown = without_words(text);
  ASSERT_EQ(shown.size(), text.size());
  EXPECT_EQ(shown.substr(shown.find("lame")), "lame: yes\n");
  for (auto const* word : {"Zo", "\u00E9", "\u732B", "\U0001F415"})
    EXPECT_EQ(shown.find(word), std::string::npos) << shown;
}

TEST(WithoutWords, AnErrorShowsNobody) {
  SourceSet sources;
  auto const file = sources.add("a.yaml", "name: Zaphyra\ncall back: {a: 5550142}\n");
  Diagnostic one;
  one.message = "a text is expected here";
  one.at = {file, {25, 37}};
  auto const told = render_without_words({one}, sources, file);
  EXPECT_NE(told.find("a.yaml:2:12"), std::string::npos) << told;
  EXPECT_EQ(told.find("5550142"), std::string::npos) << told;
}

}  // namespace
}  // namespace flinch
