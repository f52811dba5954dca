#include "serve/documents.hpp"

namespace flinch::cli::serve {

bool Documents::put(std::string const& uri, Document document) {
  close(uri);
  if (open_.size() >= limits_.documents || bytes_ + document.text.size() > limits_.bytes)
    return false;
  bytes_ += document.text.size();
  open_.emplace(uri, std::move(document));
  return true;
}

void Documents::close(std::string const& uri) {
  auto const found = open_.find(uri);
  if (found == open_.end()) return;
  bytes_ -= found->second.text.size();
  open_.erase(found);
}

Document const* Documents::find(std::string_view uri) const {
  auto const found = open_.find(uri);
  return found == open_.end() ? nullptr : &found->second;
}

}  // namespace flinch::cli::serve
