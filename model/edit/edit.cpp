#include "model/edit/edit.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <span>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/edit/text_places.h"
#include "model/edit/yaml_scalar.h"
#include "model/text/problem_list.h"
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

/// The node at a path; null where there is none.
template <class Node>
Node* node_below(Node& root, Path path) {
  Node* node = &root;
  for (const std::string& step : path) {
    node = node == nullptr ? nullptr : below(*node, step);
  }
  return node;
}

auto entry_named(auto& map, const std::string& key) {
  return std::find_if(
      map.entries.begin(), map.entries.end(), [&](const auto& entry) { return entry.key == key; });
}

YamlNode text_node(const std::string& text) {
  YamlNode node;
  node.kind = YamlNode::Kind::Text;
  node.text = text;
  return node;
}

/// The value that a piece of YAML on one line reads as; Nothing where it reads as none.
YamlNode node_of(const std::string& yaml) {
  ProblemList problems("");
  YamlNode map = read_yaml("key: " + yaml + '\n', problems);
  return map.entries.size() == 1 && yaml.find('\n') == std::string::npos
             ? std::move(map.entries.front().value)
             : YamlNode();
}

// --- What the tree is to hold afterwards. False where an edit finds no place in it.

/// The map gets the key, or loses it.
bool put_into_tree(YamlNode& node, Path path, const std::optional<std::string>& text) {
  if (path.empty()) {
    node = text_node(*text);
    return true;
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
  return true;
}

bool put_into_tree(YamlNode& root, const TextEdit& edit) {
  return !edit.path.empty() && put_into_tree(root, edit.path, edit.text);
}

bool put_into_tree(YamlNode& root, const InsertEdit& edit) {
  YamlNode* const node = node_below(root, edit.path);
  YamlNode value = node_of(edit.yaml);
  if (node == nullptr || value.kind == YamlNode::Kind::Nothing) {
    return false;
  }
  const bool is_first = edit.where == InsertEdit::Where::First;
  if (edit.key.empty()) {
    node->items.insert(is_first ? node->items.begin() : node->items.end(), std::move(value));
    return node->kind == YamlNode::Kind::List;
  }
  const bool is_new = entry_named(*node, edit.key) == node->entries.end();
  YamlEntry entry;
  entry.key = edit.key;
  entry.value = std::move(value);
  node->entries.insert(is_first ? node->entries.begin() : node->entries.end(), std::move(entry));
  return is_new && node->kind == YamlNode::Kind::Map;
}

/// The map that holds the path's last key; null where there is none.
template <class Node>
Node* map_around(Node& root, Path path) {
  Node* const map = path.empty() ? nullptr : node_below(root, path.first(path.size() - 1));
  return map != nullptr && map->kind == YamlNode::Kind::Map &&
                 entry_named(*map, path.back()) != map->entries.end()
             ? map
             : nullptr;
}

bool put_into_tree(YamlNode& root, const RenameEdit& edit) {
  YamlNode* const map = map_around(root, edit.path);
  if (map == nullptr || entry_named(*map, edit.name) != map->entries.end()) {
    return false;
  }
  entry_named(*map, edit.path.back())->key = edit.name;
  return true;
}

bool put_into_tree(YamlNode& root, const MoveEdit& edit) {
  YamlNode* const map = map_around(root, edit.path);
  if (map == nullptr || edit.path.back() == edit.before) {
    return false;
  }
  const auto moved = entry_named(*map, edit.path.back());
  YamlEntry entry = std::move(*moved);
  map->entries.erase(moved);
  const auto before = entry_named(*map, edit.before);
  const bool finds_place = edit.before.empty() || before != map->entries.end();
  map->entries.insert(before, std::move(entry));
  return finds_place;
}

/// A tree and the bytes it was read from: the new text of an edit, none where it finds no place.
class Splice {
 public:
  Splice(std::string_view text, const YamlNode& root) : text_(text), places_(text), root_(root) {}

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
      return rest.empty() && parent != nullptr ? with(places_.without(*parent, edit.path.back()))
                                               : std::optional(std::string(text_));
    }
    return rest.empty() ? with(places_.value(*node, yaml_scalar(*edit.text)))
                        : with(places_.last_key(*node, words_for(rest, *edit.text)));
  }

  [[nodiscard]] std::optional<std::string> made(const InsertEdit& edit) const {
    const YamlNode* const node = node_below(root_, edit.path);
    if (node == nullptr) {
      return std::nullopt;
    }
    const std::string words =
        edit.key.empty() ? edit.yaml : yaml_scalar(edit.key) + ": " + edit.yaml;
    if (edit.where == InsertEdit::Where::First) {
      return with(places_.first(*node, words));
    }
    return with(edit.key.empty() ? places_.last_item(*node, words)
                                 : places_.last_key(*node, words));
  }

  [[nodiscard]] std::optional<std::string> made(const RenameEdit& edit) const {
    const YamlEntry& entry = *entry_named(*map_around(root_, edit.path), edit.path.back());
    return with(places_.key(entry, yaml_scalar(edit.name)));
  }

  [[nodiscard]] std::optional<std::string> made(const MoveEdit& edit) const {
    const YamlNode& map = *map_around(root_, edit.path);
    if (places_.is_flow(map)) {
      return std::nullopt;
    }
    const auto [from, to] = places_.lines_of(map, *entry_named(map, edit.path.back()));
    const std::size_t at = edit.before.empty()
                               ? places_.lines_of(map, map.entries.back()).second
                               : places_.lines_of(map, *entry_named(map, edit.before)).first;
    std::string lines(text_.substr(from, to - from));
    lines += lines.ends_with('\n') ? "" : "\n";
    return with_replacements(text_, {{from, to - from, ""}, {at, 0, std::move(lines)}});
  }

 private:
  static std::string words_for(Path path, const std::string& text) {
    const std::string key = yaml_scalar(path.front()) + ": ";
    return path.size() == 1 ? key + yaml_scalar(text)
                            : key + '{' + words_for(path.subspan(1), text) + '}';
  }

  [[nodiscard]] std::optional<std::string> with(std::optional<Replacement> one) const {
    return one ? std::optional(with_replacements(text_, {*std::move(one)})) : std::nullopt;
  }

  std::string_view text_;
  TextPlaces places_;
  const YamlNode& root_;
};

std::string told(const EditPath& path) {
  return fmt::format("{}", fmt::join(path, ", "));
}

std::string what_cannot_be(const TextEdit& edit) {
  return edit.text
             ? fmt::format("'{}' cannot be put into the file at: {}", *edit.text, told(edit.path))
             : fmt::format("this cannot be taken out of the file: {}", told(edit.path));
}

std::string what_cannot_be(const InsertEdit& edit) {
  return fmt::format("'{}' cannot be put into the file at: {}", edit.yaml, told(edit.path));
}

std::string what_cannot_be(const RenameEdit& edit) {
  return fmt::format("this cannot be named '{}' in the file: {}", edit.name, told(edit.path));
}

std::string what_cannot_be(const MoveEdit& edit) {
  return fmt::format("this cannot be moved within the file: {}", told(edit.path));
}

std::variant<std::string, Diagnostic> edited_once(std::string_view text,
                                                  const std::string& file,
                                                  const Edit& edit) {
  ProblemList problems(file);
  const YamlNode tree = read_yaml(text, problems);
  YamlNode wanted = tree;
  const bool finds_place =
      std::visit([&wanted](const auto& one) { return put_into_tree(wanted, one); }, edit);
  if (finds_place) {
    const auto made =
        std::visit([&](const auto& one) { return Splice(text, tree).made(one); }, edit);
    ProblemList problems_now(file);
    if (made && holds_the_same(wanted, read_yaml(*made, problems_now))) {
      return *made;
    }
  }
  Diagnostic problem;
  problem.code = "cannot-splice";
  problem.file = file;
  problem.text = std::visit([](const auto& one) { return what_cannot_be(one); }, edit);
  problem.hint = "change it in an editor";
  return problem;
}

/// The values of a map or list below `path` that name `from`, each set to `to`.
void add_references(const YamlNode& root,
                    const EditPath& path,
                    const std::string& from,
                    const std::string& to,
                    std::vector<Edit>& edits) {
  const YamlNode* const things = node_below(root, Path(path).first(1));
  if (things == nullptr) {
    return;
  }
  const std::string& key = path.back();
  const auto add_from = [&](const std::string& name, const YamlNode& thing) {
    const auto entry = entry_named(thing, key);
    if (entry != thing.entries.end() && entry->value.text == from) {
      edits.emplace_back(TextEdit{{path.front(), name, key}, to});
    }
  };
  for (const YamlEntry& thing : things->entries) {
    add_from(thing.key, thing.value);
  }
  for (std::size_t i = 0; i < things->items.size(); ++i) {
    add_from(std::to_string(i), things->items[i]);
  }
}

}  // namespace

std::variant<std::string, Diagnostic> edited_text(std::string_view source,
                                                  const std::string& file,
                                                  const std::vector<Edit>& edits) {
  const bool is_marked = source.starts_with(byte_order_mark);
  std::string text(source.substr(is_marked ? byte_order_mark.size() : 0));
  for (const Edit& edit : edits) {
    std::variant<std::string, Diagnostic> next = edited_once(text, file, edit);
    if (std::holds_alternative<Diagnostic>(next)) {
      return next;
    }
    text = std::get<std::string>(std::move(next));
  }
  return is_marked ? std::string(byte_order_mark) + text : text;
}

std::vector<Edit> renaming(std::string_view source,
                           const std::string& section,
                           const std::string& from,
                           const std::string& to) {
  ProblemList problems("");
  const YamlNode root = read_yaml(source, problems);
  std::vector<Edit> edits;
  const EditPath own = {section, from};
  if (map_around(root, own) == nullptr) {
    return edits;
  }
  // A name measured at is a pipe's where a pipe has it.
  const EditPath pipe = {"pipes", from};
  const bool is_pipe = section == "pipes";
  const bool is_measured_at = is_pipe || map_around(root, pipe) == nullptr;
  edits.emplace_back(RenameEdit{own, to});
  for (const EditPath& path :
       is_pipe ? std::vector<EditPath>{{"rams", "drive"}, {"rams", "delivery"}}
               : std::vector<EditPath>{
                     {"pipes", "from"}, {"pipes", "to"}, {"pumps", "from"}, {"pumps", "to"}}) {
    add_references(root, path, from, to, edits);
  }
  if (is_measured_at) {
    add_references(root, {"measured", "at"}, from, to, edits);
  }
  const EditPath float_break = {"breaks", from};
  if (!is_pipe && map_around(root, float_break) != nullptr) {
    edits.emplace_back(RenameEdit{float_break, to});
  }
  return edits;
}

}  // namespace leat::model
