#include "flinch/yaml/document.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>

#include "flinch/text/display.hpp"

namespace flinch::yaml {
namespace {

// Thrown through yaml-cpp to stop it; ends in `read`.
struct Stop {};

class Builder : public YAML::EventHandler {
 public:
  Builder(std::string_view text, FileId file, Limits const& limits, Report& report)
      : text_(text), file_(file), limits_(limits), report_(report) {}

  [[nodiscard]] Node take() { return std::move(root_); }
  [[nodiscard]] Place place(YAML::Mark const& mark, std::size_t length) const {
    auto const size = static_cast<std::uint32_t>(text_.size());
    auto const begin = std::min(size, mark.pos < 0 ? 0U : static_cast<std::uint32_t>(mark.pos));
    return {file_, {begin, std::min(size, begin + static_cast<std::uint32_t>(length))}};
  }

  void OnDocumentStart(YAML::Mark const&) override {}
  void OnDocumentEnd() override {}
  void OnNull(YAML::Mark const& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    add({Node::Kind::nothing, {}, false, {}, {}, place(mark, 1)});
  }
  void OnAlias(YAML::Mark const& mark, YAML::anchor_t) override {
    report_.error(Code::yaml_alias, place(mark, 1),
                  "anchors and aliases are not read here: write the value out");
    throw Stop{};
  }
  void OnScalar(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                std::string const& value) override {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    // The mark stands at the opening quote of a quoted scalar.
    bool const quoted = tag == "!";
    add({Node::Kind::scalar,
         value,
         quoted,
         {},
         {},
         place(mark, std::max<std::size_t>(1, value.size() + (quoted ? 2 : 0)))});
  }
  void OnSequenceStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(Node::Kind::list, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(YAML::Mark const& mark, std::string const& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(Node::Kind::map, mark, tag, anchor);
  }
  void OnMapEnd() override { close(); }

 private:
  struct Open {
    Node node;
    std::string key;
    Place key_at;
    bool has_key = false;
  };

  void refuse_anchor(YAML::Mark const& mark, YAML::anchor_t anchor) {
    if (anchor == YAML::NullAnchor) return;
    OnAlias(mark, anchor);
  }
  void refuse_tag(YAML::Mark const& mark, std::string const& tag) {
    if (tag.empty() || tag == "?" || tag == "!") return;
    report_.error(Code::yaml_tag, place(mark, 1),
                  "tags such as `!!str` are not read here: leave the tag out");
    throw Stop{};
  }
  void open(Node::Kind kind, YAML::Mark const& mark, std::string const& tag,
            YAML::anchor_t anchor) {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    if (open_.size() >= limits_.depth) {
      report_.error(Code::yaml_depth, place(mark, 1),
                    fmt::format("lists and maps nest more than {} deep", limits_.depth));
      throw Stop{};
    }
    open_.push_back({{kind, {}, false, {}, {}, place(mark, 1)}, {}, {}, false});
  }
  void close() {
    auto node = std::move(open_.back().node);
    open_.pop_back();
    add(std::move(node));
  }
  void add(Node node) {
    if (open_.empty()) {
      root_ = std::move(node);
      return;
    }
    auto& parent = open_.back();
    if (parent.node.kind == Node::Kind::list) {
      parent.node.items.push_back(std::move(node));
    } else if (!parent.has_key) {
      key(parent, node);
    } else {
      parent.has_key = false;
      parent.node.members.push_back({std::move(parent.key), parent.key_at, std::move(node)});
    }
  }
  void key(Open& parent, Node const& node) {
    if (node.kind != Node::Kind::scalar) {
      report_.error(Code::yaml_key, node.at, "a key is a single word or text");
      throw Stop{};
    }
    auto const twice = std::find_if(parent.node.members.begin(), parent.node.members.end(),
                                    [&](Member const& m) { return m.key == node.scalar; });
    if (twice != parent.node.members.end())
      report_.error(Code::yaml_key_twice, node.at, fmt::format("`{}` is given twice", node.scalar))
          .notes.push_back({"first given here", twice->key_at});
    parent.key = node.scalar;
    parent.key_at = node.at;
    parent.has_key = true;
  }

  std::string_view text_;
  FileId file_;
  Limits const& limits_;
  Report& report_;
  std::vector<Open> open_;
  Node root_;
};

// The slips that the library calls by other names, and finds a line too late.
struct Slip {
  std::uint32_t at = 0;
  char const* what = nullptr;
};

std::optional<Slip> slip_near(std::string_view text, std::size_t at) {
  auto const line_begin = [&](std::size_t from) {
    auto const before = from == 0 ? std::string_view::npos : text.rfind('\n', from - 1);
    return before == std::string_view::npos ? 0 : before + 1;
  };
  at = std::min(at, text.size());
  auto begin = line_begin(at);
  for (int lines = 0; lines < 2; ++lines) {
    auto const line = text.substr(begin, text.find('\n', begin) - begin);
    auto const first = line.find_first_not_of(" \t");
    auto const indent = line.substr(0, std::min(first, line.size()));
    if (auto const tab = indent.find('\t'); tab != std::string_view::npos)
      return Slip{static_cast<std::uint32_t>(begin + tab),
                  "a tab stands here: lines are indented by blanks alone"};
    auto const colon = line.find(':');
    bool const is_plain = colon != std::string_view::npos &&
                          line.substr(0, colon).find_first_of("\"'{[#") == std::string_view::npos;
    if (is_plain && colon + 1 < line.size() && line[colon + 1] != ' ' && line[colon + 1] != '\r')
      return Slip{static_cast<std::uint32_t>(begin + colon),
                  "a blank is missing behind this colon, as in `key: value`"};
    if (begin == 0) break;
    begin = line_begin(begin - 1);
  }
  return std::nullopt;
}

}  // namespace

Node const* Node::find(std::string_view key) const {
  auto const found = std::find_if(members.begin(), members.end(),
                                  [&](Member const& member) { return member.key == key; });
  return found == members.end() ? nullptr : &found->value;
}

std::optional<Node> read(SourceSet const& sources, FileId file, Limits const& limits,
                         Report& report) {
  auto const text = sources[file].text();
  if (text.size() > limits.bytes) {
    report.error(
        Code::too_large, {file, {0, 0}},
        fmt::format("the file has more than {} bytes, and no more are read", limits.bytes));
    return std::nullopt;
  }
  if (auto const bad = find_invalid_utf8(text); bad != std::string_view::npos) {
    auto const at = static_cast<std::uint32_t>(bad);
    report.error(Code::bad_utf8, {file, {at, at + 1}},
                 "this byte is not valid UTF-8: save the file as UTF-8");
    return std::nullopt;
  }
  auto const errors = report.error_count();
  Builder builder(text, file, limits, report);
  try {
    std::istringstream stream{std::string(text)};
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) {
      Node nothing;
      nothing.at = {file, {0, 0}};
      return nothing;
    }
    auto root = builder.take();
    Builder rest(text, file, limits, report);
    if (parser.HandleNextDocument(rest))
      report.error(Code::yaml_documents, {file, {0, 0}},
                   "one document a file: this file holds more");
    if (report.error_count() > errors) return std::nullopt;
    return root;
  } catch (Stop const&) {
    return std::nullopt;
  } catch (YAML::Exception const& e) {
    auto const at = builder.place(e.mark, 1);
    if (auto const slip = slip_near(text, at.span.begin)) {
      auto const place = Place{file, {slip->at, slip->at + 1}};
      report.error(Code::yaml_syntax, place, slip->what);
    } else {
      report.error(Code::yaml_syntax, at, fmt::format("not YAML: {}", e.msg))
          .notes.push_back(
              {"every line is `key: value`, what belongs together is indented alike by "
               "blanks, and `[` and `{` are closed",
               {}});
    }
    return std::nullopt;
  }
}

}  // namespace flinch::yaml
