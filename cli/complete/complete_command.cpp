// `flinch complete -- WORDS`: what the shells' scripts beside this file ask when Tab is pressed.
#include "complete/complete_command.hpp"

#include <algorithm>
#include <memory>
#include <ostream>

#include "complete/offers.hpp"
#include "files/pack_source.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

struct CompleteOptions {
  std::vector<std::string> words;  ///< after `flinch`, the unfinished one last
};

void write(Offer const& offer, std::ostream& out) {
  out << offer.word;
  if (!offer.about.empty()) out << '\t' << inert(offer.about);
  out << '\n';
}

void write_names(Offers const& offers, std::ostream& out) {
  auto const opened = open_pack(offers.pack);
  if (!opened.outcome)
    return;  // a shell has no place for a mistake; the command itself will say it
  auto const& pack = **opened.outcome.value;
  for (auto const kind : offers.names) {
    for (std::uint32_t index = 0; index < how_many(pack, kind); ++index) {
      Named const thing{kind, index};
      auto const& name = name_of(pack, thing);
      if (name.starts_with(offers.begun))
        write({offers.before_name + name, title_of(pack, thing)}, out);
    }
  }
}

// A line is a word, and after a tab what it means. A lone `/`: the shell offers what lies in
// folders.
Status complete(CompleteOptions const& options, Session const& session) {
  auto const offers = offers_at(session.commands, options.words);
  for (auto const& offer : offers.words) write(offer, session.out);
  if (!offers.names.empty()) write_names(offers, session.out);
  if (offers.paths) write({"/", ""}, session.out);
  return Status::fine;
}

CommandUse use_complete() {
  auto const options = std::make_shared<CompleteOptions>();
  return {{{"words", &options->words, "What stands after flinch", {.shown = "WORDS"}}},
          [options](Session const& session) { return complete(*options, session); }};
}

}  // namespace

Command const complete_command{"complete", "What may stand next on a command line, for shells",
                               use_complete, true};

}  // namespace flinch::cli
