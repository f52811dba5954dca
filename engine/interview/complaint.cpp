#include "flinch/interview/complaint.hpp"

#include <algorithm>
#include <array>

#include "flinch/model/yes_and_no.hpp"
#include "interview/doubtful_words.hpp"
#include "interview/entry_words.hpp"
#include "interview/site_calls.hpp"

namespace flinch {
namespace {

using Words = std::vector<std::string>;

template <std::size_t Size>
bool is_in(std::string_view word, std::array<std::string_view, Size> const& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

constexpr std::array<std::string_view, 7> joiners = {"and",  "but",  "also", "plus",
                                                     "with", "then", "&"};
// Between a sign and its place.
constexpr std::array<std::string_view, 11> beside_a_place = {"on",  "in",  "of", "at", "his", "her",
                                                             "the", "its", "my", "to", "from"};
// Between a patient or its place and what is wrong.
constexpr std::array<std::string_view, 8> linking = {"is",  "are", "has", "a",
                                                     "got", "he",  "she", "looks"};
constexpr std::array<std::string_view, 9> side_words = {"left", "right", "both", "l", "r",
                                                        "near", "off",   "lh",   "rh"};
// What begins with these says that something is not so, unless the pack has it as a phrase.
constexpr std::array<std::string_view, 7> denials = {"no",   "not",    "never", "without",
                                                     "isnt", "doesnt", "dont"};
// A line of words takes time that grows with its square.
constexpr std::size_t most_words = 60;
constexpr std::size_t most_words_of_a_place = 6;

std::string text_of(Words const& words, std::size_t first, std::size_t last) {
  return joined({words.begin() + static_cast<std::ptrdiff_t>(first),
                 words.begin() + static_cast<std::ptrdiff_t>(last)});
}

std::string text_without(Words const& words, std::size_t first, std::size_t last) {
  auto rest = words;
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(first),
             rest.begin() + static_cast<std::ptrdiff_t>(last));
  return joined(rest);
}

// A full stop ends a thing as a comma does; the point of a number does not.
std::string with_commas(std::string_view typed) {
  std::string out(typed);
  for (std::size_t i = 0; i < out.size(); ++i)
    if (out[i] == '.' && (i + 1 == out.size() || out[i + 1] == ' ')) out[i] = ',';
  return out;
}

// "Hardly anything", "won't touch it", "bluish".
bool tells_only_how(std::string_view phrase) {
  constexpr std::array<std::string_view, 36> how = {
      "like",    "horse",     "a",       "bit",    "little", "lot",    "less",    "more",
      "much",    "than",      "normal",  "usual",  "as",     "the",    "same",    "not",
      "no",      "none",      "hardly",  "barely", "only",   "any",    "nothing", "anything",
      "wont",    "touch",     "picking", "at",     "it",     "bluish", "blueish", "greyish",
      "yellowy", "yellowish", "reddish", "whitish"};
  auto const words = entry_words(phrase);
  return std::all_of(words.begin(), words.end(),
                     [&](std::string const& word) { return is_in(word, how); });
}

// Whether an answer to the sign can make the condition hold with nothing else known.
bool can_hold_by(Pack const& pack, Condition const& condition, SignId sign) {
  switch (condition.kind) {
    case Condition::Kind::test:
      return condition.test.sign == sign;
    case Condition::Kind::meaning:
      return can_hold_by(pack, pack[condition.meaning].condition, sign);
    case Condition::Kind::negation:
    case Condition::Kind::unless:
      return false;
    case Condition::Kind::all:
    case Condition::Kind::any:
    case Condition::Kind::count:
      break;
  }
  auto const held = std::count_if(condition.parts.begin(), condition.parts.end(),
                                  [&](auto const& part) { return can_hold_by(pack, part, sign); });
  return held >= static_cast<std::ptrdiff_t>(needed_parts(condition));
}

// Whether the sign, or a part of it, sets off an alarm alone.
bool is_reason_to_be_seen(Pack const& pack, SignId sign) {
  auto const sets_off = [&](Alarm const& alarm) {
    return can_hold_by(pack, alarm.trigger(), sign);
  };
  if (std::any_of(pack.alarms.begin(), pack.alarms.end(), sets_off)) return true;
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i)
    if (pack.signs[i].part_of == sign && is_reason_to_be_seen(pack, SignId{i})) return true;
  return false;
}

class ComplaintReader {
 public:
  ComplaintReader(Pack const& pack, SignSearch const& search, std::size_t at_most)
      : pack_(pack), search_(search), at_most_(at_most), since_(since_when(pack)) {
    SiteCalls const calls(pack);
    for (std::uint32_t i = 0; i < pack.sites.size(); ++i)
      for (auto const& call : calls.of(SiteId{i}))
        place_words_.insert(place_words_.end(), call.begin(), call.end());
    for (auto const* const word : {"leg", "legs", "fore"}) place_words_.emplace_back(word);
  }

  Complaint read(std::string_view typed) {
    Words clause;
    auto words = entry_words(with_commas(typed));
    if (words.size() > most_words) return {};
    is_taken_back_ = takes_back(words, pack_.words);
    for (std::size_t i = 0; i < words.size(); ++i) {
      auto& word = words[i];
      if (word == "?") is_in_doubt_ = true;  // "is he limping?" tells nothing yet
      // "Her right, hind leg".
      if (word == "," && !clause.empty() && is_in(clause.back(), side_words) &&
          i + 1 < words.size() && may_name_place(words[i + 1]))
        continue;
      if (word != "," && word != ";" && word != "/") {
        if (word != "?") clause.push_back(std::move(word));
        continue;
      }
      take_clause(clause);
      clause.clear();
      is_clause_in_doubt_ = false;
    }
    take_clause(clause);
    if (are_times_alike_) out_.since = since_told_;
    return std::move(out_);
  }

 private:
  // The longest run of what joiners part that is one phrase of the pack; else up to the next
  // joiner.
  void take_clause(Words const& clause) {
    std::vector<std::size_t> ends;
    for (std::size_t i = 0; i < clause.size(); ++i)
      if (is_in(clause[i], joiners)) ends.push_back(i);
    ends.push_back(clause.size());
    for (std::size_t start = 0; start < clause.size();) {
      auto next = *std::find_if(ends.begin(), ends.end(), [&](auto end) { return end >= start; });
      for (auto end = ends.rbegin(); end != ends.rend() && *end > next; ++end)
        if (exact(text_of(clause, start, *end))) next = *end;
      take_part({clause.begin() + static_cast<std::ptrdiff_t>(start),
                 clause.begin() + static_cast<std::ptrdiff_t>(next)});
      // "No vomiting and diarrhoea": what a denial may still cover is asked, until a "but".
      if (next < clause.size() && clause[next] == "but") is_in_doubt_ = is_clause_in_doubt_ = false;
      start = next + 1;
    }
  }

  void take_part(Words words) {
    if (words.empty()) return;
    ComplaintPart part;
    part.words = joined(words);
    part.meant = exact(part.words);
    if (words.front() == "was" || words.front() == "used") is_in_doubt_ = true;  // no longer?
    if (is_asked(words, pack_.words) || is_over(words) || was_long_ago(words)) is_in_doubt_ = true;
    std::optional<ToldAnswer> time;
    if (!part.meant) {
      time = taken_time(words);
      if (words.empty()) {
        // "Limping, since yesterday"; not "diabetic, for two years".
        bool const is_of_illness = out_.parts.empty() || tells_illness(out_.parts.back());
        if (time && is_of_illness && !is_open()) tell_time(*std::move(time));
        return;
      }
      part.words = joined(words);
      part.meant = exact(joined(words));
      // Since when is no part of the phrase: "not eating since yesterday" denies nothing.
      if (!part.meant && is_in(words.front(), denials)) is_in_doubt_ = true;
      if (!part.meant) part.meant = with_place(words);
      if (!part.meant) take_doubt(words);
    }
    if (!part.meant && takes_place_of_last(words)) return tell_time_if(std::move(time));
    if (is_open()) part.meant.reset();
    part.is_in_doubt = is_open();
    if (!part.meant && takes_two_denials(words)) return tell_time_if(std::move(time));
    // Of anything else the time may be another event's: "vaccinated last week".
    if (tells_illness(part)) tell_time_if(std::move(time));
    if (!part.meant) part.found = meanings_of(joined(words));
    if (since_ && part.meant && part.meant->sign == *since_)
      tell_time(*part.meant);
    else
      out_.parts.push_back(std::move(part));
  }

  // "Had a fit last year" may be no trouble of now.
  [[nodiscard]] static bool was_long_ago(Words const& words) {
    auto const size = words.size();
    return words.front() == "had" && size >= 3 && words[size - 2] == "last" &&
           (words[size - 1] == "month" || words[size - 1] == "year");
  }

  // "Vet said no fit"; a phrase of the pack has its own "no", which denies nothing.
  void take_doubt(Words const& words) {
    auto const reach = doubt_in(words, pack_.words);
    if (reach == DoubtReach::line) is_in_doubt_ = true;
    if (reach == DoubtReach::clause) is_clause_in_doubt_ = true;
  }

  [[nodiscard]] bool is_open() const {
    return is_in_doubt_ || is_clause_in_doubt_ || is_taken_back_;
  }

  // Understood, not denied, and neither what the patient has had for good nor, as "on steroids for
  // two years", what is no reason to be seen: a long time there would make the illness an old one.
  [[nodiscard]] bool tells_illness(ComplaintPart const& part) const {
    return part.meant && !pack_[part.meant->sign].lasts &&
           is_reason_to_be_seen(pack_, part.meant->sign);
  }

  // "Not eating or drinking" says not eating, not drinking.
  bool takes_two_denials(Words const& words) {
    if (words.size() != 4 || words[2] != "or" || !is_in(words[0], denials)) return false;
    auto const first = exact(words[0] + " " + words[1]);
    auto const second = exact(words[0] + " " + words[3]);
    if (!first || !second) return false;
    out_.parts.push_back({words[0] + " " + words[1], first, {}});
    out_.parts.push_back({words[0] + " " + words[3], second, {}});
    is_in_doubt_ = false;  // both are what is wrong
    return true;
  }

  // Since when is no meaning of what something is.
  [[nodiscard]] std::vector<FoundSign> meanings_of(std::string const& words) const {
    auto found = search_.find(words, at_most_);
    for (auto& one : search_.find_within(words, at_most_)) {
      bool const is_there = std::any_of(found.begin(), found.end(), [&](FoundSign const& other) {
        return other.sign == one.sign && (other.value == one.value || !one.value);
      });
      if (!is_there && found.size() < at_most_) found.push_back(one);
    }
    std::erase_if(found, [&](FoundSign const& one) { return since_ && one.sign == *since_; });
    return found;
  }

  [[nodiscard]] std::optional<ToldAnswer> exact(std::string const& words) const {
    auto const found = search_.find(words, 1);
    if (found.empty() || !found[0].is_exact || hangs_in_the_air(found[0], words))
      return std::nullopt;
    return told_by(pack_, found[0]);
  }

  // "Red": of the gums? A value by its own name tells nothing before its question is put, nor does
  // a phrase that says how much and not of what.
  [[nodiscard]] bool hangs_in_the_air(FoundSign const& found, std::string const& words) const {
    auto const& sign = pack_[found.sign];
    if (!found.value) return false;
    if (found.words != sign.values[*found.value].label && !tells_only_how(found.words))
      return false;
    auto const typed = folded_words(words);
    auto const label = folded_words(sign.label);
    return std::none_of(typed.begin(), typed.end(), [&](std::string const& word) {
      return std::find(label.begin(), label.end(), word) != label.end();
    });
  }

  // "Over" is more than a length of time behind these alone: "over 10 years old" is an age, and
  // "walks over two hours" a walk.
  [[nodiscard]] static bool leads_time(Words const& words, std::size_t at) {
    // Not "all night" or "overnight": they say when it happens as well as since when.
    constexpr std::array<std::string_view, 6> leads = {"since", "for",       "this",
                                                       "last",  "yesterday", "today"};
    if (is_in(words[at], leads)) return true;
    auto const behind = text_of(words, at, words.size());
    return behind == "over the weekend" || behind == "over weekend";
  }

  // "Since yesterday", "for three weeks": taken out, wherever it stands at the end of the words.
  [[nodiscard]] std::optional<ToldAnswer> taken_time(Words& words) const {
    if (!since_) return std::nullopt;
    for (std::size_t first = 0; first < words.size(); ++first) {
      bool const is_led = leads_time(words, first);
      // A number alone, or letters, may be meant for a list that is not there.
      if (!is_led && (first > 0 || words.size() == 1)) continue;
      auto text = text_of(words, first, words.size());
      if (is_led && first > 0 && words[first] != "since" && words[first] != "for")
        text = "since " + text;  // "this morning"
      if (is_led && names_month_or_year(words, first)) {
        words.resize(first);
        return std::nullopt;
      }
      auto const entry = read_entry(pack_, *since_, text, {});
      if (!entry.answer || (!is_led && may_be_age(*entry.answer))) continue;
      // "Collapsed for a minute" tells how long that took, not since when the patient is ill.
      bool const is_since_when = words[first] != "for" || *entry.answer != Answer(Choice{0});
      words.resize(first);
      if (!is_since_when) return std::nullopt;
      return ToldAnswer{*since_, *entry.answer};
    }
    return std::nullopt;
  }

  // "This month" may be yesterday, and so may "last year" be in January: they tell no length.
  [[nodiscard]] static bool names_month_or_year(Words const& words, std::size_t first) {
    auto const size = words.size();
    if (words[first] == "for") return false;  // "for the last month"
    return size >= first + 2 && (words[size - 1] == "month" || words[size - 1] == "year") &&
           (words[size - 2] == "this" || words[size - 2] == "last") && size <= first + 3;
  }

  // "Lethargic, 10 years" or "8 weeks": longer than days, and no word says that it is since when.
  [[nodiscard]] bool may_be_age(Answer const& answer) const {
    auto const* const choice = std::get_if<Choice>(&answer);
    if (choice == nullptr) return true;
    auto const unit = find_unit(pack_[*since_].values[choice->index].name);
    return !unit || unit->factor > find_unit("days")->factor;
  }

  void tell_time_if(std::optional<ToldAnswer> told) {
    if (told) tell_time(*std::move(told));
  }

  void tell_time(ToldAnswer told) {
    are_times_alike_ = are_times_alike_ && (!since_told_ || *since_told_ == told);
    since_told_ = std::move(told);
  }

  [[nodiscard]] bool may_name_place(std::string const& word) const {
    auto const is_of_one = [&](std::string const& one) {
      return std::find(place_words_.begin(), place_words_.end(), one) != place_words_.end();
    };
    auto const one = one_of_several(word);
    return is_in(word, side_words) || word == "rf" || word == "lf" || is_of_one(word) ||
           (one && is_of_one(*one));
  }

  // "Limping, left hind": the place of what was said before it.
  bool takes_place_of_last(Words const& words) {
    bool const is_place = std::all_of(words.begin(), words.end(), [&](std::string const& word) {
      return may_name_place(word) || is_in(word, beside_a_place);
    });
    if (!is_place || out_.parts.empty() || !out_.parts.back().meant) return false;
    auto& last = *out_.parts.back().meant;
    auto const* findings = std::get_if<Findings>(&last.answer);
    if (findings == nullptr || !findings->found.empty()) return false;
    auto entry = read_entry(pack_, last.sign, joined(words), {});
    if (!entry.answer || !says_yes(*entry.answer)) return false;
    last.answer = std::move(*entry.answer);
    return true;
  }

  // "Swollen", of a paw: of all that is called so only a sign with places can be meant.
  [[nodiscard]] std::optional<ToldAnswer> found_at_places(std::string const& words) const {
    auto said = folded_words(words);
    std::erase_if(said, [](auto const& word) { return is_in(word, linking); });
    std::optional<ToldAnswer> out;
    for (auto const& found : search_.find(words, pack_.signs.size())) {
      bool const has_places = traits(pack_[found.sign]).has_places && !found.value;
      if (!has_places || found.may_calm || folded_words(found.words) != said) continue;
      if (out) return std::nullopt;
      out = told_by(pack_, found);
    }
    return out;
  }

  // The same words once the place is taken out, of a sign that is found at such a place.
  [[nodiscard]] std::optional<ToldAnswer> with_place(Words const& words) const {
    for (auto length = std::min(words.size() - 1, most_words_of_a_place); length > 0; --length)
      for (std::size_t first = 0; first + length <= words.size(); ++first)
        if (auto told = with_place_at(words, first, first + length)) return told;
    return std::nullopt;
  }

  [[nodiscard]] std::optional<ToldAnswer> with_place_at(Words const& words, std::size_t first,
                                                        std::size_t last) const {
    Words place;
    for (auto i = first; i < last; ++i) {
      if (may_name_place(words[i]))
        place.push_back(words[i]);
      else if (!is_in(words[i], beside_a_place))
        return std::nullopt;
    }
    if (place.empty()) return std::nullopt;
    auto const rest = text_without(words, first, last);
    auto told = exact(rest);
    if (!told) told = found_at_places(rest);
    if (!told || !traits(pack_[told->sign]).has_places || !says_yes(told->answer))
      return std::nullopt;
    auto entry = read_entry(pack_, told->sign, joined(place), {});
    if (!entry.answer || !says_yes(*entry.answer)) return std::nullopt;
    told->answer = std::move(*entry.answer);
    return told;
  }

  Pack const& pack_;
  SignSearch const& search_;
  std::size_t at_most_;
  std::optional<SignId> since_;
  Words place_words_;
  Complaint out_;
  bool is_in_doubt_ = false;  ///< what comes now may be denied, or is a question
  bool is_clause_in_doubt_ = false;
  bool is_taken_back_ = false;  ///< by the end of the line
  std::optional<ToldAnswer> since_told_;
  bool are_times_alike_ = true;
};

}  // namespace

std::optional<SignId> since_when(Pack const& pack) {
  auto const is_of_time = [](Value const& value) {
    auto const unit = find_unit(value.name);
    return unit && unit->dimension == Dimension::time;
  };
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.asked_first && traits(sign).has_order &&
        std::all_of(sign.values.begin(), sign.values.end(), is_of_time))
      return SignId{i};
  }
  return std::nullopt;
}

std::optional<ToldAnswer> told_by(Pack const& pack, FoundSign const& found) {
  if (found.is_turned) return std::nullopt;
  if (found.value) return ToldAnswer{found.sign, Choice{*found.value}};
  auto const& sign = pack[found.sign];
  if (!traits(sign).takes_yes_or_no) return std::nullopt;
  return ToldAnswer{found.sign, plain_answer(sign, true)};
}

Complaint read_complaint(Pack const& pack, SignSearch const& search, std::string_view typed,
                         std::size_t at_most) {
  if (refusal(typed)) return {};
  return ComplaintReader(pack, search, at_most).read(typed);
}

}  // namespace flinch
