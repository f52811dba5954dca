// What is forgotten is gone; what is copied is the same.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "book/scratch_book.hpp"

namespace flinch::test {
namespace {

using cli::Book;
using cli::BookTrouble;
using nlohmann::json;

constexpr char const* bramble =
    R"({"name": "Zaphyra", "caller": "Jo Quandary", "call back": "555 0142",
        "answers": {"lame": "yes"}, "note": "sofa-gnawer"})";
constexpr char const* tansy =
    R"({"name": "Tansy", "caller": "Al Berg", "call back": "555 0199", "answers": {"lame": "no"}})";

// All bytes of the files of a book.
std::string bytes_below(std::string const& folder) {
  std::string out;
  for (auto const& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in(entry.path(), std::ios::binary);
    out.append(std::istreambuf_iterator<char>(in), {});
  }
  return out;
}

std::string everything(Book& book) {
  std::string out;
  book.each_call({}, [&](cli::CallLine const& call) {
    out += call.line + call.words + call.patient_name + call.client_name + call.telephone +
           call.tier + std::to_string(number(call.patient)) + '\n';
  });
  return out;
}

TEST(BookForget, AClientsWordsGoAndTheAnswersStay) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto call = new_call(1000, bramble);
  call.entry.ring_back = cli::RingBack{5000};
  auto const id = *book.begin(call);
  (void)book.begin(new_call(1000, tansy));
  auto const forgotten = book.forget(book.find("zaphyra", 5).front().client);
  EXPECT_EQ(forgotten.clients, 1);
  EXPECT_EQ(forgotten.patients, 1);
  EXPECT_EQ(forgotten.calls, 1);
  auto const left = *book.call(id);
  EXPECT_EQ(json::parse(left.line)["answers"]["lame"], "yes");
  EXPECT_EQ(left.words + left.patient_name + left.client_name + left.telephone, "{}");
  EXPECT_EQ(book.find("zaphyra", 5).size() + book.find("0142", 5).size(), 0U);
  EXPECT_TRUE(book.ring_backs(5).empty());
  EXPECT_EQ(book.find("tansy", 5).size(), 1U);
  if (scratch.place().is_server) return;
  auto const bytes = bytes_below(scratch.folder());
  for (auto const* word : {"Zaphyra", "zaphyra", "Quandary", "quandary", "sofa-gnawer", "5550142"})
    EXPECT_EQ(bytes.find(word), std::string::npos) << word;
  EXPECT_NE(bytes.find("Tansy"), std::string::npos);
}

TEST(BookForget, WhatIsOldGoesButNotOfThoseWhoCameAgain) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const old = *book.begin(new_call(1000, bramble));
  auto const again = *book.begin(new_call(1000, tansy));
  auto const later = *book.begin(new_call(9000, tansy));
  ASSERT_EQ(book.call(again)->patient, book.call(later)->patient);
  auto const forgotten = book.forget_before(5000);
  EXPECT_EQ(forgotten.clients, 1);
  EXPECT_EQ(forgotten.patients, 1);
  EXPECT_EQ(forgotten.calls, 2);
  EXPECT_EQ(book.call(old)->patient_name, "");
  EXPECT_EQ(book.call(again)->words, "{}");
  EXPECT_EQ(book.call(again)->patient_name, "Tansy");
  EXPECT_NE(book.call(later)->words, "{}");
  EXPECT_EQ(book.forget_before(5000).calls, 0);
}

TEST(BookForget, ACopyHoldsTheSameAndGoesOn) {
  ScratchBook scratch;
  auto book = scratch.open();
  for (int i = 0; i < 30; ++i) {
    auto const call = *book.begin(new_call(1000 + i, i % 2 == 0 ? bramble : tansy));
    book.save(call, {2000, "Kim", R"({"answers": {"vomiting": "no"}})"});
  }
  auto const file = cli::book_place(scratch.folder() + "/copy.db");
  Book copy(file, Book::Missing::is_made);
  book.copy_into(copy);
  EXPECT_EQ(everything(copy), everything(book));
  EXPECT_THROW(book.copy_into(copy), BookTrouble) << "nothing is written over";
  // And back again, as from a backup, into an empty book of this kind.
  if (!scratch.place().is_server) return;
  ScratchBook emptied;
  auto restored = emptied.open();
  copy.copy_into(restored);
  EXPECT_EQ(everything(restored), everything(copy));
  auto const next = *restored.begin(new_call(9999, R"({"name": "Moss"})"));
  EXPECT_EQ(number(next), 31);
}

}  // namespace
}  // namespace flinch::test
