#include "report_care.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "care_words.hpp"
#include "html.hpp"

namespace flinch::cli {
namespace {

std::string told(std::string_view strong, std::string_view text) {
  return fmt::format("<li><strong>{}</strong>{}</li>\n", escaped(strong),
                     text.empty() ? std::string() : ": " + escaped(text));
}

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
    out += waiting();
    if (!is_for_keeper_) out += part("Withheld", by_advice(Advice::withheld));
    return out;
  }

 private:
  [[nodiscard]] static std::string part(std::string_view heading, std::string const& items) {
    return items.empty() ? std::string()
                         : fmt::format("<h3>{}</h3>\n{}", escaped(heading), list(items));
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
      // Grades are the trade's; a keeper reads what to do.
      if (!is_for_keeper_) text += " (" + grade_words(care.grade) + ")";
      out += told(care.title, text);
    }
    return out;
  }

  [[nodiscard]] std::string avoided() const {
    std::string out;
    for (auto const& measure : plan_.avoid)
      if (measure.fits == Truth::yes)
        out += told(pack_.care[measure.care].title, pack_.care[measure.care].avoid);
    return out;
  }

  [[nodiscard]] std::string by_advice(Advice advice) const {
    std::string out;
    for (auto const& measure : plan_.measures) {
      if (measure.advice != advice || measure.fits != Truth::yes) continue;
      out += told(pack_.care[measure.care].title,
                  measure.gates.empty() ? "" : gate_words(pack_, result_, measure.gates.front()));
    }
    return out;
  }

  // What waits for answers, and for which, what most of it waits for first. A keeper is told once
  // that nothing new goes by mouth yet.
  [[nodiscard]] std::string waiting() const {
    std::set<std::size_t> waiting;
    std::string titles;
    std::string cross_checks;
    for (auto const& measure : plan_.measures) {
      auto const& care = pack_.care[measure.care];
      if (measure.advice != Advice::ask_first || measure.fits != Truth::yes) continue;
      if (is_for_keeper_ && (care.for_clinician || (plan_.mouth && care.by_mouth))) continue;
      waiting.insert(measure.care);
      auto& list = care.for_clinician ? cross_checks : titles;
      list += (list.empty() ? "" : "; ") + care.title;
    }
    if (waiting.empty()) return {};
    auto out = std::string("<h3>Not before these questions are answered</h3>\n");
    if (!titles.empty()) out += paragraph(titles + ".");
    if (!cross_checks.empty()) out += paragraph(cross_checks + ".");
    return out + questions(waiting);
  }

  [[nodiscard]] std::string questions(std::set<std::size_t> const& waiting) const {
    constexpr std::size_t shown = 8;
    std::size_t count = 0;
    std::string items;
    for (auto const& question : plan_.questions) {
      if (std::none_of(question.waiting.begin(), question.waiting.end(),
                       [&](std::size_t care) { return waiting.contains(care); }))
        continue;
      if (++count <= shown) items += item(question_words(pack_, question.sign));
    }
    return list(items) +
           (count > shown
                ? paragraph(fmt::format("... and {} more questions, each of which holds back "
                                        "some of these: ask the clinic, or answer them.",
                                        count - shown))
                : std::string());
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

std::string watch_on_page(Reviewed const& reviewed) {
  auto const& pack = reviewed.tables.pack();
  auto const plan = plan_care(reviewed.tables, reviewed.result, CareReader::keeper);
  std::string out;
  for (auto const& one : plan.watch)
    if (one.fits == Truth::yes) out += told(pack.care[one.care].title, pack.care[one.care].watch);
  if (plan.tier == TierId{0})
    return out + told("Look", "all the time, until it is seen; do not wait for a change.");
  return out + told("Look again", fmt::format("in {} at the latest, and answer the same questions.",
                                              time_words(plan.look_again_s)));
}

}  // namespace flinch::cli
