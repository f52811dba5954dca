#include "report/report_where.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/assess/localisation.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "look/html.hpp"
#include "report/pictures.hpp"

namespace flinch::cli {
namespace {

bool may_be_one_side(Side one, Side other) {
  return one == Side::any || other == Side::any || one == other;
}

class WhereOnThePatient {
 public:
  explicit WhereOnThePatient(Reviewed const& reviewed)
      : pack_(reviewed.tables.pack()), result_(reviewed.result) {
    take_found(localise(reviewed.tables, result_));
    for (std::uint32_t i = 0; i < pack_.signs.size(); ++i)
      if (traits(pack_.signs[i]).has_places) add(SignId{i});
  }

  [[nodiscard]] std::string write() {
    for (auto const& one : clear_)
      if (!is_at_found(one.mark)) marks_.push_back({one.mark, 0});
    auto out = figure(patient_pictures(pack_, marks_));
    if (!found_.empty()) out += "<p>Found, by number:</p>\n" + numbered_list(found_);
    std::string facts;
    for (auto const& label : somewhere_)
      facts += item(fmt::format("{}: found, but the place was not said", label));
    for (auto const& one : clear_) facts += item(clear_in_words(one));
    if (!nowhere_.empty())
      facts += item(fmt::format("Nowhere on the {}: {}", pack_.words.one, joined(nowhere_)));
    if (!facts.empty()) out += list(facts);
    if (!unknown_.empty())
      out +=
          paragraph(fmt::format("Not looked for, so unknown and not clear: {}.", joined(unknown_)));
    if (!partly_.empty())
      out +=
          paragraph(fmt::format("Only the places named were looked at for: {}. The rest of the {} "
                                "is unknown, not clear.",
                                joined(partly_), pack_.words.one));
    return out;
  }

 private:
  struct ClearPlace {
    SiteMark mark;
    std::vector<SignId> signs;  ///< of which it is clear
    bool clashes = false;       ///< with one of them found there
  };

  void take_found(Localisation const& place) {
    for (auto const& one : place.found) {
      std::string signs;
      for (auto const sign : one.signs) signs += (signs.empty() ? "" : ", ") + pack_[sign].label;
      marks_.push_back({one.mark, marks_.size() + 1});
      auto const& mark = marks_.back();
      auto const covering = picture_covers_by(pack_, mark);
      found_ += item(fmt::format("{}: {}{}", site_text(pack_, one.mark), signs,
                                 covering ? fmt::format(" (marked at: {})", pack_[*covering].title)
                                 : picture_shows(pack_, mark) ? ""
                                                              : " (not marked on the picture)"));
    }
  }

  // Where nothing is known of what is looked for all over the patient, the rest of it is not clear;
  // that a limp was not asked about says nothing of the picture, nor does what follows from another
  // no.
  void add(SignId sign) {
    auto const& label = pack_[sign].label;
    auto const* known = result_.find(sign);
    if (known == nullptr) {
      if (asks_only_where(pack_[sign])) unknown_.push_back(label);
      return;
    }
    if (known->origin != Origin::given) return;
    auto const& findings = std::get<Findings>(known->answer);
    if (findings.found_somewhere && findings.found.empty()) somewhere_.push_back(label);
    if (findings.clear_everywhere && !findings.found_somewhere) nowhere_.push_back(label);
    if (!findings.clear_everywhere && !(findings.found.empty() && findings.clear.empty()))
      partly_.push_back(label);
    for (auto const& mark : findings.clear) take_clear(sign, mark, findings);
  }

  void take_clear(SignId sign, SiteMark const& mark, Findings const& findings) {
    auto place = std::find_if(clear_.begin(), clear_.end(),
                              [&](ClearPlace const& one) { return one.mark == mark; });
    if (place == clear_.end()) place = clear_.insert(clear_.end(), {mark, {}, false});
    place->signs.push_back(sign);
    place->clashes =
        place->clashes || std::any_of(findings.found.begin(), findings.found.end(),
                                      [&](SiteMark const& found) { return covers(mark, found); });
  }

  [[nodiscard]] bool covers(SiteMark const& outer, SiteMark const& inner) const {
    return may_be_one_side(outer.side, inner.side) && pack_.covers(outer.site, inner.site);
  }

  // A ring beside a number would read as "all clear here".
  [[nodiscard]] bool is_at_found(SiteMark const& mark) const {
    return std::any_of(marks_.begin(), marks_.end(), [&](PatientMark const& one) {
      return one.number > 0 && (covers(mark, one.mark) || covers(one.mark, mark));
    });
  }

  [[nodiscard]] std::string clear_in_words(ClearPlace const& one) const {
    std::string signs;
    for (auto const sign : one.signs) signs += (signs.empty() ? "" : ", ") + pack_[sign].label;
    return fmt::format("{}: checked and clear of \"{}\"{}{}", site_text(pack_, one.mark), signs,
                       is_at_found(one.mark)                 ? ""
                       : picture_shows(pack_, {one.mark, 0}) ? " (ring)"
                                                             : " (not marked on the picture)",
                       one.clashes ? "; that clashes with what was found there, which counts" : "");
  }

  [[nodiscard]] static std::string joined(std::vector<std::string> const& labels) {
    std::string out;
    for (auto const& label : labels) out += (out.empty() ? "" : ", ") + label;
    return out;
  }

  Pack const& pack_;
  Assessment const& result_;
  std::vector<PatientMark> marks_;
  std::string found_;
  std::vector<ClearPlace> clear_;
  std::vector<std::string> somewhere_;
  std::vector<std::string> nowhere_;
  std::vector<std::string> unknown_;
  std::vector<std::string> partly_;
};

}  // namespace

std::string where_on_the_patient(Reviewed const& reviewed) {
  return WhereOnThePatient(reviewed).write();
}

}  // namespace flinch::cli
