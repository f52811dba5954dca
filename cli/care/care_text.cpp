#include "care/care_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

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
  CareText(Tables const& tables, Case const& patient, std::string_view assess_command,
           Assessment const& result, Telling const& told, Look const& look)
      : pack_(tables.pack()),
        patient_(patient),
        assess_command_(assess_command),
        result_(result),
        told_(told),
        plan_(told.plan),
        page_(look) {}

  std::string write() {
    CarePage const on{pack_, result_, told_, assess_command_, page_};
    who();
    how_soon();
    script();
    write_swallowed_already(on);
    write_mouth(on);
    write_for_clinician(on);
    write_not_to_do(on);
    write_to_do(on);
    have_ready();
    write_ask_first(on);
    write_advised(on, Advice::ask_vet, "ASK THE VET FIRST");
    write_advised(on, Advice::withheld, "WITHHELD");
    write_ring_again(on);
    look_again();
    page_.paragraph(caution, 0);
    return page_.take();
  }

 private:
  [[nodiscard]] Care const& care(std::size_t i) const { return pack_.care[i]; }
  [[nodiscard]] bool is_keeper() const { return plan_.reader == Reader::keeper; }
  [[nodiscard]] bool is_top() const { return plan_.tier == TierId{0}; }
  [[nodiscard]] bool is_clinician() const { return plan_.reader == Reader::clinician; }

  void who() {
    page_.heading(patient_.name.empty() ? capitalised(with_article(pack_.words.one))
                                        : patient_.name);
    auto const* weight = result_.find(patient_sign::weight);
    page_.paragraph(fmt::format("Until seen, for the {}. {}.",
                                is_keeper()      ? "keeper"
                                : is_clinician() ? "clinician"
                                                 : "nurse",
                                weight == nullptr
                                    ? "Weight not known"
                                    : answer_text(pack_, patient_sign::weight, weight->answer)));
    if (plan_.weight_doubt)
      page_.paragraph(doubt_words(pack_, *plan_.weight_doubt) +
                      ". Weigh again; no amount by weight is told until it is confirmed (in the "
                      "case: weight_confirmed, and the same weight).");
    page_.blank();
  }

  void how_soon() {
    page_.heading("HOW SOON");
    write_tier(pack_, told_.urgency, "", page_);
    write_reasons(told_.urgency, Wording::in_brief, Causes::named, page_);
    if (told_.urgency.could_be) {
      auto text = fmt::format("Could be up to \"{}\"", pack_[*told_.urgency.could_be].title);
      if (!assess_command_.empty()) text += fmt::format(": for what is open, {}", assess_command_);
      page_.paragraph(text);
    }
    page_.blank();
  }

  void script() {
    if (told_.script.lines.empty() || is_clinician()) return;
    page_.heading(!is_keeper() ? "SAY TO THE CALLER, IN THIS ORDER"
                  : !is_top()  ? "FIRST, IN THIS ORDER"
                  : told_.seen_at == SeenAt::home
                      ? "UNTIL THE VET IS THERE, IN THIS ORDER"
                      : "BEFORE YOU LEAVE AND ON THE WAY, IN THIS ORDER");
    write_script(told_, page_);
    page_.blank();
  }

  // What the vet asks the nurse for first, and what only waits for the vet's word.
  void have_ready() {
    if (plan_.reader != Reader::nurse) return;
    page_.heading("HAVE READY FOR THE VET");
    page_.paragraph(
        result_.find(patient_sign::weight) == nullptr || plan_.weight_doubt
            ? "Weight (weigh it), vital signs such as pulse, breaths a minute, temperature."
            : "Vital signs such as pulse, breaths a minute, temperature.",
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
      page_.paragraph("The vet may ask for, drawn up only when the vet says so: " + asked_for + ".",
                      2, page_.bullet());
    page_.blank();
  }

  void look_again() {
    page_.heading("LOOK AGAIN");
    page_.paragraph(told_.look_again);
    page_.blank();
  }

  Pack const& pack_;
  Case const& patient_;
  std::string_view assess_command_;
  Assessment const& result_;
  Telling const& told_;
  CarePlan const& plan_;
  Page page_;
};

}  // namespace

std::string care_text(Tables const& tables, Case const& patient, std::string_view assess_command,
                      Assessment const& result, Telling const& told, Look const& look) {
  return CareText(tables, patient, assess_command, result, told, look).write();
}

}  // namespace flinch::cli
