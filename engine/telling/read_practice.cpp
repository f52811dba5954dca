// The file in which a practice says who it is.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/telling/practice.hpp"
#include "flinch/text/nearest.hpp"
#include "flinch/yaml/document.hpp"

namespace flinch {
namespace {

using yaml::Node;

constexpr std::array<std::string_view, 7> day_names = {"sunday",   "monday", "tuesday", "wednesday",
                                                       "thursday", "friday", "saturday"};
constexpr std::array<std::string_view, 8> keys = {
    "name", "telephone", "address", "hours", "out of hours", "initials", "seen at", "home visits"};
constexpr std::size_t longest_text = 200;

std::string_view trimmed(std::string_view text) {
  auto const begin = std::min(text.find_first_not_of(' '), text.size());
  auto const end = text.find_last_not_of(' ');
  return end == std::string_view::npos ? std::string_view() : text.substr(begin, end + 1 - begin);
}

// Cut at each `by`; one piece at least.
std::vector<std::string_view> pieces(std::string_view text, std::string_view by) {
  std::vector<std::string_view> out;
  for (;;) {
    auto const at = text.find(by);
    out.push_back(trimmed(text.substr(0, at)));
    if (at == std::string_view::npos) return out;
    text.remove_prefix(at + by.size());
  }
}

std::optional<int> minute_of_day(std::string_view text) {
  auto const number = [](std::string_view digits) -> std::optional<int> {
    int value = 0;
    auto const* const end = digits.data() + digits.size();
    auto const [read_to, error] = std::from_chars(digits.data(), end, value);
    bool const is_whole = !digits.empty() && error == std::errc{} && read_to == end && value >= 0;
    return is_whole ? std::optional(value) : std::nullopt;
  };
  auto const colon = text.find(':');
  auto const hour = number(text.substr(0, colon));
  auto const minute = colon == std::string_view::npos ? 0 : number(text.substr(colon + 1));
  if (!hour || !minute || *minute > 59 || *hour > 24 || (*hour == 24 && *minute > 0))
    return std::nullopt;
  return *hour * 60 + *minute;
}

class PracticeReader {
 public:
  explicit PracticeReader(Report& report) : report_(report) {}

  std::optional<Practice> read(Node const& root) {
    if (root.kind != Node::Kind::map) {
      refuse(root.at, "a practice is told as `name: ...`, `telephone: ...`, one a line");
      return std::nullopt;
    }
    for (auto const& [key, at, value] : root.members) {
      if (key == "hours")
        practice_.hours = hours(key, value);
      else if (key == "home visits")
        home_visits(at, value);
      else if (key == "seen at")
        seen_at(value);
      else if (auto* text = text_called(key))
        *text = text_of(key, value);
      else
        unknown(key, at);
    }
    // What is there under a misspelt key is not missing as well.
    for (auto const* needed : {"name", "telephone"})
      if (text_called(needed)->empty() &&
          std::find(misspelt_.begin(), misspelt_.end(), needed) == misspelt_.end())
        refuse(root.at, fmt::format("a practice needs its {}: add `{}: ...`", needed, needed));
    if (visits_at_ && practice_.seen_at)
      refuse(
          *visits_at_,
          "`home visits` says by the hour what `seen at` says for all of them: a practice has one "
          "of the two");
    return is_sound_ ? std::optional(std::move(practice_)) : std::nullopt;
  }

 private:
  void refuse(Place at, std::string message) {
    report_.error(Code::practice_file, at, std::move(message));
    is_sound_ = false;
  }

  void unknown(std::string const& key, Place at) {
    auto const near = nearest(key, std::vector<std::string_view>(keys.begin(), keys.end()));
    if (near) misspelt_.emplace_back(*near);
    refuse(at, fmt::format(
                   "unknown key `{}`; {}", key,
                   near ? fmt::format("did you mean `{}`?", *near)
                        : std::string("there are `name`, `telephone`, `address`, `hours`, "
                                      "`out of hours`, `initials`, `seen at` and `home visits`")));
  }

  std::string* text_called(std::string_view key) {
    if (key == "name") return &practice_.name;
    if (key == "telephone") return &practice_.telephone;
    if (key == "address") return &practice_.address;
    if (key == "out of hours") return &practice_.out_of_hours;
    if (key == "initials") return &practice_.initials;
    return nullptr;
  }

  std::string text_of(std::string_view key, Node const& value) {
    bool const is_text = value.kind == Node::Kind::scalar && !value.scalar.empty() &&
                         value.scalar.size() <= longest_text;
    if (is_text) return value.scalar;
    refuse(value.at, fmt::format("`{}` is a text of at most {} bytes", key, longest_text));
    return "?";
  }

  void seen_at(Node const& node) {
    using syntax::seen_at_words;
    auto const* const word = std::find(seen_at_words.begin(), seen_at_words.end(), node.scalar);
    if (node.kind != Node::Kind::scalar || word == seen_at_words.end())
      return refuse(node.at,
                    "`seen at` is `home` where the vet comes to the patient, or `clinic` where the "
                    "patient is brought");
    practice_.seen_at = static_cast<SeenAt>(word - seen_at_words.begin());
  }

  // Home by these hours and brought at all others: a `seen at` beside them would say it again, or
  // otherwise.
  void home_visits(Place at, Node const& node) {
    practice_.home_visits = hours("home visits", node);
    visits_at_ = at;
  }

  WeekHours hours(std::string_view list, Node const& node) {
    WeekHours week;
    if (node.kind != Node::Kind::map) {
      refuse(node.at,
             fmt::format("`{}` is a list of days, as in `monday to friday: 8:30 to 18:00`", list));
      return week;
    }
    std::vector<std::size_t> named;
    for (auto const& [key, at, value] : node.members) {
      auto const on = days(key, at);
      auto const open = value.kind == Node::Kind::scalar ? times(value.scalar) : std::nullopt;
      if (value.kind == Node::Kind::scalar && past_midnight(value.scalar))
        refuse(value.at,
               fmt::format("`{}` goes past midnight: write the evening up to `24:00` here, and the "
                           "rest from `0:00` at the next day",
                           value.scalar));
      else if (!open)
        refuse(value.at,
               "hours are written as `8:30 to 18:00`, `8:00 to 12:00, 14:00 to 18:00` or `closed`");
      else if (overlap(*open))
        refuse(value.at,
               fmt::format("`{}`: each time of a day begins after the one before has ended",
                           value.scalar));
      else
        for (auto const day : on) {
          if (std::find(named.begin(), named.end(), day) != named.end())
            refuse(at, fmt::format("{} stands here a second time: name each day once, two times of "
                                   "a day as in `8:00 to 12:00, 14:00 to 18:00`",
                                   day_names.at(day)));
          named.push_back(day);
          week.at(day) = *open;
        }
    }
    return week;
  }

  // "8:30 to 12:00, 11:00 to 18:00": a slip, and nobody knows of which figure.
  static bool overlap(std::vector<OpenHours> const& day) {
    for (std::size_t i = 1; i < day.size(); ++i)
      if (day[i].from <= day[i - 1].to) return true;
    return false;
  }

  // "18:00 to 2:00"
  static bool past_midnight(std::string_view text) {
    for (auto const piece : pieces(text, ",")) {
      auto const ends = pieces(piece, " to ");
      if (ends.size() != 2) return false;
      auto const from = minute_of_day(ends[0]);
      auto const to = minute_of_day(ends[1]);
      if (!from || !to) return false;
      if (*from >= *to) return true;
    }
    return false;
  }

  // "saturday", "monday to friday", "saturday, sunday"
  std::vector<std::size_t> days(std::string const& key, Place at) {
    std::vector<std::size_t> out;
    for (auto const piece : pieces(key, ",")) {
      auto const ends = pieces(piece, " to ");
      auto const first = std::find(day_names.begin(), day_names.end(), ends.front());
      auto const last = std::find(day_names.begin(), day_names.end(), ends.back());
      if (ends.size() > 2 || first == day_names.end() || last == day_names.end()) {
        refuse(at, fmt::format("`{}` names no day; days are `monday` to `sunday`, alone or as in "
                               "`monday to friday`",
                               key));
        return {};
      }
      auto day = static_cast<std::size_t>(first - day_names.begin());
      auto const end = static_cast<std::size_t>(last - day_names.begin());
      for (;; day = (day + 1) % day_names.size()) {
        out.push_back(day);
        if (day == end) break;
      }
    }
    return out;
  }

  static std::optional<std::vector<OpenHours>> times(std::string_view text) {
    std::vector<OpenHours> out;
    if (text == "closed") return out;
    for (auto const piece : pieces(text, ",")) {
      auto const ends = pieces(piece, " to ");
      if (ends.size() != 2) return std::nullopt;
      auto const from = minute_of_day(ends[0]);
      auto const to = minute_of_day(ends[1]);
      if (!from || !to || *from >= *to) return std::nullopt;
      out.push_back({*from, *to});
    }
    return out;
  }

  Report& report_;
  Practice practice_;
  std::vector<std::string> misspelt_;  ///< what an unknown key was meant to be
  std::optional<Place> visits_at_;     ///< where `home visits` stands
  bool is_sound_ = true;
};

}  // namespace

Outcome<Practice> read_practice(SourceSet const& sources, FileId file) {
  Report report;
  Outcome<Practice> out;
  if (auto const root = yaml::read(sources, file, {}, report))
    out.value = PracticeReader(report).read(*root);
  out.diagnostics = report.take();
  return out;
}

}  // namespace flinch
