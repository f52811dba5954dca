#include "check/check_cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <system_error>

#include "batch/batch_input.hpp"
#include "batch/line_blocks.hpp"
#include "files/case_files.hpp"
#include "flinch/casefile/read_case_line.hpp"
#include "flinch/text/display.hpp"
#include "look/headway.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t shown_at_most = 20;  // lines with mistakes, of one file

class LineCases {
 public:
  LineCases(Tables const& tables, Coverage& coverage, Session const& session)
      : reader_(tables.pack()),
        assessor_(tables),
        coverage_(coverage),
        err_(session.err),
        headway_(session.err, session.look, "assessing lines") {}

  bool read(std::string const& file) {
    InputFile input;
    if (auto const why = input.open(file)) {
      err_ << fmt::format("{}: error: {}\n", inert(file), inert(*why));
      return false;
    }
    LineBlocks blocks(input.descriptor(), CaseLineReader::longest_line);
    std::atomic<bool> const never_stop{false};
    bad_lines_ = 0;
    while (auto const block = blocks.next(never_stop)) check(file, *block);
    headway_.hide();
    if (bad_lines_ > shown_at_most)
      err_ << fmt::format("{}: error: {} more lines cannot be read\n", inert(file),
                          bad_lines_ - shown_at_most);
    if (blocks.trouble() == 0) return bad_lines_ == 0;
    err_ << fmt::format("{}: error: {}\n", inert(file),
                        std::generic_category().message(blocks.trouble()));
    return false;
  }

 private:
  void check(std::string const& file, Block const& block) {
    if (block.too_long > 0) {
      refuse(file, block.first_line, {CaseLineReader::too_long(block.too_long)});
      return;
    }
    std::string_view rest = block.bytes;
    for (auto number = block.first_line; !rest.empty(); ++number) {
      auto const end = std::min(rest.find('\n'), rest.size());
      auto const line = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      if (line.find_first_not_of(" \t\r") == std::string_view::npos) continue;
      headway_.reach(done_++);
      auto const patient = reader_.read(line);
      if (patient)
        coverage_.add(assessor_.assess(*patient.value));
      else
        refuse(file, number, patient.diagnostics);
    }
  }

  void refuse(std::string const& file, std::uint64_t number,
              std::vector<Diagnostic> const& mistakes) {
    if (++bad_lines_ > shown_at_most) return;
    headway_.hide();
    for (auto const& mistake : mistakes)
      err_ << fmt::format("{}:{}:{}: error: {} [{}]\n", inert(file), number,
                          mistake.at.span.begin + 1, inert(mistake.message),
                          code_text(mistake.code));
  }

  CaseLineReader reader_;
  Assessor assessor_;
  Coverage& coverage_;
  std::ostream& err_;
  Headway headway_;
  std::uint64_t done_ = 0;
  std::size_t bad_lines_ = 0;
};

}  // namespace

bool cover_cases(std::vector<std::string> const& places, Tables const& tables, Coverage& coverage,
                 Session const& session) {
  auto const files = case_files(places, session.err);
  if (!files) return false;
  auto const is_lines = [](std::string const& file) { return file.ends_with(".jsonl"); };
  std::vector<std::string> yaml;
  std::copy_if(files->begin(), files->end(), std::back_inserter(yaml),
               [&](auto const& file) { return !is_lines(file); });
  auto const cases = read_cases(yaml, tables.pack(), session, Outcomes::ignored);
  if (cases) {
    Assessor assessor(tables);
    Headway headway(session.err, session.look, "assessing cases", cases->size());
    std::size_t done = 0;
    for (auto const& one : *cases) {
      headway.reach(done++);
      coverage.add(assessor.assess(one.patient));
    }
  }
  bool is_sound = cases.has_value();
  LineCases lines(tables, coverage, session);
  for (auto const& file : *files)
    if (is_lines(file)) is_sound = lines.read(file) && is_sound;
  return is_sound;
}

}  // namespace flinch::cli
