#include "care/care_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "care/care_words.hpp"
#include "care/clinician_text.hpp"
#include "care/meanwhile_text.hpp"
#include "care/swallowed_text.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"
#include "look/urgency_text.hpp"

namespace flinch::cli {
namespace {

class CareText {
 public:
  CareText(Tables const& tables, Case const& dog, std::string_view file, Assessment const& result,
           CarePlan const& plan, Look const& look)
      : pack_(tables.pack()), dog_(dog), file_(file), result_(result), plan_(plan), page_(look) {}

  std::string write() {
    CarePage const on{pack_, result_, plan_, file_, page_};
    who();
    how_soon();
    in_five_lines();
    write_swallowed_already(on);
    write_mouth(on);
    write_for_clinician(on);
    write_not_to_do(on);
    write_to_do(on, further_);
    have_ready();
    write_ask_first(on);
    write_advised(on, Advice::ask_vet, "ASK THE VET FIRST");
    write_advised(on, Advice::withheld, "WITHHELD");
    write_ring_again(on);
    look_again();
    caution();
    return page_.take();
  }

 private:
  [[nodiscard]] Care const& care(std::size_t i) const { return pack_.care[i]; }
  [[nodiscard]] bool is_keeper() const { return plan_.audience == CareReader::keeper; }
  [[nodiscard]] bool is_top() const { return plan_.tier == TierId{0}; }
  [[nodiscard]] bool is_clinician() const { return plan_.audience == CareReader::clinician; }

  void who() {
    page_.heading(dog_.name.empty() ? "A dog" : dog_.name);
    auto const* weight = result_.find(dog_sign::weight);
    page_.paragraph(fmt::format("Until seen, for the {}. {}.",
                                is_keeper()      ? "keeper"
                                : is_clinician() ? "clinician"
                                                 : "nurse",
                                weight == nullptr
                                    ? "Weight not known"
                                    : answer_text(pack_, dog_sign::weight, weight->answer)));
    page_.blank();
  }

  void how_soon() {
    page_.heading("HOW SOON");
    auto const tiers = pack_.tiers.size();
    if (!plan_.tier) {
      page_.line("  " + page_.marks(0, tiers) + "  " +
                 page_.strong(" Nothing told that says how soon "));
      page_.paragraph("Ring the clinic if in doubt. Unknown is not no.");
      page_.blank();
      return;
    }
    auto const& tier = pack_[*plan_.tier];
    page_.line(fmt::format("  {}  {}", page_.marks(tiers - index(*plan_.tier), tiers),
                           page_.strong(" " + inert(tier.title) + " ")));
    page_.paragraph(tier.say);
    for (auto const& exposure : result_.judgement.exposures)
      if (exposure.see == plan_.tier)
        page_.paragraph(fmt::format("{}; {}.", taken_text(pack_, exposure),
                                    harm_text(pack_, result_, exposure)),
                        2, page_.bullet());
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (outcome.truth != Truth::yes) continue;
      bool const is_told = alarm.see == *plan_.tier && !has_script();
      page_.paragraph(alarm.title + ". " + (is_told ? alarm.say : std::string()), 2,
                      page_.bullet());
    }
    if (result_.judgement.ceiling &&
        (!result_.judgement.tier || *result_.judgement.ceiling < *plan_.tier))
      page_.paragraph(fmt::format("Could be up to \"{}\": for what is open, flinch assess {}",
                                  pack_[*result_.judgement.ceiling].title, inert(file_)));
    page_.blank();
  }

  // What is to be done at once is told once, in one order.
  [[nodiscard]] bool has_script() const { return is_keeper() && plan_.is_seen_today; }

  [[nodiscard]] std::vector<std::string> first_aid_titles(bool is_of_this_dog) const {
    std::vector<std::string> out;
    for (auto const& measure : plan_.measures) {
      auto const& what = care(measure.care);
      if (what.first_aid && !what.for_clinician && measure.advice == Advice::offered &&
          measure.fits == Truth::yes && what.fit_if.has_value() == is_of_this_dog)
        out.push_back(what.title + ".");
    }
    return out;
  }

  // A frightened keeper reads five lines: what helps this dog first, in the order of the pack (air,
  // bleeding, cooling, back and neck, carrying, packet), then what its alarms add.
  void in_five_lines() {
    if (!has_script()) return;
    constexpr std::size_t shown = 5;
    auto lines = first_aid_titles(true);
    auto const titles = lines.size();  // told in full below
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (outcome.truth == Truth::yes && alarm.see == *plan_.tier && !alarm.say.empty())
        lines.push_back(alarm.say);
    }
    for (auto i = std::max(shown, titles); i < lines.size(); ++i) further_.push_back(lines[i]);
    for (auto& title : first_aid_titles(false)) lines.push_back(std::move(title));
    if (lines.empty()) return;
    page_.heading(is_top() ? "BEFORE YOU LEAVE AND ON THE WAY, IN THIS ORDER"
                           : "FIRST, IN THIS ORDER");
    for (std::size_t i = 0; i < std::min(shown, lines.size()); ++i)
      page_.paragraph(lines[i], 2, fmt::format("{}. ", i + 1));
    page_.blank();
  }

  // What the vet asks the nurse for first, and what only waits for the vet's word.
  void have_ready() {
    if (plan_.audience != CareReader::nurse) return;
    page_.heading("HAVE READY FOR THE VET");
    page_.paragraph(
        result_.find(dog_sign::weight) == nullptr
            ? "Weight (weigh it), pulse, refill time, gums, breaths a minute, temperature."
            : "Pulse, refill time, gums, breaths a minute, temperature.",
        2, page_.bullet());
    page_.paragraph("All medicines with name, strength and last dose; last food and water.", 2,
                    page_.bullet());
    std::string cleared;
    for (auto const& measure : plan_.measures)
      if (measure.advice == Advice::ask_vet && measure.fits == Truth::yes)
        cleared += (cleared.empty() ? "" : "; ") + care(measure.care).title;
    if (!cleared.empty())
      page_.paragraph("For the vet to clear: " + cleared + ".", 2, page_.bullet());
    std::string asked_for;
    for (auto const i : plan_.vet_may_ask_for)
      asked_for += (asked_for.empty() ? "" : "; ") + pack_.care[i].title;
    if (!asked_for.empty())
      page_.paragraph("The vet may ask for, drawn up only at a word: " + asked_for + ".", 2,
                      page_.bullet());
    page_.blank();
  }

  void look_again() {
    page_.heading("LOOK AGAIN");
    page_.paragraph(is_top()
                        ? "All the time, until it is seen; do not wait for a change."
                        : fmt::format("In {} at the latest, with the same questions; at once if "
                                      "anything gets worse.",
                                      time_words(plan_.look_again_s)));
    page_.blank();
  }

  void caution() {
    page_.paragraph(
        "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and "
        "local rules decide. Give no human painkillers. If the dog gets worse, ring again at once.",
        0);
  }

  Pack const& pack_;
  Case const& dog_;
  std::string_view file_;
  Assessment const& result_;
  CarePlan const& plan_;
  Page page_;
  std::vector<std::string> further_;  ///< what alarms say and the first five lines had no room for
};

}  // namespace

std::string care_text(Tables const& tables, Case const& dog, std::string_view file,
                      Assessment const& result, CarePlan const& plan, Look const& look) {
  return CareText(tables, dog, file, result, plan, look).write();
}

void write_care_summary(Pack const& pack, CarePlan const& plan, Page& page) {
  constexpr std::size_t shown = 3;
  bool const is_top = plan.tier == TierId{0};
  std::size_t offered = 0;
  std::string titles;
  for (auto const& measure : plan.measures) {
    if (measure.advice != Advice::offered || measure.fits != Truth::yes) continue;
    auto const& care = pack.care[measure.care];
    bool const is_told = is_top && care.first_aid;  // in full, below
    if (care.for_clinician || is_told || ++offered > shown) continue;
    titles += (titles.empty() ? "" : "; ") + pack.care[measure.care].title;
  }
  if (pack.care.empty()) return;
  page.heading("UNTIL SEEN");
  if (plan.mouth)
    page.paragraph(plan.mouth->kind == GateKind::by_mouth_may_rise
                       ? "No medicine and no supplement yet: danger signs are open."
                   : plan.fast ? pack.care[plan.avoid[*plan.fast].care].avoid
                               : "No medicine and no supplement until more is known.",
                   2, page.bullet());
  if (!titles.empty()) page.paragraph(titles + ".", 2, page.bullet());
  if (is_top)
    write_first_aid(pack, plan, Wording::in_full, page);
  else
    page.paragraph(fmt::format("Look again in {} at the latest; at once if anything gets worse.",
                               time_words(plan.look_again_s)),
                   2, page.bullet());
  page.paragraph("What to do, what not, and when to ring again: flinch care CASE", 2,
                 page.bullet());
  page.blank();
}

}  // namespace flinch::cli
