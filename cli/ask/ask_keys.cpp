#include "ask/ask_keys.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <numeric>

#include "flinch/interview/answer_entry.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

std::string trimmed_small(std::string_view line) {
  std::string out;
  for (auto const c : line) {
    if ((c == ' ' || c == '\t') && (out.empty() || out.back() == ' ')) continue;
    if (c == '\t')
      out += ' ';
    else
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  while (!out.empty() && (out.back() == ' ' || out.back() == '.')) out.pop_back();
  return out;
}

namespace {

struct KeyWord {
  std::string_view word;
  LineKey key;
};

constexpr std::array key_words = {
    KeyWord{"s", LineKey::skip},          KeyWord{"skip", LineKey::skip},
    KeyWord{"skipped", LineKey::skipped}, KeyWord{"b", LineKey::back},
    KeyWord{"back", LineKey::back},       KeyWord{"go back", LineKey::back},
    KeyWord{"w", LineKey::why},           KeyWord{"why", LineKey::why},
    KeyWord{"why?", LineKey::why},        KeyWord{"h", LineKey::how},
    KeyWord{"how", LineKey::how},         KeyWord{"how?", LineKey::how},
    KeyWord{"f", LineKey::so_far},        KeyWord{"so far", LineKey::so_far},
    KeyWord{"sofar", LineKey::so_far},    KeyWord{"q", LineKey::stop},
    KeyWord{"stop", LineKey::stop},       KeyWord{"quit", LineKey::stop},
    KeyWord{"exit", LineKey::stop},       KeyWord{"stop here", LineKey::stop},
    KeyWord{"more", LineKey::more},       KeyWord{"m", LineKey::more},
    KeyWord{"k", LineKey::keys},          KeyWord{"keys", LineKey::keys},
    KeyWord{"help", LineKey::keys},
};

// In order, each once.
void tidy(ListReply& out) {
  for (auto* list : {&out.yes, &out.cannot_tell}) {
    std::sort(list->begin(), list->end());
    list->erase(std::unique(list->begin(), list->end()), list->end());
  }
  // Both true and not to be told: the more dangerous reading counts.
  std::erase_if(out.cannot_tell, [&](std::size_t line_number) {
    return std::binary_search(out.yes.begin(), out.yes.end(), line_number);
  });
}

// "none of them i think" without its last words.
std::string without_hedge(std::string text) {
  for (std::string_view const hedge :
       {" i think", " i believe", " thankfully", " thanks", " thank you", " please"})
    if (text.ends_with(hedge)) text.resize(text.size() - hedge.size());
  while (!text.empty() && (text.back() == ',' || text.back() == ' ')) text.pop_back();
  return text;
}

}  // namespace

std::optional<LineKey> read_key(std::string_view line) {
  auto const text = trimmed_small(line);
  auto const* const found = std::find_if(key_words.begin(), key_words.end(),
                                         [&](KeyWord const& k) { return k.word == text; });
  if (found == key_words.end()) return std::nullopt;
  return found->key;
}

// "No he can't", "no, it isn't": of one thing, which of a list is not known.
bool speaks_of_one_thing(std::string const& text) {
  constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz";
  for (std::string_view const who : {"he", "she", "it", "they"})
    for (auto at = text.find(who); at != std::string::npos; at = text.find(who, at + 1)) {
      auto const end = at + who.size();
      bool const begins = at == 0 || letters.find(text[at - 1]) == std::string_view::npos;
      bool const ends = end == text.size() || letters.find(text[end]) == std::string_view::npos;
      if (begins && ends) return true;
    }
  return false;
}

bool means_none_of_them(std::string_view line) {
  auto const text = trimmed_small(line);
  constexpr std::array<std::string_view, 14> words = {"none",
                                                      "none of them",
                                                      "none of these",
                                                      "none of those",
                                                      "no to all",
                                                      "nothing else",
                                                      "none that i can see",
                                                      "none of that",
                                                      "nothing like that",
                                                      "none at all",
                                                      "nothing i've noticed",
                                                      "nothing i've seen",
                                                      "none i've noticed",
                                                      "none i've seen"};
  auto plain = without_hedge(text);
  // "No, none of those".
  if (plain.starts_with("no, ")) plain = trimmed_small(plain.substr(4));
  return std::find(words.begin(), words.end(), plain) != words.end() ||
         (read_yes_or_no(plain) == false && !speaks_of_one_thing(plain));
}

std::vector<std::size_t> left_out(ListReply const& reply, std::size_t lines) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < lines; ++i)
    if (!std::binary_search(reply.yes.begin(), reply.yes.end(), i) &&
        !std::binary_search(reply.cannot_tell.begin(), reply.cannot_tell.end(), i))
      out.push_back(i);
  return out;
}

ListReply joined_replies(ListReply const& first, ListReply const& second) {
  auto out = first;
  out.yes.insert(out.yes.end(), second.yes.begin(), second.yes.end());
  out.cannot_tell.insert(out.cannot_tell.end(), second.cannot_tell.begin(),
                         second.cannot_tell.end());
  tidy(out);
  return out;
}

// "None apart from 4": the rest is asked for all the same.
std::string without_lead(std::string text) {
  for (std::string_view const lead :
       {"only ", "just ", "none apart from ", "none except ", "none but ", "all no except "})
    if (text.starts_with(lead)) return trimmed_small(text.substr(lead.size()));
  return text;
}

ListReply read_list_reply(std::string_view line, std::size_t lines) {
  ListReply out;
  auto const remark = fmt::format(
      "Type the numbers that are so (1 to {}), such as 2 5; none; ?3 if you cannot tell "
      "about 3; or ? for all.",
      lines);
  auto const whole = without_hedge(trimmed_small(line));
  auto text = without_lead(whole);
  // "1, not sure about 3".
  auto doubted_from = std::string::npos;
  for (std::string_view const doubt : {"not sure about ", "can't tell about ", "don't know about "})
    if (auto const at = text.find(doubt); at != std::string::npos && doubted_from == text.npos) {
      text.replace(at, doubt.size(), "?");
      doubted_from = at;
    }
  // How far the doubt goes, "not sure about 3, 4" does not say.
  if (doubted_from != text.npos && text.find_first_of(",;", doubted_from) != text.npos)
    return {{}, {}, remark};
  // "Only none" is no answer.
  if (text != whole && (means_none_of_them(text) || means_cannot_tell(text)))
    return {{}, {}, remark};
  // One letter, typed for the question before, must not deny a whole list of dangers.
  if (text == "n") return {{}, {}, remark};
  if (means_none_of_them(text)) return out;
  if (text == "all" || text == "all of them") {
    out.yes.resize(lines);
    std::iota(out.yes.begin(), out.yes.end(), std::size_t{0});
    return out;
  }
  if (means_cannot_tell(text)) {
    out.cannot_tell.resize(lines);
    std::iota(out.cannot_tell.begin(), out.cannot_tell.end(), std::size_t{0});
    return out;
  }
  // "The second one".
  constexpr std::array<std::string_view, 8> ordinals = {"first", "second", "third",   "fourth",
                                                        "fifth", "sixth",  "seventh", "eighth"};
  for (std::size_t i = 0; i < ordinals.size() && i < lines; ++i)
    if (text == ordinals[i] || text == fmt::format("the {}", ordinals[i]) ||
        text == fmt::format("the {} one", ordinals[i])) {
      out.yes = {i};
      return out;
    }
  if ((text == "the last" || text == "the last one") && lines > 0) {
    out.yes = {lines - 1};
    return out;
  }
  bool is_doubtful = false;
  for (std::size_t i = 0; i < text.size();) {
    auto const c = text[i];
    if (c >= '0' && c <= '9') {
      std::size_t number = 0;
      auto const read = std::from_chars(text.data() + i, text.data() + text.size(), number);
      i = static_cast<std::size_t>(read.ptr - text.data());
      bool const is_marked_behind = i < text.size() && text[i] == '?';
      if (is_marked_behind) ++i;
      if (read.ec != std::errc{} || number < 1 || number > lines) return {{}, {}, remark};
      (is_doubtful || is_marked_behind || i > doubted_from ? out.cannot_tell : out.yes)
          .push_back(number - 1);
      is_doubtful = false;
      continue;
    }
    if (c == '?' && !is_doubtful)
      is_doubtful = true;
    else if (text.compare(i, 3, "and") == 0)
      i += 2;
    else if (std::string_view(" ,;&+").find(c) == std::string_view::npos)
      return {{}, {}, remark};
    ++i;
  }
  tidy(out);
  if (is_doubtful || (out.yes.empty() && out.cannot_tell.empty())) return {{}, {}, remark};
  return out;
}

}  // namespace flinch::cli
