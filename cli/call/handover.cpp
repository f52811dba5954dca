#include "call/handover.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "assess/assess_text.hpp"
#include "flinch/assess/localisation.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "flinch/telling/telling.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t causes_named = 3;
constexpr double worth_naming = 0.05;
constexpr std::size_t open_named = 8;

void join(std::string& list, std::string_view item, std::string_view between = ", ") {
  if (!list.empty()) list += between;
  list += item;
}

class Note {
 public:
  Note(Tables const& tables, Case const& dog, Assessment const& result)
      : tables_(tables),
        pack_(tables.pack()),
        dog_(dog),
        result_(result),
        told_(tell(tables, result, Reader::nurse)) {}

  std::vector<NotePart> write() {
    return {{"Situation", situation()},
            {"Background", background()},
            {"Assessment", assessment()},
            {"Recommendation", recommendation()}};
  }

 private:
  using Items = std::vector<NoteItem>;

  static void add(Items& items, std::string label, std::string text) {
    // A note is lines: where a caller's words break, they go on behind a blank.
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    if (!text.empty()) items.push_back({std::move(label), std::move(text)});
  }

  [[nodiscard]] Items situation() const {
    Items items;
    auto caller = dog_.caller;
    if (!dog_.call_back.empty()) join(caller, "call back " + dog_.call_back);
    add(items, "Caller", caller);
    add(items, "Dog", dog_words());
    bool const may_rise = result_.ceiling && result_.ceiling != result_.tier;
    add(items, "Urgency",
        title_of(pack_, result_.tier) + (may_rise ? fmt::format("; not settled, could still be: {}",
                                                                pack_[*result_.ceiling].title)
                                                  : ""));
    add(items, "Seen", seen());
    return items;
  }

  [[nodiscard]] std::string dog_words() const {
    auto out = dog_.name;
    if (auto const facts = signalment_text(pack_, result_); !facts.empty()) join(out, facts);
    return out;
  }

  static bool is_no(Answer const& answer) {
    if (auto const* yes = std::get_if<bool>(&answer)) return !*yes;
    auto const* findings = std::get_if<Findings>(&answer);
    return findings != nullptr && !findings->found_somewhere;
  }

  // What was found or measured; first that which made an alarm fire.
  [[nodiscard]] std::string seen() const {
    std::vector<SignId> signs;
    for (auto const& [sign, answer] : dog_.answers)
      if (!pack_[sign].of_the_dog && !is_no(answer)) signs.push_back(sign);
    std::stable_partition(signs.begin(), signs.end(), [&](SignId sign) { return fired(sign); });
    std::string out;
    for (auto const sign : signs) {
      auto const& answer = result_.find(sign)->answer;
      bool const is_plain_yes = answer == plain_answer(pack_[sign], true);
      auto const text = is_plain_yes ? "" : ": " + answer_text(pack_, sign, answer);
      join(out, pack_[sign].label + text, "; ");
    }
    return out;
  }

  [[nodiscard]] bool fired(SignId sign) const {
    return std::any_of(result_.alarms.begin(), result_.alarms.end(), [&](AlarmOutcome const& one) {
      if (one.truth != Truth::yes) return false;
      auto const steps = tables_.steps(tables_.alarm_root(one.alarm));
      return std::any_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
        return step.kind == Tables::Step::Kind::leaf && tables_.leaves()[step.detail].sign == sign;
      });
    });
  }

  [[nodiscard]] Items background() const {
    Items items;
    add(items, "Note", dog_.note);
    std::string no;
    for (auto const& [sign, answer] : dog_.answers)
      if (!pack_[sign].of_the_dog && is_no(answer)) {
        auto const text = answer_text(pack_, sign, answer);
        join(no, pack_[sign].label + (text == "no" || text == "nowhere" ? "" : " (" + text + ")"),
             "; ");
      }
    add(items, "Answered no", no);
    std::string untold;
    for (auto const sign : dog_.cannot_tell) join(untold, pack_[sign].label, "; ");
    add(items, "Could not be told", untold);
    add(items, "Not asked, and could raise the urgency", not_asked());
    if (items.empty()) add(items, "", "Nothing else was said.");
    return items;
  }

  [[nodiscard]] std::string not_asked() const {
    std::string out;
    std::size_t count = 0;
    for (auto const& question : open_questions(tables_, result_)) {
      if (question.could_not_tell) continue;
      if (++count <= open_named) join(out, pack_[question.sign].label, "; ");
    }
    if (count > open_named) out += fmt::format("; and {} more", count - open_named);
    return out;
  }

  [[nodiscard]] Items assessment() const {
    Items items;
    for (auto const& one : result_.alarms) {
      if (one.truth != Truth::yes) continue;
      auto const& alarm = pack_[one.alarm];
      add(items, "Alarm",
          fmt::format("{} ({}). {}", alarm.title, pack_[alarm.see].title, alarm.because));
    }
    for (auto const& exposure : result_.exposures)
      add(items, "Taken",
          fmt::format("{}; {} ({})", taken_text(pack_, exposure),
                      harm_text(pack_, result_, exposure),
                      exposure.see ? pack_[*exposure.see].title : "sets no urgency by itself"));
    for (auto const& clash : result_.contradictions)
      add(items, "Answers clash",
          fmt::format("{} against {}; the more dangerous one was counted",
                      pack_[clash.counted].label, pack_[clash.against].label));
    std::string places;
    for (auto const& found : localise(tables_, result_).found)
      join(places, site_text(pack_, found.mark));
    add(items, "Where", places);
    add(items, "May be", result_.nothing_told ? "Nothing was told to rank causes by." : may_be());
    return items;
  }

  [[nodiscard]] std::string may_be() const {
    std::string out;
    std::size_t named = 0;
    for (auto const& ranked : result_.ranking) {
      if (named == causes_named || ranked.posterior < worth_naming) break;
      ++named;
      join(out, title_of(pack_, ranked.cause), "; ");
    }
    return out.empty() ? "No cause stands out." : out + " (likeliest first; not a diagnosis)";
  }

  [[nodiscard]] Items recommendation() const {
    Items items;
    // Whether it was read out is not known.
    for (auto const& line : told_.script.lines) add(items, "For the caller", line);
    add(items, "For the caller", told_.mouth.food_and_water);
    if (!result_.nothing_told) add(items, "For the vet", next_steps());
    add(items, "Ring back",
        dog_.ring_back_at.empty() ? "no time agreed" : "at " + dog_.ring_back_at);
    return items;
  }

  [[nodiscard]] std::string next_steps() const {
    std::vector<std::string> steps;
    std::size_t named = 0;
    for (auto const& ranked : result_.ranking) {
      if (named == causes_named || ranked.posterior < worth_naming) break;
      if (!ranked.cause) continue;
      ++named;
      for (auto const& step : pack_[*ranked.cause].next)
        if (std::find(steps.begin(), steps.end(), step) == steps.end()) steps.push_back(step);
    }
    std::string out;
    for (auto const& step : steps) join(out, step, "; ");
    return out;
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& dog_;
  Assessment const& result_;
  Telling told_;
};

// One line of Markdown that holds no markup: what could be HTML is written as a reference, what
// could be markup or the beginning of a link is escaped.
std::string inert_markdown(std::string_view text) {
  auto const clean = inert(text);
  std::string out;
  for (std::size_t i = 0; i < clean.size(); ++i) {
    auto const rest = std::string_view(clean).substr(i);
    char const c = clean[i];
    if (c == '<' || c == '>' || c == '&') {
      out += c == '<' ? "&lt;" : c == '>' ? "&gt;" : "&amp;";
      continue;
    }
    bool const is_link =
        rest.starts_with("://") || (c == '.' && i >= 3 && clean.compare(i - 3, 3, "www") == 0);
    if (is_link || std::string_view("\\`*_{}[]#!|~@").find(c) != std::string_view::npos)
      out += '\\';
    out += c == '\t' ? ' ' : c;
  }
  return out;
}

}  // namespace

std::vector<NotePart> handover_note(Tables const& tables, Case const& dog,
                                    Assessment const& result) {
  return Note(tables, dog, result).write();
}

std::string note_text(std::vector<NotePart> const& note, Look const& look) {
  Page page(look);
  page.heading("HAND-OVER NOTE");
  page.blank();
  for (auto const& part : note) {
    auto title = part.title;
    std::transform(title.begin(), title.end(), title.begin(), [](char c) {
      return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    });
    page.heading(title);
    for (auto const& item : part.items)
      page.paragraph(item.label.empty() ? item.text : item.label + ": " + item.text, 2,
                     look.has_unicode ? "\u2022 " : "* ");
    page.blank();
  }
  page.paragraph(caution, 0);
  return page.take();
}

std::string note_markdown(std::vector<NotePart> const& note) {
  std::string out = "# Hand-over note\n";
  for (auto const& part : note) {
    out += fmt::format("\n## {}\n\n", part.title);
    for (auto const& item : part.items)
      out += item.label.empty()
                 ? fmt::format("- {}\n", inert_markdown(item.text))
                 : fmt::format("- **{}:** {}\n", item.label, inert_markdown(item.text));
  }
  return out + fmt::format("\n{}\n", caution);
}

}  // namespace flinch::cli
