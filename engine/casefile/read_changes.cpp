#include "flinch/casefile/read_changes.hpp"

#include <fmt/format.h>

#include "casefile/case_examples.hpp"
#include "flinch/text/display.hpp"
#include "model/answer_builder.hpp"

namespace flinch {
namespace {

class ChangeReader {
 public:
  ChangeReader(std::string_view text, FileId file, Pack const& pack, Report& report)
      : text_(text), file_(file), pack_(pack), report_(report), builder_(pack, report) {}

  std::vector<Change> read() {
    for (std::size_t at = 0; at <= text_.size();) {
      auto const end = std::min(text_.find(',', at), text_.size());
      assignment(at, end);
      at = end + 1;
    }
    std::vector<Change> out;
    auto supposed = builder_.take();
    for (auto& [sign, answer] : supposed.answers) out.push_back({sign, std::move(answer)});
    for (auto const sign : supposed.cannot_tell) out.push_back({sign, std::nullopt});
    return out;
  }

 private:
  // [begin, end) without the blanks at its ends.
  [[nodiscard]] Place trimmed(std::size_t begin, std::size_t end) const {
    while (begin < end && (text_[begin] == ' ' || text_[begin] == '\t')) ++begin;
    while (end > begin && (text_[end - 1] == ' ' || text_[end - 1] == '\t')) --end;
    return {file_, {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)}};
  }
  [[nodiscard]] std::string_view words(Place at) const {
    return text_.substr(at.span.begin, at.span.end - at.span.begin);
  }

  void assignment(std::size_t begin, std::size_t end) {
    auto const equals = text_.find('=', begin);
    auto const name = trimmed(begin, std::min(equals, end));
    if (equals >= end || words(name).empty()) {
      report_.error(
          Code::case_shape, trimmed(begin, end),
          fmt::format("a sign and its supposed answer are expected here, such as `{}=yes`",
                      sign_example(pack_)));
      return;
    }
    auto const value = trimmed(equals + 1, end);
    auto const sign = builder_.sign(words(name), name);
    if (!sign) return;
    if (words(value).empty()) {
      report_.error(
          Code::case_shape, name,
          fmt::format("`{}` has no answer; write `can't tell` if nobody knows", pack_[*sign].name));
      return;
    }
    answer(*sign, value);
  }

  void answer(SignId sign, Place at) {
    auto const written = words(at);
    bool const is_word = written == "yes" || written == "no" || written == "can't tell";
    if (traits(pack_[sign]).has_places && !is_word) return sites(sign, at);
    builder_.written(sign, written, at);
  }

  void sites(SignId sign, Place at) {
    for (std::size_t begin = at.span.begin; begin <= at.span.end;) {
      auto const end = std::min<std::size_t>(text_.find('+', begin), at.span.end);
      auto const site = trimmed(begin, end);
      if (words(site).empty())
        report_.error(Code::case_shape, at,
                      fmt::format("a site is expected here, such as `{}`", site_example(pack_)));
      else
        builder_.found(sign, words(site), site);
      begin = end + 1;
    }
  }

  std::string_view text_;
  FileId file_;
  Pack const& pack_;
  Report& report_;
  AnswerBuilder builder_;
};

}  // namespace

Outcome<std::vector<Change>> read_changes(SourceSet const& sources, FileId file, Pack const& pack) {
  Report report;
  std::optional<std::vector<Change>> read;
  auto const text = sources[file].text();
  constexpr std::size_t longest = 100'000;
  if (auto const bad = find_invalid_utf8(text); bad != std::string_view::npos) {
    auto const at = static_cast<std::uint32_t>(bad);
    report.error(Code::bad_utf8, {file, {at, at + 1}}, "this is not valid UTF-8");
  } else if (text.size() > longest) {
    report.error(Code::too_large, {file, {0, 1}},
                 fmt::format("at most {} bytes of changes are read", longest));
  } else {
    read = ChangeReader(text, file, pack, report).read();
  }
  bool const sound = !report.has_errors();
  Outcome<std::vector<Change>> out{std::nullopt, report.take()};
  if (sound && read) out.value = std::move(read);
  return out;
}

}  // namespace flinch
