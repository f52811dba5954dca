#include "report_care.hpp"

#include <fmt/format.h>

#include "care_words.hpp"
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
    if (plan_.raised_by_taken)
      out += paragraph(fmt::format("What it has taken asks for \"{}\".", pack_[*plan_.tier].title));
    if (plan_.mouth)
      out += paragraph(plan_.mouth->kind == GateKind::by_mouth_may_rise
                           ? "No medicine and no supplement yet: danger signs are still open."
                           : gate_words(pack_, result_, *plan_.mouth));
    out += part("You can do", offered(false));
    if (!is_for_keeper_) out += part("Cross-check of what is prescribed", offered(true));
    out += part("Do not", avoided());
    out += part("Ask the clinic first", by_advice(Advice::ask_vet));
    out += part("Not before the open questions are answered", by_advice(Advice::ask_first));
    if (!is_for_keeper_) out += part("Withheld", by_advice(Advice::withheld));
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

  // What is for the clinician alone is a cross-check of what was prescribed, nothing to reach for.
  [[nodiscard]] std::string offered(bool for_clinician) const {
    std::string out;
    for (auto const& measure : plan_.measures) {
      auto const& care = pack_.care[measure.care];
      if (measure.advice != Advice::offered || measure.fits != Truth::yes) continue;
      if (care.for_clinician != for_clinician) continue;
      std::string text = care.how;
      if (measure.dose)
        if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
          text += " " + dose_words(care, *dose) + ".";
      out += item(care.title, text + " (" + grade_words(care.grade) + ")");
    }
    return out;
  }

  [[nodiscard]] std::string avoided() const {
    std::string out;
    for (auto const& measure : plan_.avoid)
      if (measure.fits == Truth::yes)
        out += item(pack_.care[measure.care].title, pack_.care[measure.care].avoid);
    return out;
  }

  [[nodiscard]] std::string by_advice(Advice advice) const {
    std::string out;
    for (auto const& measure : plan_.measures) {
      if (measure.advice != advice || measure.fits != Truth::yes) continue;
      out += item(pack_.care[measure.care].title,
                  measure.gates.empty() ? "" : gate_words(pack_, result_, measure.gates.front()));
    }
    return out;
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
