#include "flinch/text/source.hpp"

#include <algorithm>

namespace flinch {

Place cover(Place a, Place b) {
  return {a.file, {std::min(a.span.begin, b.span.begin), std::max(a.span.end, b.span.end)}};
}

Source::Source(std::string name, std::string text)
    : name_(std::move(name)), text_(std::move(text)), line_starts_{0} {
  for (auto end = text_.find('\n'); end != std::string::npos; end = text_.find('\n', end + 1))
    line_starts_.push_back(static_cast<std::uint32_t>(end + 1));
}

Position Source::position(std::uint32_t offset) const {
  offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
  auto const after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  auto const start = *(after - 1);
  auto const is_code_point_start = [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  };
  auto const points =
      std::count_if(text_.begin() + start, text_.begin() + offset, is_code_point_start);
  return {static_cast<std::uint32_t>(after - line_starts_.begin()),
          static_cast<std::uint32_t>(points + 1)};
}

std::string_view Source::line(std::uint32_t number) const {
  auto const begin = line_starts_[number - 1];
  auto end = std::string_view(text_).find('\n', begin);
  if (end == std::string_view::npos) end = text_.size();
  if (end > begin && text_[end - 1] == '\r') --end;
  return std::string_view(text_).substr(begin, end - begin);
}

FileId SourceSet::add(std::string name, std::string text) {
  sources_.emplace_back(std::move(name), std::move(text));
  return static_cast<FileId>(sources_.size() - 1);
}

std::string_view SourceSet::text(Place at) const {
  return (*this)[at.file].text().substr(at.span.begin, at.span.end - at.span.begin);
}

}  // namespace flinch
