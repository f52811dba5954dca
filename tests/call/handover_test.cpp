#include "call/handover.hpp"

#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "support/small_pack.hpp"

namespace flinch::cli {
namespace {

std::vector<NotePart> note_of(std::string const& yaml) {
  static Tables const tables(test::desk_pack());
  auto const patient = test::case_of(tables.pack(), yaml);
  return handover_note(tables, patient, Assessor(tables).assess(patient));
}

std::string text_of(std::string const& yaml) { return note_text(note_of(yaml), Look{}); }

constexpr char const* bloated =
    "name: Bramble\ncaller: Jo Alder\ncall back: 555 0142\nring back at: 15:40\n"
    "note: Ate a large meal at noon.\n"
    "dog: {age: 10 years, weight: 31 kg, sex: male, neutered: yes}\n"
    "answers: {lame: no, belly_swollen: yes, retching_dry: yes, stiff_after_rest: yes, "
    "gum_colour: pink, off_food: can't tell, collapsed: no}\n";

TEST(Handover, HasTheFourPartsOfTheTradeInOrder) {
  auto const note = note_of(bloated);
  ASSERT_EQ(note.size(), 4U);
  EXPECT_EQ(note[0].title, "Situation");
  EXPECT_EQ(note[1].title, "Background");
  EXPECT_EQ(note[2].title, "Assessment");
  EXPECT_EQ(note[3].title, "Recommendation");
}

TEST(Handover, SaysAllThatTheVetNeeds) {
  EXPECT_EQ(text_of(bloated),
            "HAND-OVER NOTE\n"
            "SITUATION\n"
            "  * Reported by: Jo Alder, call back 555 0142\n"
            "  * Patient: Bramble, 10 years, 31 kg, male, neutered\n"
            "  * Urgency: See a vet now\n"
            "  * Because: Swollen belly with dry retching.\n"
            "BACKGROUND\n"
            "  * Seen: retches and brings nothing up; swollen belly; gum colour: pink; stiff\n"
            "    after rest\n"
            "  * Asked and absent: 2 asked, none of which would change much\n"
            "  * Caller could not tell: off its food\n"
            "  * Note: Ate a large meal at noon.\n"
            "ASSESSMENT\n"
            "  * Prepare for: Twisted stomach; Elbow arthritis (likeliest first; not a\n"
            "    diagnosis)\n"
            "RECOMMENDATION\n"
            "  * First: Radiograph of the belly; Flexion and extension of both elbows,\n"
            "    compared\n"
            "  * For the caller: Leave now; telephone on the way. Ask about food and water\n"
            "    when you telephone.\n"
            "  * Ring back: at 15:40\n" +
                std::string("Flinch supports people who decide; it does not diagnose. A licensed "
                            "veterinarian\nand local rules decide. Give no human painkillers. If "
                            "it gets worse, ring again\nat once.\n"));
}

TEST(Handover, OfTheAnswersOfNoNamesThoseThatMatter) {
  auto const text =
      text_of("answers: {lame: yes, collapsed: no, licks: no, stiff_after_rest: yes}\n");
  EXPECT_NE(text.find("Asked and absent: collapsed; and 1 more"), std::string::npos) << text;
}

TEST(Handover, SaysWhoWroteItAndWhen) {
  static Tables const tables(test::desk_pack());
  auto const patient = test::case_of(tables.pack(), "answers: {collapsed: yes}\n");
  Setting setting{Practice{"Elder Lane", "555 0100", "", "the night clinic", "AB", {}}, 3, 900,
                  "2026-11-25 15:00"};
  auto const text = [&] {
    return note_text(handover_note(tables, patient, Assessor(tables).assess(patient), setting),
                     Look{});
  };
  EXPECT_NE(text().find("Written: 2026-11-25 15:00 by AB, Elder Lane"), std::string::npos);
  EXPECT_NE(text().find("Come straight to us"), std::string::npos) << text();
  setting.practice->hours[3] = {{540, 720}};
  EXPECT_NE(text().find("We are closed now: go straight to the night clinic."), std::string::npos)
      << text();
}

TEST(Handover, UnknownIsNamedAndNeverNo) {
  auto const text = text_of("answers: {lame: no}\n");
  EXPECT_NE(text.find("Nothing told that says how soon; not settled, could still be: See a"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("NOT ASKED, could make it more urgent: "), std::string::npos) << text;
  EXPECT_EQ(text.find("Asked and absent: collapsed"), std::string::npos) << text;
}

TEST(Handover, NothingThatACallerSaidIsMarkupOrAControl) {
  auto const note = note_of(
      "name: \"<script>x</script> \\x1b[2J\"\ncaller: \"*a* _b_ [c](http://d) `e` | # www.f\"\n"
      "note: \"line\\n# heading\\n- item & =1+1\"\n");
  auto const markdown = note_markdown(note);
  EXPECT_EQ(markdown.find('\x1b'), std::string::npos);
  EXPECT_EQ(markdown.find("<script"), std::string::npos) << markdown;
  EXPECT_NE(markdown.find("&lt;script&gt;"), std::string::npos) << markdown;
  EXPECT_NE(markdown.find("\\*a\\* \\_b\\_ \\[c\\](http\\://d) \\`e\\` \\| \\# www\\.f"),
            std::string::npos)
      << markdown;
  EXPECT_EQ(markdown.find("\n# heading"), std::string::npos) << markdown;
  EXPECT_EQ(note_text(note, Look{}).find('\x1b'), std::string::npos);
}

}  // namespace
}  // namespace flinch::cli
