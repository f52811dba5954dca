// The visits of a patient side by side: urgency, pain, weight and the signs that it came for.
#include <fmt/format.h>

#include <algorithm>

#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "flinch/text/display.hpp"
#include "look/html.hpp"
#include "report/pictures.hpp"

namespace flinch::cli {
namespace {

constexpr double first_visit_x = 118;  // the names of the rows stand before it
constexpr double apart = 52;           // two visits
constexpr double row_height = 22;
constexpr std::size_t visits_shown = 8;
constexpr std::size_t signs_shown = 8;

Answer const* answer_at_visit(Case const& patient, SignId sign) {
  for (auto const& [answered, answer] : patient.answers)
    if (answered == sign) return &answer;
  return nullptr;
}

double x_of(std::size_t visit) { return first_visit_x + apart * static_cast<double>(visit); }

// What a column has room for.
std::string fitted_in(std::string text) {
  constexpr std::size_t columns = 9;
  text = inert(text);
  if (display_width(text) <= columns) return text;
  while (display_width(text) > columns - 1) text.resize(whole_character(text, text.size() - 1));
  return text + "\u2026";
}

std::string row_name(std::string_view name, double y) {
  auto text = inert(name);
  constexpr std::size_t columns = 18;
  if (display_width(text) > columns) {
    while (display_width(text) > columns - 1) text.resize(whole_character(text, text.size() - 1));
    text += "\u2026";
  }
  return fmt::format("<text class=\"tick\" x=\"0\" y=\"{:.0f}\">{}</text>\n", y + 4, escaped(text));
}

// As many full squares as the tier has marks; none where none was told.
std::string urgency_marks(Pack const& pack, std::vector<Visit> const& visits, double y) {
  std::string out = row_name("urgency", y);
  auto const all = pack.tiers.size();
  for (std::size_t i = 0; i < visits.size(); ++i)
    for (std::size_t mark = 0; mark < all; ++mark) {
      bool const is_full = visits[i].tier && mark < all - index(*visits[i].tier);
      out += fmt::format(
          "<rect class=\"{}\" x=\"{:.0f}\" y=\"{:.0f}\" width=\"6\" height=\"8\"/>\n",
          is_full ? "full" : "track", x_of(i) - 20 + 9 * static_cast<double>(mark), y - 4);
    }
  return out;
}

// Full: there; hollow: not there; nothing: not told.
std::string sign_dots(Pack const& pack, std::vector<Visit> const& visits, SignId sign, double y) {
  auto out = row_name(pack[sign].label, y);
  for (std::size_t i = 0; i < visits.size(); ++i) {
    auto const* answer = answer_at_visit(visits[i].patient, sign);
    if (answer == nullptr) continue;
    out += fmt::format("<circle class=\"{}\" cx=\"{:.0f}\" cy=\"{:.0f}\" r=\"4\"/>\n",
                       is_there(*answer) ? "full" : "hollow", x_of(i), y);
  }
  return out;
}

std::string told_in_words(Pack const& pack, std::vector<Visit> const& visits, SignId sign,
                          std::string_view name, double y) {
  auto out = row_name(name, y);
  bool is_told = false;
  for (std::size_t i = 0; i < visits.size(); ++i)
    if (auto const* answer = answer_at_visit(visits[i].patient, sign)) {
      is_told = true;
      out += fmt::format("<text class=\"middle tick\" x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n",
                         x_of(i), y + 4, escaped(fitted_in(answer_text(pack, sign, *answer))));
    }
  return is_told ? out : "";
}

// The signs that one of them came for, or had where that is not known, in the order of the pack.
std::vector<SignId> signs_of(Pack const& pack, std::vector<Visit> const& visits) {
  std::vector<SignId> out;
  for (auto const& visit : visits)
    for (auto const sign : visit.patient.came_for) out.push_back(sign);
  for (auto const& visit : visits)
    if (visit.patient.came_for.empty())
      for (auto const& [sign, answer] : visit.patient.answers)
        if (!pack[sign].of_the_patient && says_yes(answer)) out.push_back(sign);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  if (out.size() > signs_shown) out.resize(signs_shown);
  return out;
}

}  // namespace

std::string visits_picture(Pack const& pack, std::vector<Visit> const& all) {
  auto const from = all.size() > visits_shown ? all.size() - visits_shown : 0;
  std::vector<Visit> const visits(all.begin() + static_cast<std::ptrdiff_t>(from), all.end());
  std::string body;
  std::string description;
  double y = 14;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    auto const day = clock_text(visits[i].begun).substr(0, 10);
    body += fmt::format("<text class=\"middle tick\" x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n",
                        x_of(i), y, day.substr(2));
    description += fmt::format("{}{}: {}", i == 0 ? "" : "; ", day, title_of(pack, visits[i].tier));
  }
  y += row_height;
  body += urgency_marks(pack, visits, y);
  auto const pain = pack.pain_sign();
  for (auto const& [sign, name] :
       {std::pair{pain, "pain, as told"}, {std::optional(patient_sign::weight), "weight"}})
    if (sign)
      if (auto const words = told_in_words(pack, visits, *sign, name, y + row_height);
          !words.empty()) {
        y += row_height;
        body += words;
      }
  for (auto const sign : signs_of(pack, visits))
    if (sign != pain) body += sign_dots(pack, visits, sign, y += row_height);
  return fmt::format(
             "<svg viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-labelledby=\"visits-title "
             "visits-desc\">\n<title id=\"visits-title\">The visits over time</title>\n"
             "<desc id=\"visits-desc\">{}. A full dot: the sign was there; a hollow one: it was "
             "not; none: nobody told.</desc>\n",
             x_of(std::max<std::size_t>(visits.size(), 3)) - 20, y + row_height,
             escaped(description)) +
         body + "</svg>\n";
}

}  // namespace flinch::cli
