// `flinch batch [FILE]`
#include "batch/batch_command.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <memory>
#include <thread>

#include "batch/batch_input.hpp"
#include "batch/batch_line.hpp"
#include "batch/batch_output.hpp"
#include "batch/ordered_pool.hpp"
#include "files/pack_source.hpp"
#include "flinch/text/display.hpp"
#include "look/headway.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct BatchOptions {
  std::string input;  ///< JSON lines; empty or `-` is standard input
  std::string pack;
  std::string output;       ///< a file that appears when it is whole; empty: standard output
  std::size_t causes = 5;   ///< how many causes a line names
  std::size_t threads = 0;  ///< 0: one a core
  bool resume = false;      ///< go on with an output that was not finished
};

// After so much input the progress is kept: what a killed run has to do again, at most.
constexpr std::uint64_t keep_every_bytes = std::uint64_t{4} << 20U;
constexpr std::size_t kept_tail_bytes = 4096;

BlockResult answer_block(LineAssessor& assessor, Block const& block) {
  BlockResult result;
  if (block.too_long > 0) {
    LineAssessor::refuse(block.first_line, block.too_long, result.out);
    result.lines = result.bad = 1;
    return result;
  }
  result.out.reserve(2 * block.bytes.size());
  auto number = block.first_line;
  std::string_view rest = block.bytes;
  while (!rest.empty()) {
    auto const end = std::min(rest.find('\n'), rest.size());
    auto const line = assessor.assess(number++, rest.substr(0, end), result.out);
    result.lines += line == Line::blank ? 0 : 1;
    result.bad += line == Line::bad ? 1 : 0;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return result;
}

// What shapes the output besides the input: another pack would give other lines.
std::uint64_t settings(BatchOptions const& options, SourceSet const& sources) {
  auto out = fingerprint(fmt::format("causes {}", options.causes));
  for (std::size_t i = 0; i < sources.size(); ++i)
    out = fingerprint(sources[FileId{static_cast<std::uint32_t>(i)}].text(), out);
  return out;
}

class Batch {
 public:
  Batch(BatchOptions const& options, Session const& session)
      : options_(options), session_(session) {}

  Status run() {
    if (options_.resume && options_.output.empty())
      return refuse("--resume goes on with a file: name it with -o");
    auto opened = open_sound_pack(options_.pack, session_.err);
    if (!opened) return Status::bad;
    if (auto const why = input_.open(options_.input)) return refuse(*why);
    auto const wanted = settings(options_, opened->sources);
    if (!options_.output.empty()) {
      output_.emplace(options_.output);
      if (auto const why = output_->open(options_.resume)) return refuse(*why);
      if (auto const why = go_on_from(output_->begun(), wanted)) return refuse(*why);
    }
    so_far_.settings = wanted;
    Tables const tables(opened->pack);
    return answer(tables);
  }

 private:
  Status refuse(std::string_view why) {
    session_.err << fmt::format("flinch batch: {}\n", inert(why));
    return Status::bad;
  }

  std::optional<std::string> go_on_from(Progress const& begun, std::uint64_t wanted) {
    if (begun.input_bytes == 0) return std::nullopt;
    if (begun.settings != wanted)
      return "begun with another pack or another --causes; run without --resume";
    so_far_ = begun;
    kept_at_ = begun.input_bytes;
    return input_.skip(begun);
  }

  Status answer(Tables const& tables) {
    LineBlocks blocks(input_.descriptor(), CaseLineReader::longest_line, so_far_.input_bytes,
                      so_far_.next_line);
    PoolWork work;
    work.read = [&](std::atomic<bool> const& stop) { return blocks.next(stop); };
    work.make_worker = [&] {
      return [assessor = std::make_shared<LineAssessor>(tables, options_.causes)](
                 Block const& block) { return answer_block(*assessor, block); };
    };
    // Where the answers themselves run over the terminal, they show how far it is.
    auto look = session_.look;
    look.err_is_terminal = look.err_is_terminal && (output_ || !look.out_is_terminal);
    Headway headway(session_.err, look, "lines answered");
    auto const bytes = input_.size();
    work.write = [&](Block const& block, BlockResult const& result) {
      trouble_ = write(block, result);
      headway.reach(so_far_.lines, bytes ? std::optional(static_cast<double>(block.end) /
                                                         static_cast<double>(*bytes))
                                         : std::nullopt);
      return !trouble_;
    };
    auto const cores = std::max(1U, std::thread::hardware_concurrency());
    bool const is_written = run_ordered(work, options_.threads > 0 ? options_.threads : cores);
    headway.hide();
    if (!is_written) return refuse(*trouble_);
    if (blocks.trouble() != 0)
      return refuse(fmt::format("{}: {}", input_.name(), std::strerror(blocks.trouble())));
    if (output_)
      if (auto const why = output_->finish()) return refuse(*why);
    if (so_far_.bad == 0) return Status::fine;
    session_.err << fmt::format(
        "flinch batch: {} of {} lines could not be read; each says why in the output\n",
        so_far_.bad, so_far_.lines);
    return Status::no;
  }

  std::optional<std::string> write(Block const& block, BlockResult const& result) {
    so_far_.lines += result.lines;
    so_far_.bad += result.bad;
    if (!output_) {
      session_.out.write(result.out.data(), static_cast<std::streamsize>(result.out.size()));
      session_.out.flush();
      return session_.out ? std::nullopt : std::optional<std::string>("cannot write the output");
    }
    if (auto const why = output_->write(result.out)) return why;
    so_far_.input_bytes = block.end;
    so_far_.output_bytes += result.out.size();
    if (block.end - kept_at_ < keep_every_bytes) return std::nullopt;
    kept_at_ = block.end;
    auto const tail =
        std::string_view(block.bytes)
            .substr(block.bytes.size() - std::min(block.bytes.size(), kept_tail_bytes));
    so_far_.tail_bytes = tail.size();
    so_far_.tail = fingerprint(tail);
    so_far_.next_line = block.first_line +
                        (block.too_long > 0 ? 1
                                            : static_cast<std::uint64_t>(std::count(
                                                  block.bytes.begin(), block.bytes.end(), '\n')));
    return output_->keep(so_far_);
  }

  BatchOptions const& options_;
  Session const& session_;
  InputFile input_;
  std::optional<OutputFile> output_;
  Progress so_far_;
  std::uint64_t kept_at_ = 0;
  std::optional<std::string> trouble_;
};

Status batch(BatchOptions const& options, Session const& session) {
  return Batch(options, session).run();
}

CommandUse use_batch() {
  auto const options = std::make_shared<BatchOptions>();
  return {
      {{"input",
        &options->input,
        "JSON lines (standard input otherwise)",
        {.shown = "FILE", .is_path = true}},
       pack_option(options->pack),
       {"--causes",
        &options->causes,
        "How many causes a line names",
        {.shown = "N", .range = std::pair{0, 1000}}},
       {"--threads",
        &options->threads,
        "How many threads (one a core otherwise)",
        {.shown = "N", .range = std::pair{1, 256}}},
       {"-o,--output",
        &options->output,
        "Write to this file, which appears when it is whole",
        {.shown = "FILE", .is_path = true, .refusal = unnamed_file}},
       {"--resume", &options->resume, "Go on where an earlier run with the same -o was stopped"}},
      [options](Session const& session) { return batch(*options, session); },
      {{"flinch batch morning.jsonl -o answers.jsonl", "A line for each line"},
       {"flinch batch morning.jsonl -o answers.jsonl --resume", "Go on where it was stopped"}}};
}

}  // namespace

Command const batch_command{
    "batch", "Many cases: JSON lines in, JSON lines out, in order (docs/batch.md)", use_batch};

}  // namespace flinch::cli
