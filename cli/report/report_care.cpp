#include "report/report_care.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "flinch/explain/taken.hpp"
#include "look/html.hpp"

namespace flinch::cli {
namespace {

std::string told(std::string_view strong, std::string_view text) {
  return fmt::format("<li><strong>{}</strong>{}</li>\n", escaped(strong),
                     text.empty() ? std::string() : ": " + escaped(text));
}

class CareOnPage {
 public:
  CareOnPage(Reviewed const& reviewed, Telling const& telling, Extent extent)
      : pack_(reviewed.tables.pack()),
        result_(reviewed.result),
        is_for_keeper_(telling.reader != Reader::clinician),
        is_whole_(extent == Extent::all),
        telling_(telling),
        plan_(telling.plan) {}

  std::string write() const {
    if (pack_.care.empty()) return {};
    auto out = part("Already taken: an estimate", taken());
    if (is_for_keeper_)
      for_keeper(out);
    else
      for_clinic(out);
    return out;
  }

 private:
  // What to do at once, what not, and food and water stand above.
  void for_keeper(std::string& out) const {
    if (plan_.mouth) out += paragraph(telling_.mouth.medicines);
    out += part("You can do", by_advice(Advice::offered, false));
    if (!is_whole_) return;
    out += part(ask_first(), by_advice(Advice::ask_vet, false));
    out += waiting();
  }

  void for_clinic(std::string& out) const {
    if (plan_.mouth)
      out += paragraph(telling_.mouth.medicines + (telling_.mouth.food_and_water.empty()
                                                       ? std::string()
                                                       : " " + telling_.mouth.food_and_water));
    if (is_whole_) {
      out += part("You can do", by_advice(Advice::offered, false));
      out += part("Do not", avoided());
      out += part(ask_first(), by_advice(Advice::ask_vet, false));
      out += waiting();
      out += part("Withheld", by_advice(Advice::withheld, false));
    }
    out += part("Cross-check of what is prescribed: nothing known against it",
                by_advice(Advice::offered, true));
    out += part("Cross-check: weigh up", by_advice(Advice::ask_vet, true));
    if (!is_whole_) return;
    out += part("Cross-check: ask first", by_advice(Advice::ask_first, true));
    out += part("Cross-check: not for this " + pack_.words.one + " as it stands",
                by_advice(Advice::withheld, true));
    out += part("Ring again", watch_on_page(telling_, Extent::all));
  }

  [[nodiscard]] static std::string part(std::string_view heading, std::string const& items) {
    return items.empty() ? std::string()
                         : fmt::format("<h3>{}</h3>\n{}", escaped(heading), list(items));
  }

  [[nodiscard]] std::string taken() const {
    std::string out;
    for (auto const& exposure : result_.judgement.exposures)
      out += told(taken_text(pack_, exposure),
                  harm_text(pack_, result_, exposure) + ". " + pack_.care[exposure.care].how);
    for (auto const sign : plan_.taken_questions)
      out += told("Find out", question_words(pack_, sign));
    return out;
  }

  [[nodiscard]] std::string avoided() const {
    std::string out;
    for (auto const& warning : telling_.do_not) out += told(warning.title, warning.text);
    return telling_.may_not.empty() ? out : out + told("And", telling_.may_not);
  }

  // What is for the clinician alone is a cross-check of what was prescribed, nothing to reach for.
  // What only waits until the patient has been seen is not told one by one.
  [[nodiscard]] std::string by_advice(Advice advice, bool for_clinician) const {
    constexpr std::size_t shown_in_short = 3;
    std::size_t count = 0;
    std::string out;
    for (auto const& measure : plan_.measures) {
      auto const& care = pack_.care[measure.care];
      if (measure.advice != advice || measure.fits != Truth::yes) continue;
      if (care.for_clinician != for_clinician || merely_waits(measure)) continue;
      if (!is_whole_ && (care.first_aid || ++count > shown_in_short)) continue;
      out += told(care.title, advice == Advice::offered
                                  ? how_words(measure)
                                  : gate_words(pack_, result_, measure.gates.front()));
    }
    if (!is_whole_ && count > shown_in_short)
      out += item(fmt::format("and {} more", count - shown_in_short));
    return out;
  }

  [[nodiscard]] std::string how_words(PlannedMeasure const& measure) const {
    auto const& care = pack_.care[measure.care];
    // In short the dose alone is what is checked.
    bool const is_brief = !is_whole_ && !is_for_keeper_ && measure.dose;
    std::string text =
        is_brief ? std::string() : flinch::how_words(care, measure, telling_.seen_at);
    if (measure.dose)
      if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
        text += " " + dose_words(care, *dose) + ".";
    if (is_whole_)
      for (auto const& gate : care.stop_if) text += " Stop: " + gate.reason;
    // Grades are the trade's; a keeper reads what to do.
    return is_for_keeper_ ? text : text + " (" + grade_words(care.grade) + ")";
  }

  // What waits for answers, and for which, what most of it waits for first. A keeper is told once
  // that nothing new goes by mouth yet.
  [[nodiscard]] std::string waiting() const {
    std::set<std::size_t> waiting;
    std::string titles;
    for (auto const& measure : plan_.measures) {
      auto const& care = pack_.care[measure.care];
      if (measure.advice != Advice::ask_first || measure.fits != Truth::yes) continue;
      if (care.for_clinician) continue;
      if (is_for_keeper_ && (merely_waits(measure) || (plan_.mouth && care.by_mouth))) continue;
      waiting.insert(measure.care);
      titles += (titles.empty() ? "" : "; ") + care.title;
    }
    if (waiting.empty()) return {};
    return "<h3>Not before these questions are answered</h3>\n" + paragraph(titles + ".") +
           questions(waiting);
  }

  [[nodiscard]] std::string_view whom() const {
    return telling_.seen_at == SeenAt::home ? "vet" : "clinic";
  }
  [[nodiscard]] std::string ask_first() const { return fmt::format("Ask the {} first", whom()); }

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
                                        "some of these: ask the {}, or answer them.",
                                        count - shown, whom()))
                : std::string());
  }

  Pack const& pack_;
  Assessment const& result_;
  bool is_for_keeper_;
  bool is_whole_;
  Telling const& telling_;
  CarePlan const& plan_;
};

}  // namespace

std::string care_on_page(Reviewed const& reviewed, Telling const& telling, Extent extent) {
  return CareOnPage(reviewed, telling, extent).write();
}

std::string watch_on_page(Telling const& telling, Extent extent) {
  constexpr std::size_t shown_in_short = 4;
  auto const& all = telling.ring_again;
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (extent == Extent::all || i < shown_in_short) out += told(all[i].title, all[i].text);
  return out + told("Look again", telling.look_again);
}

}  // namespace flinch::cli
