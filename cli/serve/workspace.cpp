#include "serve/workspace.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "serve/file_uri.hpp"
#include "serve/mistakes.hpp"
#include "serve/ranges.hpp"

namespace flinch::cli::serve {
namespace {

constexpr std::size_t most_bytes_moved = std::size_t{256} << 20U;  // by one message of changes

std::string too_much(std::string const& uri) {
  return notification_message(
      "window/showMessage",
      {{"type", 2}, {"message", "too much at once: flinch no longer follows " + uri}});
}

Json belongs_nowhere() {
  return {{"range", range_json({0, 0}, {0, 0})},
          {"severity", 3},
          {"source", "flinch"},
          {"message", "no pack beside this file or above includes it: only its syntax is checked"}};
}

// The text after one change of the editor: a range replaced, or all of it.
std::string changed(std::string text, Json const& change) {
  auto part = text_member(change, "text");
  if (!change.contains("range")) return part;
  auto const& range = member(change, "range");
  TextPositions const positions(text);
  auto begin = positions.offset(position_member(range, "start"));
  auto end = positions.offset(position_member(range, "end"));
  if (begin > end) std::swap(begin, end);
  return text.replace(begin, end - begin, part);
}

}  // namespace

std::string path_of_document(std::string const& uri) { return path_of_uri(uri).value_or(uri); }

std::string document_of_path(std::string const& path) {
  return path.starts_with('/') ? uri_of_path(path) : path;
}

Workspace::Workspace(FileAccess disk) : disk_(std::move(disk)) {
  access_.read = [this](std::string const& path) -> std::optional<std::string> {
    for (auto const& [uri, document] : documents_.all())
      if (path_of_document(uri) == path) return document.text;
    return disk_.read(path);
  };
  access_.rule_files = [this](std::string const& folder) {
    return folder.empty() ? std::vector<std::string>() : disk_.rule_files(folder);
  };
}

PackView Workspace::view(std::string const& uri) const {
  return view_pack(path_of_document(uri), access_);
}

std::vector<std::string> Workspace::open(std::string const& uri, Document document) {
  if (documents_.put(uri, std::move(document))) return publish(uri);
  shown_.erase(uri);
  return {too_much(uri)};
}

std::vector<std::string> Workspace::change(std::string const& uri, Json const& changes,
                                           std::optional<std::int64_t> version) {
  auto const* known = documents_.find(uri);
  if (known == nullptr) return {};
  if (!changes.is_array()) throw InvalidParams{"`contentChanges` is no list"};
  auto text = known->text;
  std::size_t bytes_moved = 0;
  for (auto const& one : changes) {
    text = changed(std::move(text), one);
    bytes_moved += text.size();
    if (bytes_moved > most_bytes_moved) {
      documents_.close(uri);
      shown_.erase(uri);
      return {too_much(uri)};
    }
  }
  return open(uri, {std::move(text), version});
}

std::vector<std::string> Workspace::close(std::string const& uri) {
  if (documents_.find(uri) == nullptr) return {};
  documents_.close(uri);
  auto const view = view_pack(path_of_document(uri), access_);
  if (view.is_whole) {
    auto out = publish(uri);
    shown_.erase(uri);
    return out;
  }
  shown_.erase(uri);
  with_mistakes_.erase(uri);
  return {published(uri, Json::array())};
}

std::vector<std::string> Workspace::refresh() {
  std::vector<std::string> out;
  std::vector<std::string> open;
  for (auto const& [uri, document] : documents_.all()) open.push_back(uri);
  for (auto const& uri : open) {
    auto messages = publish(uri);
    std::move(messages.begin(), messages.end(), std::back_inserter(out));
  }
  return out;
}

std::string Workspace::published(std::string const& uri, Json mistakes) const {
  Json params = {{"uri", uri}, {"diagnostics", std::move(mistakes)}};
  auto const* document = documents_.find(uri);
  if (document != nullptr && document->version) params["version"] = *document->version;
  return notification_message("textDocument/publishDiagnostics", std::move(params));
}

// An editor may write an address in its own way: it is answered with its own.
std::string Workspace::address(std::string const& path) const {
  for (auto const& [uri, document] : documents_.all())
    if (path_of_document(uri) == path) return uri;
  return document_of_path(path);
}

// The mistakes of all files of the pack, and an empty list for those that have lost theirs. What a
// full check had found is gone with the text that it spoke of, until the next one is done.
std::vector<std::string> Workspace::publish(std::string const& uri) {
  auto const view = std::make_shared<PackView const>(this->view(uri));
  shown_[uri] = view;
  if (view->is_whole) {
    auto const& entry = view->sources[FileId{0}].name();
    std::erase_if(due_, [&](CheckJob const& job) { return job.entry == entry; });
    due_.push_back({entry, view});
  }
  std::map<std::string, Json> mistakes;
  mistakes[uri] = Json::array();
  for (auto const& file : view->files) {
    auto const name = address(file.path);
    if (with_mistakes_.contains(name)) mistakes[name] = Json::array();
  }
  for (auto const& d : view->diagnostics) {
    auto& list = mistakes[address(view->sources[d.at.file].name())];
    if (list.is_null()) list = Json::array();
    if (list.size() < most_mistakes) list.push_back(mistake(d, code_text(d.code), *view));
  }
  if (!view->is_whole) mistakes[uri].push_back(belongs_nowhere());
  std::vector<std::string> out;
  for (auto& [name, list] : mistakes) {
    if (list.empty())
      with_mistakes_.erase(name);
    else
      with_mistakes_.insert(name);
    out.push_back(published(name, std::move(list)));
  }
  return out;
}

std::vector<CheckJob> Workspace::due() { return std::exchange(due_, {}); }

std::vector<std::string> Workspace::finish(CheckResult const& result) {
  auto const& sources = result.job.view->sources;
  for (std::size_t i = 0; i < sources.size(); ++i) {
    auto const& source = sources[static_cast<FileId>(i)];
    if (access_.read(source.name()) != source.text()) return {};  // edited since
  }
  std::vector<std::string> out;
  for (auto const& [path, list] : result.remarks) {
    auto const name = address(path);
    with_mistakes_.insert(name);
    out.push_back(published(name, list));
  }
  return out;
}

Json Workspace::fixes(std::string const& uri, Json const& range) const {
  auto const found = shown_.find(uri);
  if (found == shown_.end()) return Json::array();
  auto const& view = *found->second;
  auto const path = path_of_document(uri);
  auto const* file = view.file(path);
  if (file == nullptr) return Json::array();
  TextPositions const positions(view.sources[file->id].text());
  return quick_fixes(view, path, uri, positions.offset(position_member(range, "start")),
                     positions.offset(position_member(range, "end")));
}

}  // namespace flinch::cli::serve
