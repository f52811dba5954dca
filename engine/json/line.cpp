#include "json/line.hpp"

#include <fmt/format.h>
#include <simdjson.h>

#include <algorithm>
#include <cstring>
#include <new>
#include <numeric>
#include <string>

#include "flinch/json/document.hpp"
#include "flinch/text/display.hpp"

namespace flinch::json {
namespace {

using simdjson::error_code;
using simdjson::ondemand::json_type;
using yaml::Member;
using yaml::Node;

// Thrown by this file alone, and ends in `read`.
struct Stop {};
struct NotJson {
  error_code error;
};

std::string_view remedy(error_code error) {
  switch (error) {
    case simdjson::UNCLOSED_STRING:
      return "a text is not closed by a quote";
    case simdjson::STRING_ERROR:
      return "an escape in a text does not exist; JSON has \\n, \\t, \\\", \\\\ and \\u0000";
    case simdjson::UNESCAPED_CHARS:
      return "a control character stands in a text; write it as an escape, such as \\n";
    case simdjson::NUMBER_ERROR:
      return "a number is not well-formed, or too large";
    case simdjson::T_ATOM_ERROR:
    case simdjson::F_ATOM_ERROR:
    case simdjson::N_ATOM_ERROR:
      return "only true, false and null stand without quotes";
    default:
      return "commas, colons, quotes or brackets do not fit, or something follows the object";
  }
}

class TreeBuilder {
 public:
  TreeBuilder(FileId file, char const* begin, std::size_t size, yaml::Limits const& limits,
              Report& report)
      : file_(file), begin_(begin), size_(size), limits_(limits), report_(report) {}

  template <class T>
  static T sure(simdjson::simdjson_result<T> result) {
    T value;
    if (auto const error = std::move(result).get(value)) throw NotJson{error};
    return value;
  }

  [[nodiscard]] Place place(char const* from, std::size_t length) const {
    // Past the end lies the padding.
    auto const offset = std::min(static_cast<std::size_t>(from - begin_), size_);
    return {file_,
            {static_cast<std::uint32_t>(offset),
             static_cast<std::uint32_t>(std::min(offset + length, size_))}};
  }

  Node map(simdjson::ondemand::object object, Place at, std::size_t depth) {
    check_depth(at, depth);
    Node node{Node::Kind::map, {}, false, {}, {}, at};
    for (auto member : object) {
      auto field = sure(std::move(member));
      auto const* const key_start = field.key().raw() - 1;
      auto const key = sure(field.unescaped_key());
      auto const key_at = place(key_start, key.size() + 2);
      std::string owned(key);
      node.members.push_back({std::move(owned), key_at, value(field.value(), depth)});
    }
    refuse_keys_twice(node);
    return node;
  }

 private:
  void check_depth(Place at, std::size_t depth) {
    if (depth <= limits_.depth) return;
    report_.error(Code::json_depth, at,
                  fmt::format("objects and lists nest more than {} deep", limits_.depth));
    throw Stop{};
  }

  Node list(simdjson::ondemand::array array, Place at, std::size_t depth) {
    check_depth(at, depth);
    Node node{Node::Kind::list, {}, false, {}, {}, at};
    for (auto item : array) node.items.push_back(value(sure(std::move(item)), depth));
    return node;
  }

  Node value(simdjson::ondemand::value value, std::size_t depth) {
    auto token = value.raw_json_token();
    while (!token.empty() && std::strchr(" \t\r\n", token.back()) != nullptr)
      token.remove_suffix(1);
    auto const at = place(token.data(), std::max<std::size_t>(1, token.size()));
    switch (sure(value.type())) {
      case json_type::object:
        return map(sure(value.get_object()), at, depth + 1);
      case json_type::array:
        return list(sure(value.get_array()), at, depth + 1);
      case json_type::string:
        return {Node::Kind::scalar, std::string(sure(value.get_string())), true, {}, {}, at};
      case json_type::number:
        (void)sure(value.get_double());  // that it is well-formed; its digits stay as written
        return {Node::Kind::scalar, std::string(token), false, {}, {}, at};
      case json_type::boolean:
        return {Node::Kind::scalar, boolean(sure(value.get_bool()), depth), false, {}, {}, at};
      case json_type::null:
        if (token != "null") throw NotJson{simdjson::N_ATOM_ERROR};
        return {Node::Kind::nothing, {}, false, {}, {}, at};
    }
    throw NotJson{simdjson::TAPE_ERROR};
  }

  // Answers stand among the patient's facts and in `answers`; elsewhere it is a word like others.
  static std::string boolean(bool value, std::size_t depth) {
    if (depth > 1) return value ? "yes" : "no";
    return value ? "true" : "false";
  }

  void refuse_keys_twice(Node const& node) {
    std::vector<std::uint32_t> order(node.members.size());
    std::iota(order.begin(), order.end(), 0U);
    auto const& members = node.members;
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
      auto const less = members[a].key.compare(members[b].key);
      return less != 0 ? less < 0 : a < b;
    });
    for (std::size_t i = 1; i < order.size(); ++i) {
      auto const& first = members[order[i - 1]];
      auto const& again = members[order[i]];
      if (first.key == again.key)
        report_
            .error(Code::json_key_twice, again.key_at,
                   fmt::format("`{}` is given twice", again.key))
            .notes.push_back({"first given here", first.key_at});
    }
  }

  FileId file_;
  char const* begin_;
  std::size_t size_;
  yaml::Limits const& limits_;
  Report& report_;
};

// What is read, and what is said when it is something else.
struct Asked {
  FileId file;
  std::string_view text;
  char const* name;       // "the line"
  char const* is_object;  // "a case is an object with ..."
};

// `parser` and `padded` keep their memory from one reading to the next.
std::optional<Node> read_object(Asked const& asked, yaml::Limits const& limits,
                                simdjson::ondemand::parser& parser, std::string& padded,
                                Report& report) {
  auto const text = asked.text;
  if (text.size() > limits.bytes) {
    report.error(
        Code::too_large, {asked.file, {}},
        fmt::format("{} has {} bytes; at most {} are read", asked.name, text.size(), limits.bytes));
    return std::nullopt;
  }
  padded.assign(text);
  padded.append(simdjson::SIMDJSON_PADDING, ' ');
  TreeBuilder builder(asked.file, padded.data(), text.size(), limits, report);
  auto const errors = report.error_count();
  simdjson::ondemand::document document;
  bool has_begun = false;  // before, the document has no place to ask for
  try {
    document = TreeBuilder::sure(
        parser.iterate(simdjson::padded_string_view(padded.data(), text.size(), padded.size())));
    has_begun = true;
    if (TreeBuilder::sure(document.type()) != json_type::object) {
      report.error(Code::case_shape, builder.place(padded.data(), 1), asked.is_object);
      return std::nullopt;
    }
    auto const first = static_cast<std::size_t>(text.find('{'));
    auto root = builder.map(TreeBuilder::sure(document.get_object()),
                            builder.place(padded.data() + first, 1), 1);
    if (document.current_location().error() != simdjson::OUT_OF_BOUNDS)
      throw NotJson{simdjson::TAPE_ERROR};
    if (report.error_count() > errors) return std::nullopt;
    return root;
  } catch (Stop const&) {
    return std::nullopt;
  } catch (NotJson const& mistake) {
    if (mistake.error == simdjson::MEMALLOC) throw std::bad_alloc();
    if (auto const bad = find_invalid_utf8(text); bad != std::string_view::npos) {
      report.error(Code::bad_utf8, builder.place(padded.data() + bad, 1),
                   "this byte is not valid UTF-8");
      return std::nullopt;
    }
    Place at{asked.file, {}};
    char const* where = nullptr;
    if (has_begun && document.current_location().get(where) == simdjson::SUCCESS &&
        where != nullptr)
      at = builder.place(where, 1);
    report.error(Code::json_syntax, at, fmt::format("not JSON: {}", remedy(mistake.error)));
    return std::nullopt;
  }
}

}  // namespace

struct LineParser::Memory {
  yaml::Limits limits;
  simdjson::ondemand::parser parser;
  std::string padded;
};

LineParser::LineParser(yaml::Limits const& limits) : memory_(std::make_unique<Memory>()) {
  memory_->limits = limits;
}
LineParser::~LineParser() = default;
LineParser::LineParser(LineParser&&) noexcept = default;
LineParser& LineParser::operator=(LineParser&&) noexcept = default;

std::optional<Node> LineParser::read(std::string_view line, Report& report) {
  return read_object({FileId{}, line, "the line", "a case is an object: {...}"}, memory_->limits,
                     memory_->parser, memory_->padded, report);
}

std::optional<Node> read(SourceSet const& sources, FileId file, yaml::Limits const& limits,
                         Report& report) {
  simdjson::ondemand::parser parser;
  std::string padded;
  return read_object({file, sources[file].text(), "the file", "the document is an object: {...}"},
                     limits, parser, padded, report);
}

}  // namespace flinch::json
