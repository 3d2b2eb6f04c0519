#include "model/edit/text_places.h"

#include <algorithm>

namespace leat::model {
namespace {

Replacement replacing(std::size_t from, std::size_t to, std::string words) {
  return {from, to - from, std::move(words)};
}

}  // namespace

bool TextPlaces::is_flow(const YamlNode& node) const {
  const char first = letter(marks_.offset(node.position));
  return first == '{' || first == '[';
}

std::optional<Replacement> TextPlaces::value(const YamlNode& node, const std::string& words) const {
  const auto end = end_of(node);
  return end ? std::optional(replacing(marks_.offset(node.position), *end, words)) : std::nullopt;
}

std::optional<Replacement> TextPlaces::key(const YamlEntry& entry, const std::string& words) const {
  const std::size_t at = marks_.offset(entry.position);
  const bool is_quoted = letter(at) == '"' || letter(at) == '\'';
  const auto end = is_quoted ? end_of_quoted(at) : std::optional(at + entry.key.size());
  return end ? std::optional(replacing(at, *end, words)) : std::nullopt;
}

std::optional<Replacement> TextPlaces::first(const YamlNode& node, const std::string& words) const {
  const bool is_empty = node.entries.empty() && node.items.empty();
  const std::size_t at = marks_.offset(node.position);
  if (is_flow(node)) {
    return replacing(at + 1, at + 1, is_empty ? words : words + ", ");
  }
  if (!node.entries.empty()) {
    const SourcePosition first = node.entries.front().position;
    const std::size_t key = marks_.offset(first);
    return replacing(
        key, key, words + '\n' + std::string(static_cast<std::size_t>(first.column - 1), ' '));
  }
  const auto dash = is_empty ? std::nullopt : dash_of(node.items.front());
  return dash ? std::optional(replacing(*dash, *dash, item_lines(*dash, words))) : std::nullopt;
}

std::optional<Replacement> TextPlaces::last_key(const YamlNode& map,
                                                const std::string& words) const {
  const auto end = map.kind == YamlNode::Kind::Map ? end_of_content(map) : std::nullopt;
  if (!end) {
    return std::nullopt;
  }
  if (is_flow(map)) {
    return replacing(*end, *end, map.entries.empty() ? words : ", " + words);
  }
  std::size_t line_end = std::min(text_.find('\n', *end), text_.size());
  const bool has_return = line_end > *end && letter(line_end - 1) == '\r';
  line_end -= has_return ? 1 : 0;
  const int column = map.entries.front().position.column;
  return replacing(line_end,
                   line_end,
                   (has_return ? "\r\n" : "\n") +
                       std::string(static_cast<std::size_t>(column - 1), ' ') + words);
}

std::optional<Replacement> TextPlaces::last_item(const YamlNode& list,
                                                 const std::string& words) const {
  const auto end = list.kind == YamlNode::Kind::List ? end_of_content(list) : std::nullopt;
  if (!end) {
    return std::nullopt;
  }
  if (is_flow(list)) {
    return replacing(*end, *end, list.items.empty() ? words : ", " + words);
  }
  const auto dash = list.items.empty() ? std::nullopt : dash_of(list.items.back());
  if (!dash) {
    return std::nullopt;
  }
  const std::size_t line_end = std::min(text_.find('\n', *end), text_.size());
  const std::size_t line = text_.rfind('\n', *dash) + 1;
  return replacing(
      line_end, line_end, '\n' + std::string(text_.substr(line, *dash - line)) + "- " + words);
}

std::optional<Replacement> TextPlaces::without(const YamlNode& map, const std::string& key) const {
  const auto entry = std::find_if(
      map.entries.begin(), map.entries.end(), [&](const YamlEntry& one) { return one.key == key; });
  if (entry == map.entries.end()) {
    return std::nullopt;
  }
  const auto end = end_of(entry->value);
  if (!end) {
    return std::nullopt;
  }
  std::size_t from = marks_.offset(entry->position);
  if (!is_flow(map)) {
    from = text_.rfind('\n', from) + 1;  // npos + 1 is the text's beginning
    const std::size_t line_end = text_.find('\n', *end);
    return replacing(from, line_end == std::string_view::npos ? text_.size() : line_end + 1, "");
  }
  if (entry + 1 != map.entries.end()) {
    return replacing(from, marks_.offset((entry + 1)->position), "");
  }
  if (entry != map.entries.begin()) {
    const auto before = end_of((entry - 1)->value);
    return before ? std::optional(replacing(*before, *end, "")) : std::nullopt;
  }
  return replacing(from, *end, "");
}

std::pair<std::size_t, std::size_t> TextPlaces::lines_of(const YamlNode& map,
                                                         const YamlEntry& entry) const {
  const std::size_t from = marks_.line_start(first_line(entry));
  const YamlEntry* next = nullptr;
  for (const YamlEntry& other : map.entries) {
    if (next == nullptr && other.position.line > entry.position.line) {
      next = &other;
    }
  }
  const auto end = end_of(entry.value);
  const std::size_t last = end ? std::min(text_.find('\n', *end), text_.size() - 1) + 1
                               : marks_.line_start(entry.position.line + 1);
  const std::size_t to = next == nullptr ? last : marks_.line_start(first_line(*next));
  return {from, std::max(to, last)};
}

char TextPlaces::letter(std::size_t at) const {
  return at < text_.size() ? text_[at] : '\0';
}

std::optional<std::size_t> TextPlaces::end_of_quoted(std::size_t at) const {
  const char quote = text_[at];
  for (std::size_t i = at + 1; i < text_.size(); ++i) {
    if (quote == '"' && text_[i] == '\\') {
      ++i;
    } else if (text_[i] == quote && quote == '\'' && letter(i + 1) == quote) {
      ++i;
    } else if (text_[i] == quote) {
      return i + 1;
    }
  }
  return std::nullopt;
}

std::size_t TextPlaces::past_nothing(std::size_t at) const {
  while (at < text_.size()) {
    if (text_[at] == '#') {
      at = std::min(text_.find('\n', at), text_.size());
    } else if (std::string_view(" \t\r\n,").find(text_[at]) == std::string_view::npos) {
      break;
    } else {
      ++at;
    }
  }
  return at;
}

std::optional<std::size_t> TextPlaces::end_of_content(const YamlNode& node) const {
  if (!node.items.empty()) {
    return end_of(node.items.back());
  }
  if (!node.entries.empty()) {
    return end_of(node.entries.back().value);
  }
  return marks_.offset(node.position) + 1;
}

std::optional<std::size_t> TextPlaces::end_of(const YamlNode& node) const {
  const std::size_t at = marks_.offset(node.position);
  if (node.kind == YamlNode::Kind::List || node.kind == YamlNode::Kind::Map) {
    std::optional<std::size_t> end = end_of_content(node);
    if (!end || !is_flow(node)) {
      return end;
    }
    const std::size_t bracket = past_nothing(*end);
    const char wanted = letter(at) == '{' ? '}' : ']';
    return letter(bracket) == wanted ? std::optional(bracket + 1) : std::nullopt;
  }
  if (node.kind != YamlNode::Kind::Text) {
    return std::nullopt;
  }
  if (letter(at) == '"' || letter(at) == '\'') {
    return end_of_quoted(at);
  }
  return text_.substr(std::min(at, text_.size()), node.text.size()) == node.text
             ? std::optional(at + node.text.size())
             : std::nullopt;
}

std::optional<std::size_t> TextPlaces::dash_of(const YamlNode& item) const {
  const std::size_t at = marks_.offset(item.position);
  const std::size_t dash = text_.rfind('-', at);
  const std::size_t line = text_.rfind('\n', at) + 1;  // npos + 1 is the text's beginning
  return dash != std::string_view::npos && dash >= line ? std::optional(dash) : std::nullopt;
}

std::string TextPlaces::item_lines(std::size_t dash, const std::string& words) const {
  const std::size_t line = text_.rfind('\n', dash) + 1;
  return "- " + words + '\n' + std::string(text_.substr(line, dash - line));
}

int TextPlaces::first_line(const YamlEntry& entry) const {
  int line = entry.position.line;
  const auto column = static_cast<std::size_t>(entry.position.column - 1);
  while (line > 1) {
    const std::string_view above = marks_.line(line - 1);
    if (above.find_first_not_of(' ') != column || above[column] != '#') {
      break;
    }
    --line;
  }
  return line;
}

}  // namespace leat::model
