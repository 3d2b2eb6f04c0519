#include "model/edit/text_splice.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "model/edit/yaml_scalar.h"
#include "model/text/problem_list.h"
#include "model/text/text_marks.h"
#include "model/text/yaml_tree.h"

namespace leat::model {
namespace {

using Path = std::span<const std::string>;

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Whether two trees hold the same, wherever it stands.
bool holds_the_same(const YamlNode& one, const YamlNode& other) {
  return one.kind == other.kind && one.text == other.text &&
         std::equal(one.items.begin(),
                    one.items.end(),
                    other.items.begin(),
                    other.items.end(),
                    holds_the_same) &&
         std::equal(one.entries.begin(),
                    one.entries.end(),
                    other.entries.begin(),
                    other.entries.end(),
                    [](const YamlEntry& a, const YamlEntry& b) {
                      return a.key == b.key && holds_the_same(a.value, b.value);
                    });
}

std::optional<std::size_t> index_named(const std::string& step, std::size_t count) {
  std::size_t index = 0;
  const char* const end = step.data() + step.size();
  const auto read = std::from_chars(step.data(), end, index);
  const bool is_number = read.ec == std::errc() && read.ptr == end;
  return is_number && index < count ? std::optional(index) : std::nullopt;
}

/// The value one step below a node; null where there is none. `Node` is const or not.
template <class Node>
Node* below(Node& node, const std::string& step) {
  if (node.kind == YamlNode::Kind::List) {
    const auto index = index_named(step, node.items.size());
    return index ? &node.items[*index] : nullptr;
  }
  for (auto& entry : node.entries) {
    if (entry.key == step) {
      return &entry.value;
    }
  }
  return nullptr;
}

/// What the tree is to hold afterwards: the map gets the key, or loses it.
void put_into_tree(YamlNode& node, Path path, const std::optional<std::string>& text) {
  if (path.empty()) {
    node = YamlNode{};
    node.kind = YamlNode::Kind::Text;
    node.text = *text;
    return;
  }
  YamlNode* const found = below(node, path.front());
  if (found != nullptr && (text || path.size() > 1)) {
    put_into_tree(*found, path.subspan(1), text);
  } else if (found != nullptr) {
    std::erase_if(node.entries, [&](const YamlEntry& entry) { return entry.key == path.front(); });
  } else if (text) {
    YamlEntry entry;
    entry.key = path.front();
    entry.value.kind = YamlNode::Kind::Map;
    put_into_tree(entry.value, path.subspan(1), text);
    node.entries.push_back(std::move(entry));
  }
}

/// A tree and the bytes it was read from.
class Splice {
 public:
  Splice(std::string_view text, const YamlNode& root) : text_(text), marks_(text), root_(root) {}

  /// The new text; none where the edit finds no place.
  [[nodiscard]] std::optional<std::string> made(const TextEdit& edit) const {
    const YamlNode* parent = nullptr;
    const YamlNode* node = &root_;
    std::size_t depth = 0;
    while (depth < edit.path.size()) {
      const YamlNode* const next = below(*node, edit.path[depth]);
      if (next == nullptr) {
        break;
      }
      parent = node;
      node = next;
      ++depth;
    }
    const Path rest = Path(edit.path).subspan(depth);
    if (!edit.text) {
      return rest.empty() && parent != nullptr ? without(*parent, edit.path.back())
                                               : std::optional(std::string(text_));
    }
    return rest.empty() ? with_value(*node, yaml_scalar(*edit.text))
                        : with_key(*node, words_for(rest, *edit.text));
  }

 private:
  static std::string words_for(Path path, const std::string& text) {
    const std::string key = yaml_scalar(path.front()) + ": ";
    return path.size() == 1 ? key + yaml_scalar(text)
                            : key + '{' + words_for(path.subspan(1), text) + '}';
  }

  [[nodiscard]] char letter(std::size_t at) const { return at < text_.size() ? text_[at] : '\0'; }

  [[nodiscard]] bool is_flow(const YamlNode& node) const {
    const char first = letter(marks_.offset(node.position));
    return first == '{' || first == '[';
  }

  /// The byte after a text in quotes that begins at `at`.
  [[nodiscard]] std::optional<std::size_t> end_of_quoted(std::size_t at) const {
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

  /// Past blanks, line ends, remarks and commas.
  [[nodiscard]] std::size_t past_nothing(std::size_t at) const {
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

  /// The byte after the last of a map's or list's own; before its closing bracket where it has one.
  [[nodiscard]] std::optional<std::size_t> end_of_content(const YamlNode& node) const {
    if (!node.items.empty()) {
      return end_of(node.items.back());
    }
    if (!node.entries.empty()) {
      return end_of(node.entries.back().value);
    }
    return marks_.offset(node.position) + 1;
  }

  /// The byte after a value; none where its end cannot be told.
  [[nodiscard]] std::optional<std::size_t> end_of(const YamlNode& node) const {
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

  [[nodiscard]] std::string replaced(std::size_t from,
                                     std::size_t to,
                                     const std::string& words) const {
    std::string text(text_.substr(0, from));
    text += words;
    return text.append(text_.substr(to));
  }

  [[nodiscard]] std::optional<std::string> with_value(const YamlNode& node,
                                                      const std::string& words) const {
    const auto end = end_of(node);
    return end ? std::optional(replaced(marks_.offset(node.position), *end, words)) : std::nullopt;
  }

  [[nodiscard]] std::optional<std::string> with_key(const YamlNode& map,
                                                    const std::string& words) const {
    const auto end = map.kind == YamlNode::Kind::Map ? end_of_content(map) : std::nullopt;
    if (!end) {
      return std::nullopt;
    }
    if (is_flow(map)) {
      return replaced(*end, *end, map.entries.empty() ? words : ", " + words);
    }
    std::size_t line_end = std::min(text_.find('\n', *end), text_.size());
    const bool has_return = line_end > *end && letter(line_end - 1) == '\r';
    line_end -= has_return ? 1 : 0;
    const int column = map.entries.front().position.column;
    return replaced(line_end,
                    line_end,
                    (has_return ? "\r\n" : "\n") +
                        std::string(static_cast<std::size_t>(column - 1), ' ') + words);
  }

  [[nodiscard]] std::optional<std::string> without(const YamlNode& map,
                                                   const std::string& key) const {
    const auto entry = std::find_if(map.entries.begin(),
                                    map.entries.end(),
                                    [&](const YamlEntry& one) { return one.key == key; });
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
      return replaced(from, line_end == std::string_view::npos ? text_.size() : line_end + 1, "");
    }
    if (entry + 1 != map.entries.end()) {
      return replaced(from, marks_.offset((entry + 1)->position), "");
    }
    if (entry != map.entries.begin()) {
      const auto before = end_of((entry - 1)->value);
      return before ? std::optional(replaced(*before, *end, "")) : std::nullopt;
    }
    return replaced(from, *end, "");
  }

  std::string_view text_;
  TextMarks marks_;
  const YamlNode& root_;
};

Diagnostic cannot(const TextEdit& edit, const std::string& file) {
  std::string where;
  for (const std::string& step : edit.path) {
    where += (where.empty() ? "" : ", ") + step;
  }
  Diagnostic problem;
  problem.code = "cannot-splice";
  problem.file = file;
  problem.text = edit.text
                     ? fmt::format("'{}' cannot be put into the file at: {}", *edit.text, where)
                     : fmt::format("this cannot be taken out of the file: {}", where);
  problem.hint = "change it in an editor";
  return problem;
}

std::variant<std::string, Diagnostic> spliced_once(std::string_view text,
                                                   const std::string& file,
                                                   const TextEdit& edit) {
  ProblemList problems(file);
  YamlNode tree = read_yaml(text, problems);
  const auto made =
      edit.path.empty() ? std::optional<std::string>() : Splice(text, tree).made(edit);
  if (!made) {
    return cannot(edit, file);
  }
  put_into_tree(tree, edit.path, edit.text);
  ProblemList problems_now(file);
  return holds_the_same(tree, read_yaml(*made, problems_now))
             ? std::variant<std::string, Diagnostic>(*made)
             : cannot(edit, file);
}

}  // namespace

std::variant<std::string, Diagnostic> spliced_text(std::string_view source,
                                                   const std::string& file,
                                                   const std::vector<TextEdit>& edits) {
  const bool is_marked = source.starts_with(byte_order_mark);
  std::string text(source.substr(is_marked ? byte_order_mark.size() : 0));
  for (const TextEdit& edit : edits) {
    std::variant<std::string, Diagnostic> next = spliced_once(text, file, edit);
    if (std::holds_alternative<Diagnostic>(next)) {
      return next;
    }
    text = std::get<std::string>(std::move(next));
  }
  return is_marked ? std::string(byte_order_mark) + text : text;
}

}  // namespace leat::model
