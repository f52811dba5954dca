#include "report_care.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "care_words.hpp"
#include "flinch/explain/taken.hpp"
#include "html.hpp"

namespace flinch::cli {
namespace {

class CareOnPage {
 public:
  CareOnPage(Reviewed const& reviewed, Reader reader)
      : pack_(reviewed.tables.pack()),
        result_(reviewed.result),
        is_for_keeper_(reader == Reader::keeper),
        plan_(plan_care(reviewed.tables, result_,
                        is_for_keeper_ ? CareReader::keeper : CareReader::clinician)) {}

  std::string write() const {
    if (pack_.care.empty()) return {};
    std::string out;
    out += part("Already taken: an estimate", taken());
    if (plan_.mouth) out += paragraph(mouth_words(pack_, result_, plan_));
    out += part("You can do", by_advice(Advice::offered, false));
    out += part("Do not", avoided());
    out += part("Ask the clinic first", by_advice(Advice::ask_vet, false));
    out += part("Not before the open questions are answered", by_advice(Advice::ask_first, false));
    out += part("To be answered for these", questions());
    if (!is_for_keeper_) {
      out += part("Withheld", by_advice(Advice::withheld, false));
      out += part("Cross-check of what is prescribed: no bar known",
                  by_advice(Advice::offered, true));
      out += part("Cross-check: weigh up", by_advice(Advice::ask_vet, true));
      out += part("Cross-check: ask first", by_advice(Advice::ask_first, true));
      out += part("Cross-check: barred", by_advice(Advice::withheld, true));
    }
    if (plan_.tier != TierId{0}) {
      out += part("Ring again", watched());
      out += paragraph(fmt::format("Look again in {} at the latest, with the same questions; at once "
                                   "if anything gets worse.",
                                   time_words(plan_.look_again_s)));
    }
    return out;
  }

 private:
  [[nodiscard]] static std::string paragraph(std::string const& text) {
    return "<p>" + escaped(text) + "</p>\n";
  }

  [[nodiscard]] static std::string part(std::string_view heading, std::string const& items) {
    return items.empty() ? std::string()
                         : fmt::format("<h3>{}</h3>\n<ul>\n{}</ul>\n", escaped(heading), items);
  }

  [[nodiscard]] static std::string item(std::string const& strong, std::string const& text) {
    return fmt::format("<li><strong>{}</strong>{}</li>\n", escaped(strong),
                       text.empty() ? "" : ": " + escaped(text));
  }

  [[nodiscard]] std::string taken() const {
    std::string out;
    for (auto const& exposure : result_.exposures)
      out += item(taken_text(pack_, exposure), harm_text(pack_, result_, exposure) + ". " +
                                                   pack_.care[exposure.care].how);
    for (auto const sign : plan_.taken_questions) out += item("Find out", question_words(pack_, sign));
    return out;
  }

  [[nodiscard]] std::string avoided() const {
    std::string out;
    std::string others;
    for (auto const& measure : plan_.avoid) {
      auto const& care = pack_.care[measure.care];
      if (care.for_clinician || measure.advice == Advice::withheld) continue;
      if (measure.fits == Truth::yes)
        out += item(care.title, care.avoid);
      else
        others += (others.empty() ? "" : "; ") + care.title;
    }
    if (!others.empty())
      out += item("Nor any of these, unless you know that it does not apply", others + ".");
    return out;
  }

  [[nodiscard]] std::string questions() const {
    constexpr std::size_t shown = 8;
    std::string out;
    for (std::size_t i = 0; i < std::min(shown, plan_.questions.size()); ++i)
      out += item(question_words(pack_, plan_.questions[i].sign), "");
    return out;
  }

  [[nodiscard]] std::string watched() const {
    std::string out;
    for (auto const& measure : plan_.watch)
      if (measure.fits == Truth::yes && measure.advice != Advice::withheld)
        out += item(pack_.care[measure.care].title, pack_.care[measure.care].watch);
    return out;
  }

  // What is for the clinician alone is a cross-check of what was prescribed, nothing to reach for.
  // What only waits until the dog has been seen is not told one by one.
  [[nodiscard]] std::string by_advice(Advice advice, bool for_clinician) const {
    std::string out;
    for (auto const& measure : plan_.measures) {
      auto const& care = pack_.care[measure.care];
      if (measure.advice != advice || measure.fits != Truth::yes) continue;
      if (care.for_clinician != for_clinician || merely_waits(measure)) continue;
      out += item(care.title, advice == Advice::offered
                                  ? how_words(measure)
                                  : gate_words(pack_, result_, measure.gates.front()));
    }
    return out;
  }

  [[nodiscard]] std::string how_words(PlannedMeasure const& measure) const {
    auto const& care = pack_.care[measure.care];
    std::string text = care.how;
    if (measure.dose)
      if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
        text += " " + dose_words(care, *dose) + ".";
    for (auto const& gate : care.stop_if) text += " Stop: " + gate.reason;
    return text + " (" + grade_words(care.grade) + ")";
  }

  Pack const& pack_;
  Assessment const& result_;
  bool is_for_keeper_;
  CarePlan plan_;
};

}  // namespace

std::string care_on_page(Reviewed const& reviewed, Reader reader) {
  return CareOnPage(reviewed, reader).write();
}

}  // namespace flinch::cli
