#include "flinch/interview/answer_entry.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "interview/entry_words.hpp"

namespace flinch {
namespace {

constexpr std::array<std::string_view, 16> yes_words = {
    "y",       "yes",   "yeah",       "yep",         "yup",          "aye",
    "true",    "sure",  "yes it is",  "yes he does", "yes she does", "yes it does",
    "it does", "it is", "definitely", "certainly"};
// Of a question, but not of a list, where they may mean a degree.
constexpr std::array<std::string_view, 3> yes_in_part_words = {"a bit", "a little", "slightly"};
constexpr std::array<std::string_view, 17> no_words = {"n",
                                                       "not that i can see",
                                                       "no not that i can see",
                                                       "not that ive seen",
                                                       "not that i know of",
                                                       "no",
                                                       "nope",
                                                       "nah",
                                                       "false",
                                                       "never",
                                                       "not at all",
                                                       "no it is not",
                                                       "no he does not",
                                                       "no she does not",
                                                       "it does not",
                                                       "no it does not",
                                                       "not"};
constexpr std::array<std::string_view, 37> cannot_tell_words = {
    "?",
    "cant tell",
    "cannot tell",
    "can not tell",
    "dont know",
    "do not know",
    "i dont know",
    "i do not know",
    "not sure",
    "im not sure",
    "i am not sure",
    "unsure",
    "unknown",
    "no idea",
    "dunno",
    "i cant tell",
    "dk",
    "idk",
    "no clue",
    "hard to say",
    "cant say",
    "not checked",
    "havent checked",
    "havent looked",
    "havent seen it",
    "not taken",
    "not measured",
    "i dont think so",  // no no: unknown is never no
    "dont think so",
    "not really sure",
    "i dont know for sure",
    "couldnt say",
    "i couldnt say",
    "could not say",
    "not certain",
    "wouldnt know",
    "no way of knowing"};
constexpr std::array<std::string_view, 5> nowhere_words = {"none", "nowhere", "nothing",
                                                           "clear everywhere", "all clear"};
constexpr std::array<std::string_view, 10> somewhere_words = {"somewhere",
                                                              "not sure where",
                                                              "dont know where",
                                                              "yes somewhere",
                                                              "yes but i cant tell which",
                                                              "yes but i cant tell where",
                                                              "yes but not sure which",
                                                              "yes but not sure where",
                                                              "yes but i dont know which",
                                                              "yes but i dont know where"};

// "No she hasn't", "no, it isn't". Not "no he can't": of not being able that is a yes.
bool is_no_at_length(std::string const& text) {
  constexpr std::array<std::string_view, 4> who = {"he", "she", "it", "they"};
  constexpr std::array<std::string_view, 7> denied = {"isnt",  "doesnt", "hasnt", "didnt",
                                                      "wasnt", "dont",   "havent"};
  auto words = entry_words(text);
  std::erase(words, ",");
  return words.size() == 3 && words[0] == "no" && is_one_of(words[1], who) &&
         is_one_of(words[2], denied);
}

// "No lumps", of a lump.
bool denies_by_name(Sign const& sign, std::string_view typed) {
  auto words = entry_words(typed);
  if (words.size() < 2 || words.front() != "no") return false;
  words.erase(words.begin());
  auto const said = joined(words);
  auto const label = joined(entry_words(sign.label));
  return said == label || said == label + "s";
}

// "Pounds", "45", "45 kg": of another question. How long it lasts is said of any sign.
bool is_a_measure(std::vector<std::string> words) {
  auto amounts = typed_amounts(words, UpperLimit::tells_nothing);
  if (!amounts && words.size() == 1) {
    words.insert(words.begin(), "1");  // a unit alone
    amounts = typed_amounts(words, UpperLimit::tells_nothing);
  }
  return amounts && std::none_of(amounts->begin(), amounts->end(), [](TypedAmount const& amount) {
           auto const unit = find_unit(amount.unit);
           return unit && unit->dimension == Dimension::time;
         });
}

// "Yes she struggles": a yes that nothing behind it takes back.
bool begins_with_yes(std::string const& text) {
  constexpr std::array<std::string_view, 5> yes = {"yes ", "yeah ", "yep ", "yes, ", "yes , "};
  if (std::none_of(yes.begin(), yes.end(),
                   [&](auto const& word) { return text.starts_with(word); }))
    return false;
  constexpr std::array<std::string_view, 14> doubts = {
      "no",   "not",    "but",  "never", "sometimes", "maybe",   "only",
      "isnt", "doesnt", "dont", "cant",  "think",     "perhaps", "or"};
  auto words = entry_words(text);
  if (std::any_of(words.begin(), words.end(),
                  [&](std::string const& word) { return is_one_of(word, doubts); }))
    return false;
  words.erase(words.begin());
  std::erase(words, ",");
  return !is_a_measure(words);
}

Entry answered(Answer answer) { return {std::move(answer), false, {}}; }

Entry read_truth(Sign const& sign, std::string_view typed) {
  if (auto const yes = read_yes_or_no(typed)) return answered(*yes);
  if (is_one_of(joined(entry_words(typed)), yes_in_part_words)) return answered(true);
  if (denies_by_name(sign, typed)) return answered(false);
  return remark(fmt::format("Not understood: \"{}\". Answer yes, no, or ? if you cannot tell.",
                            quoted(typed)));
}

// What is said around a value: "they look pink", "it came on suddenly". Of "was pink" nothing is
// left out: it tells nothing of now.
// "Almost pink" is not pink.
constexpr std::array<std::string_view, 23> around_a_value = {
    "he",  "she",  "it",    "its",  "hes",   "shes", "they", "theyre", "is",   "are",  "the", "a",
    "bit", "look", "looks", "very", "quite", "came", "on",   "just",   "only", "than", "at"};

std::string without_small_words(std::vector<std::string> words) {
  std::erase_if(words, [](std::string const& word) { return is_one_of(word, around_a_value); });
  return joined(words);
}

// "Pale or white" is pale, and white; of "slowly, over days or more" nothing is left out.
bool is_one_of_two(std::string const& label, std::string const& wanted) {
  constexpr std::string_view between = " or ";
  if (label.find(',') != std::string::npos) return false;
  auto const at = label.find(between);
  return at != std::string::npos &&
         (label.substr(0, at) == wanted || label.substr(at + between.size()) == wanted);
}

// A bare "no" or "none" is a value only where all of its words say so: a `none` that reads "none
// since yesterday" tells more than was said.
bool says_more_than_none(Value const& value, std::string const& wanted, std::string const& bare) {
  static constexpr std::array<std::string_view, 4> nothing = {"none", "nothing", "none at all",
                                                              "nothing at all"};
  auto const name = joined(entry_words(value.name));
  auto const label = joined(entry_words(value.label));
  if (is_one_of(wanted, no_words) || is_one_of(bare, no_words))
    return name != bare && label != bare && name != wanted && label != wanted;
  return is_one_of(bare, nothing) && !is_one_of(label, nothing);
}

// The only value that has this name, in these words or with small ones around them; or else begins
// so.
std::optional<std::uint32_t> named_value(Sign const& sign, std::string const& wanted) {
  auto const bare = without_small_words(entry_words(wanted));
  for (std::uint32_t i = 0; i < sign.values.size(); ++i)
    for (auto const& said : sign.values[i].also_said) {
      auto const words = entry_words(said);
      if (joined(words) == wanted || (!bare.empty() && without_small_words(words) == bare))
        return i;
    }
  std::optional<std::uint32_t> beginning;
  bool is_only = true;
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) {
    if (says_more_than_none(sign.values[i], wanted, bare)) continue;
    auto const name = joined(entry_words(sign.values[i].name));
    auto const label = joined(entry_words(sign.values[i].label));
    if (name == wanted || label == wanted || name == bare || label == bare) return i;
    if (!bare.empty() && is_one_of_two(label, bare)) return i;
    if (wanted.size() < 2 || (!name.starts_with(wanted) && !label.starts_with(wanted))) continue;
    is_only = !beginning;
    beginning = i;
  }
  return is_only ? beginning : std::nullopt;
}

// "Very pale, almost white": parts that all mean the same value, the first by itself.
std::optional<std::uint32_t> value_said_twice(Sign const& sign, std::string_view typed) {
  auto const comma = typed.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  auto const first = joined(entry_words(typed.substr(0, comma)));
  auto const rest = typed.substr(comma + 1);
  auto const value = first.empty() ? std::nullopt : named_value(sign, first);
  if (!value) return std::nullopt;
  auto const other = value_said_twice(sign, rest);
  auto words = entry_words(rest);
  if (!words.empty() && (words.front() == "almost" || words.front() == "nearly"))
    words.erase(words.begin());
  return (other ? other : named_value(sign, joined(words))) == value ? value : std::nullopt;
}

// How long ago a time of everyday speech is, in words that are counted; `yesterday` is days, for it
// may be more than one. `Last month` is none: at its end it may be yesterday. Nothing for what is
// no such time.
std::optional<std::string_view> everyday_length(std::vector<std::string> words) {
  static constexpr std::array<std::string_view, 15> beside = {
      "since", "for",  "from", "now",  "over", "the",     "about", "around",
      "early", "late", "ever", "just", "it",   "started", "began"};
  std::erase_if(words, [](std::string const& word) { return is_one_of(word, beside); });
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 35> times = {{
      {"today", "two hours"},
      {"earlier today", "two hours"},
      {"this morning", "two hours"},
      {"this afternoon", "two hours"},
      {"this evening", "two hours"},
      {"this lunchtime", "two hours"},
      {"morning", "two hours"},
      {"breakfast", "two hours"},
      {"lunch", "two hours"},
      {"lunchtime", "two hours"},
      {"midday", "two hours"},
      {"noon", "two hours"},
      {"midnight", "two hours"},
      {"tonight", "two hours"},
      {"overnight", "two hours"},
      {"last night", "two hours"},
      {"in night", "two hours"},
      {"all day", "two hours"},
      {"all morning", "two hours"},
      {"all night", "two hours"},
      {"yesterday", "two days"},
      {"yesterday morning", "two days"},
      {"yesterday afternoon", "two days"},
      {"yesterday evening", "two days"},
      {"yesterday night", "two days"},
      {"day before yesterday", "two days"},
      {"other day", "two days"},
      {"weekend", "two days"},
      {"last weekend", "two days"},
      {"all weekend", "two days"},
      {"this week", "two days"},
      {"all week", "two days"},
      {"last week", "one week"},
      {"fortnight", "two weeks"},
      {"a fortnight", "two weeks"},
  }};
  auto const said = joined(words);
  for (auto const& [time, length] : times)
    if (time == said) return length;
  return std::nullopt;
}

// "Last year", "this month"; not "the last 3 months".
bool is_month_or_year_by_calendar(std::vector<std::string> const& words) {
  auto const size = words.size();
  return size >= 2 && (words[size - 1] == "month" || words[size - 1] == "year") &&
         (words[size - 2] == "last" || words[size - 2] == "this");
}

// How long, of steps that are called by units of time: "years", "a few days", "for 3 weeks". The
// unit that was said stands until the next one has passed twice: ten days are days, fourteen weeks.
std::optional<std::uint32_t> step_of_time(Sign const& sign, std::vector<std::string> words) {
  std::vector<double> lengths_s;
  for (auto const& value : sign.values) {
    auto const unit = find_unit(value.name);
    if (!unit || unit->dimension != Dimension::time) return std::nullopt;
    lengths_s.push_back(convert(1, *unit, *find_unit("seconds")));
  }
  bool const is_age = std::find(words.begin(), words.end(), "old") != words.end();
  if (is_age) return std::nullopt;
  if (is_month_or_year_by_calendar(words)) {
    bool const is_length = words.front() == "for" && words[words.size() - 2] == "last";
    if (!is_length) return std::nullopt;
    words = {"one", words.back()};  // "for the last month"
  }
  if (auto const length = everyday_length(words)) words = entry_words(*length);
  static constexpr std::array<std::string_view, 10> beside = {
      "since", "for", "now", "ago", "the", "last", "past", "over", "many", "some"};
  std::erase_if(words, [](std::string const& word) { return is_one_of(word, beside); });
  static constexpr std::array<std::string_view, 4> few = {"few", "couple", "several", "of"};
  auto const is_few = [](std::string const& word) { return is_one_of(word, few); };
  // "Two or three days": the longer of the two.
  if (words.size() == 4 && words[1] == "or" &&
      typed_amounts({words[0], words[3]}, UpperLimit::tells_nothing))
    words.erase(words.begin(), words.begin() + 2);
  // "On and off for a year".
  if (words.size() > 3 && words[0] == "on" && words[1] == "and" && words[2] == "off")
    words.erase(words.begin(), words.begin() + 3);
  static constexpr std::array<std::string_view, 7> weekdays = {
      "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
  if (words.size() == 1 && is_one_of(words[0], weekdays)) words = {"two", "days"};
  bool const has_few = std::any_of(words.begin(), words.end(), is_few);
  std::erase_if(words, is_few);
  if (has_few && !words.empty() && words[0] == "a") words.erase(words.begin());
  constexpr std::size_t shortest_unit = 4;  // "days"; a letter may be a key
  bool const is_bare =
      words.size() == 1 && words[0].size() >= shortest_unit && words[0].ends_with('s');
  if (is_bare) words.insert(words.begin(), "two");
  auto const amounts = typed_amounts(words, UpperLimit::tells_nothing);
  if (lengths_s.empty() || !amounts) return std::nullopt;
  double length_s = 0;
  for (auto const& amount : *amounts) {
    auto const unit = find_unit(amount.unit);
    if (amount.unit.empty() || !unit || unit->dimension != Dimension::time) return std::nullopt;
    length_s += convert(amount.value, *unit, *find_unit("seconds"));
  }
  constexpr double times_of_the_next = 2;
  std::uint32_t step = 0;
  auto const said = find_unit(amounts->front().unit);
  auto const said_s = convert(1, *said, *find_unit("seconds"));
  for (std::uint32_t i = 1; i < lengths_s.size(); ++i)
    if (lengths_s[i] <= said_s * 1.01 || length_s >= times_of_the_next * lengths_s[i]) step = i;
  return step;
}

// "2" of "2 once, 3 two to four times": what stands on that line, or so many.
Entry line_or_count(Sign const& sign, std::size_t number, std::uint32_t counted) {
  auto const& count = sign.values[counted].label;
  if (number < 1 || number > sign.values.size())
    return remark(
        fmt::format("Is {} a count, \"{}\"? Then type line {}.", number, count, counted + 1));
  return remark(fmt::format("Line {} (\"{}\"), or the count {} (\"{}\")? Type line {} or line {}.",
                            number, sign.values[number - 1].label, number, count, number,
                            counted + 1));
}

Entry read_value(Sign const& sign, std::string_view typed) {
  auto words = entry_words(typed);
  // "Nothing at all since Sunday": since when is another question.
  auto const since = std::find(words.begin(), words.end(), std::string("since"));
  if (since != words.begin() && since != words.end() && !named_value(sign, joined(words)))
    words.erase(since, words.end());
  auto const wanted = joined(words);
  std::size_t number = 0;
  auto const* const last = wanted.data() + wanted.size();
  auto const read = std::from_chars(wanted.data(), last, number);
  bool const is_number = read.ec == std::errc{} && read.ptr == last;
  if (is_number)
    if (auto const other = counted_otherwise(sign, number))
      return line_or_count(sign, number, *other);
  if (is_number && number >= 1 && number <= sign.values.size())
    return answered(Choice{static_cast<std::uint32_t>(number - 1)});
  if (auto const value = value_by_line(sign, words)) return answered(Choice{*value});
  if (!wanted.empty())
    if (auto const value = named_value(sign, wanted)) return answered(Choice{*value});
  if (auto const value = counted_value(sign, words)) return answered(Choice{*value});
  if (traits(sign).has_order)
    if (auto const step = step_of_time(sign, words)) return answered(Choice{*step});
  if (auto const value = value_said_twice(sign, typed)) return answered(Choice{*value});
  std::string choices;
  for (std::size_t i = 0; i < sign.values.size(); ++i)
    choices += fmt::format("{}{} {}", i == 0 ? "" : ", ", i + 1, sign.values[i].label);
  return remark(
      fmt::format("Not understood: \"{}\". Type one of {}; or ?.", quoted(typed), choices));
}

Entry read_places(Pack const& pack, SignId sign, std::string_view typed,
                  std::optional<Side> walk_side) {
  auto const text = joined(entry_words(typed));
  if (is_one_of(text, nowhere_words) || denies_by_name(pack[sign], typed))
    return answered(Findings{false, true, {}, {}});
  if (is_one_of(text, somewhere_words)) return answered(Findings{true, false, {}, {}});
  auto const yes = read_yes_or_no(typed);
  if (!yes) return read_sites(pack, sign, typed, walk_side);
  // "Yes, the left hind" says where as well; "yes, she struggles" does not.
  if (*yes)
    if (auto places = read_sites(pack, sign, typed, walk_side); places.answer) return places;
  return answered(Findings{*yes, !*yes, {}, {}});
}

}  // namespace

std::optional<bool> read_yes_or_no(std::string_view typed) {
  auto const text = joined(entry_words(typed));
  if (is_one_of(text, yes_words)) return true;
  if (is_one_of(text, no_words) || is_no_at_length(text)) return false;
  // "Nope, never": twice the same.
  if (auto const comma = typed.find(','); comma != std::string_view::npos)
    if (auto const first = joined(entry_words(typed.substr(0, comma))); is_one_of(first, no_words))
      if (read_yes_or_no(typed.substr(comma + 1)) == false) return false;
  return begins_with_yes(text) ? std::optional(true) : std::nullopt;
}

bool is_bare_yes(std::string_view typed) {
  return is_one_of(joined(entry_words(typed)), yes_words);
}

bool means_cannot_tell(std::string_view typed) {
  return is_one_of(joined(entry_words(typed)), cannot_tell_words);
}

Entry read_entry(Pack const& pack, SignId sign, std::string_view typed,
                 EntryContext const& context) {
  if (auto const why = refusal(typed)) return remark(*why);
  if (means_cannot_tell(typed)) return {std::nullopt, true, {}};
  // "Don't know, he is a rescue": the reason behind the comma takes nothing back, an answer would.
  if (auto const comma = typed.find(','); comma != std::string_view::npos)
    if (means_cannot_tell(typed.substr(0, comma)) &&
        !read_entry(pack, sign, typed.substr(comma + 1), context).answer)
      return {std::nullopt, true, {}};
  auto const& its = traits(pack[sign]);
  if (its.has_places) return read_places(pack, sign, typed, context.walk_side);
  if (its.has_values) return read_value(pack[sign], typed);
  if (its.is_number) return read_number(pack, sign, typed, context.today);
  if (its.is_breed) return read_breed(pack, typed);
  return read_truth(pack[sign], typed);
}

}  // namespace flinch
