#include "book/search_words.hpp"

#include <algorithm>

namespace flinch::cli {
namespace {

constexpr std::size_t longest_word = 40;  ///< bytes that are looked at
constexpr std::size_t most_words = 12;    ///< of a name: a caller may paste a page into the field

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Letters of Latin-1 in UTF-8: capitals stand 0x20 before the small ones, but for the sign between.
void make_small(std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    auto const byte = static_cast<unsigned char>(text[i]);
    if (byte >= 'A' && byte <= 'Z') text[i] = static_cast<char>(byte + 0x20);
    if (i == 0 || static_cast<unsigned char>(text[i - 1]) != 0xC3) continue;
    if (byte >= 0x80 && byte <= 0x9E && byte != 0x97) text[i] = static_cast<char>(byte + 0x20);
  }
}

bool is_number(std::string const& word) { return std::all_of(word.begin(), word.end(), is_digit); }

std::string from_front(std::string const& digits) { return '#' + digits; }
std::string from_end(std::string const& digits) {
  return '~' + std::string(digits.rbegin(), digits.rend());
}

}  // namespace

std::vector<std::string> words_in(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  auto const end_word = [&] {
    if (word.empty()) return;
    make_small(word);
    if (word.size() > longest_word) {
      auto cut = longest_word;
      while (cut > 0 && (static_cast<unsigned char>(word[cut]) & 0xC0U) == 0x80U) --cut;
      word.resize(cut);
    }
    out.push_back(std::move(word));
    word.clear();
  };
  for (auto const c : text) {
    bool const is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) ||
                           static_cast<unsigned char>(c) >= 0x80U;
    if (is_letter)
      word += c;
    else
      end_word();
    if (out.size() == most_words) return out;
  }
  end_word();
  return out;
}

std::string digits_in(std::string_view number) {
  std::string out;
  for (auto const c : number)
    if (is_digit(c) && out.size() < longest_word) out += c;
  return out;
}

std::vector<std::string> search_words(std::string_view patient, std::string_view client,
                                      std::string_view number) {
  auto out = words_in(patient);
  for (auto& word : words_in(client)) out.push_back(std::move(word));
  if (auto const digits = digits_in(number); !digits.empty()) {
    out.push_back(from_front(digits));
    out.push_back(from_end(digits));
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::vector<std::vector<std::string>> search_beginnings(std::string_view typed) {
  std::vector<std::vector<std::string>> out;
  std::string digits;
  for (auto& word : words_in(typed)) {
    if (is_number(word))
      digits += word;
    else
      out.push_back({std::move(word)});
  }
  if (!digits.empty()) out.push_back({from_front(digits), from_end(digits)});
  return out;
}

}  // namespace flinch::cli
