#include "json/plain_line.hpp"

#include <simdjson.h>

#include <vector>

namespace flinch::json {
namespace {

using simdjson::dom::element;
using simdjson::dom::element_type;

constexpr std::size_t deepest = 5;  // the line, `answers`, findings, `found`, a site

// Whether the element and all in it are ordinary.
bool flatten(element const& what, std::size_t depth, std::vector<Token>& out) {
  if (depth > deepest) return false;
  switch (what.type()) {
    case element_type::STRING:
      out.push_back({Token::Kind::text, what.get_string().value_unsafe()});
      return true;
    case element_type::BOOL:
      out.push_back({what.get_bool().value_unsafe() ? Token::Kind::yes : Token::Kind::no, {}});
      return true;
    case element_type::OBJECT: {
      out.push_back({Token::Kind::map, {}});
      simdjson::dom::object const map = what.get_object().value_unsafe();
      for (auto const member : map) {
        out.push_back({Token::Kind::text, member.key});
        if (!flatten(member.value, depth + 1, out)) return false;
      }
      break;
    }
    case element_type::ARRAY: {
      out.push_back({Token::Kind::list, {}});
      simdjson::dom::array const list = what.get_array().value_unsafe();
      for (auto const item : list)
        if (!flatten(item, depth + 1, out)) return false;
      break;
    }
    default:
      return false;
  }
  out.push_back({Token::Kind::close, {}});
  return true;
}

}  // namespace

struct PlainLineParser::Memory {
  simdjson::dom::parser parser;
  std::vector<Token> tokens;
};

PlainLineParser::PlainLineParser() : memory_(std::make_unique<Memory>()) {}
PlainLineParser::~PlainLineParser() = default;
PlainLineParser::PlainLineParser(PlainLineParser&&) noexcept = default;
PlainLineParser& PlainLineParser::operator=(PlainLineParser&&) noexcept = default;

std::span<Token const> PlainLineParser::read(std::string_view line) {
  auto& tokens = memory_->tokens;
  tokens.clear();
  element root;
  if (memory_->parser.parse(line.data(), line.size()).get(root) != simdjson::SUCCESS) return {};
  if (!root.is_object() || !flatten(root, 1, tokens)) return {};
  return std::span(tokens).subspan(1);
}

}  // namespace flinch::json
