#include "flinch/text/source.hpp"

#include <algorithm>

namespace flinch {

Place cover(Place a, Place b) {
  return {a.file, {std::min(a.span.begin, b.span.begin), std::max(a.span.end, b.span.end)}};
}

Source::Source(std::string name, std::string text)
    : name_(std::move(name)),
      owned_(std::make_shared<std::string const>(std::move(text))),
      text_(*owned_) {}

Source::Source(std::string name, LastingText text) : name_(std::move(name)), text_(text.bytes) {}

std::vector<std::uint32_t> const& Source::line_starts() const {
  std::call_once(lines_->once, [&] {
    auto& starts = lines_->starts;
    starts.push_back(0);
    for (auto end = text_.find('\n'); end != std::string_view::npos;
         end = text_.find('\n', end + 1))
      starts.push_back(static_cast<std::uint32_t>(end + 1));
  });
  return lines_->starts;
}

Position Source::position(std::uint32_t offset) const {
  offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
  auto const& starts = line_starts();
  auto const after = std::upper_bound(starts.begin(), starts.end(), offset);
  auto const start = *(after - 1);
  auto const is_code_point_start = [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  };
  auto const points =
      std::count_if(text_.begin() + start, text_.begin() + offset, is_code_point_start);
  return {static_cast<std::uint32_t>(after - starts.begin()),
          static_cast<std::uint32_t>(points + 1)};
}

std::string_view Source::line(std::uint32_t number) const {
  auto const begin = line_starts()[number - 1];
  auto end = text_.find('\n', begin);
  if (end == std::string_view::npos) end = text_.size();
  if (end > begin && text_[end - 1] == '\r') --end;
  return text_.substr(begin, end - begin);
}

FileId SourceSet::add(std::string name, std::string text) {
  sources_.emplace_back(std::move(name), std::move(text));
  return static_cast<FileId>(sources_.size() - 1);
}

FileId SourceSet::add(std::string name, LastingText text) {
  sources_.emplace_back(std::move(name), text);
  return static_cast<FileId>(sources_.size() - 1);
}

std::string_view SourceSet::text(Place at) const {
  return (*this)[at.file].text().substr(at.span.begin, at.span.end - at.span.begin);
}

}  // namespace flinch
