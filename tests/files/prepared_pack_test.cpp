#include "files/prepared_pack.hpp"

#include <gtest/gtest.h>

#include "files/pack_source.hpp"
#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

using cli::embedded_pack;
using cli::prepare_pack;
using cli::prepared_pack;

TEST(PreparedPack, IsWhatParsingTheShippedPackGives) {
  auto const parsed = parsed_shipped_pack();
  ASSERT_FALSE(embedded_pack().prepared.empty());
  EXPECT_TRUE(prepare_pack(*parsed) == embedded_pack().prepared);
}

TEST(PreparedPack, ComesBackWhole) {
  auto const bytes = embedded_pack().prepared;
  EXPECT_TRUE(prepare_pack(*prepared_pack(bytes)) == bytes);
}

TEST(PreparedPack, FindsNamesAndUnitsAsTheParsedOne) {
  auto const parsed = parsed_shipped_pack();
  auto const prepared = prepared_pack(embedded_pack().prepared);
  EXPECT_EQ(prepared->sign_index, parsed->sign_index);
  EXPECT_EQ(prepared->site_index, parsed->site_index);
  ASSERT_EQ(prepared->signs.size(), parsed->signs.size());
  for (std::size_t i = 0; i < parsed->signs.size(); ++i) {
    EXPECT_EQ(prepared->signs[i].unit.dimension, parsed->signs[i].unit.dimension);
    EXPECT_EQ(prepared->signs[i].unit.factor, parsed->signs[i].unit.factor);
    EXPECT_EQ(prepared->signs[i].unit.offset, parsed->signs[i].unit.offset);
  }
}

TEST(PreparedPack, KeepsThePlacesInItsTexts) {
  auto const opened = cli::open_pack("");
  for (auto const& cause : (*opened.outcome.value)->causes)
    EXPECT_EQ(opened.sources.text(cause.at), cause.name);
  for (auto const& file : embedded_pack().files)
    EXPECT_EQ(file.bytes, source_file("rules/canine/" + std::string(file.path)));
}

TEST(PreparedPack, EndingEarlyIsNoticed) {
  auto const bytes = embedded_pack().prepared;
  for (auto const size : {std::size_t{0}, std::size_t{1}, bytes.size() / 2, bytes.size() - 1})
    EXPECT_THROW((void)prepared_pack(bytes.substr(0, size)), std::exception) << size;
}

}  // namespace
}  // namespace flinch::test
