#pragma once
// Sheets on which a vet reads a pack: a body region each, an evening's worth, heaviest first.
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "flinch/explain/statements.hpp"
#include "flinch/syntax/parse.hpp"

namespace flinch::cli {

/// The statements of a loaded pack as they were written.
class WrittenStatements {
 public:
  explicit WrittenStatements(SourceSet const& sources);

  struct Where {
    FileId file{};
    std::size_t statement = 0;  ///< in the file's list
  };
  /// Of the statement whose name stands at this place.
  [[nodiscard]] Where where(Place name) const;
  [[nodiscard]] std::string mark(Place name) const;
  [[nodiscard]] syntax::File const& file(FileId id) const { return files_.at(id); }

 private:
  std::map<FileId, syntax::File> files_;
  std::map<std::tuple<FileId, std::uint32_t>, Where> places_;
};

/// How many statements make a sheet: at two minutes each they fill an evening. A judgement.
inline constexpr std::size_t statements_on_a_sheet = 60;

struct ReadingSheet {
  std::string name;                  ///< `belly_2`, as the command line takes it
  std::string title;                 ///< "Belly, sheet 2 of 5"
  std::vector<PackStatement> items;  ///< those still to be read
  std::vector<std::string> marks;    ///< one each
  /// Made of the names and marks of all items: what was printed is what is recorded.
  std::string mark;
};

/// Every statement is on one of them, in an order that reading does not change; a sheet whose
/// statements have all been read is empty.
[[nodiscard]] std::vector<ReadingSheet> reading_sheets(Tables const& tables,
                                                       WrittenStatements const& written);

struct WrittenSheets {
  std::size_t sheets = 0;
  std::string place;    ///< the file or folder that could not be written
  std::string failure;  ///< in words; empty when all went well
};

/// Writes a page of A4 paper for each that has something to read, and `index.html`.
[[nodiscard]] WrittenSheets write_sheets(Tables const& tables,
                                         std::vector<ReadingSheet> const& sheets,
                                         std::string const& folder, std::string const& pack_path);

}  // namespace flinch::cli
