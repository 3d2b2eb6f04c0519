#include "render/page/page_controls.h"

#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "model/keys/farm_keys.h"
#include "model/keys/pipe_part.h"
#include "model/keys/size.h"
#include "render/page/page_tree.h"
#include "render/pictures/schematic/pipe_label.h"
#include "render/pictures/schematic/place_label.h"
#include "render/words/running_text.h"

namespace leat::render {
namespace {

using Path = std::vector<std::string>;

/// How the value of a key is turned, and between which words where it is a choice.
struct Input {
  const char* kind = "amount";
  std::vector<std::string_view> words;
};

Input input_of(const Path& path) {
  const model::KeyRow* const row = model::key_row(path);
  if (row == nullptr) {
    return {};
  }
  const model::Kind& kind = row->kind;
  if (kind.keys == &model::own_size_keys()) {
    return {"size", {}};
  }
  if (kind.definition == model::placement_definition) {
    return {"text", {}};
  }
  const std::vector<std::string_view> words = model::words_to_choose(kind);
  return words.empty() ? Input{} : Input{"choice", words};
}

/// Keys a person trying things out seldom turns.
bool is_aside(const Path& path) {
  const model::KeyRow* const row = model::key_row(path);
  return row != nullptr && row->words.is_aside;
}

/// The month a map by months is read at.
struct MonthInForce {
  std::string name;  // empty: the answer does not depend on the month
};

Json control(const Path& path, std::string label, const std::string& text, const char* input) {
  Json object;
  object["path"] = path;
  object["label"] = std::move(label);
  object["text"] = text;
  object["input"] = input;
  object["aside"] = false;
  return object;
}

/// Walks what the file says of one thing.
class ControlList {
 public:
  explicit ControlList(MonthInForce month) : month_(std::move(month)) {}

  void add(const model::YamlNode& node, const Path& path, const std::string& label, bool aside) {
    switch (node.kind) {
      case model::YamlNode::Kind::Text:
        add_text(node, path, label, aside);
        return;
      case model::YamlNode::Kind::List:
        for (std::size_t i = 0; i < node.items.size(); ++i) {
          add(node.items[i],
              below(path, std::to_string(i)),
              fmt::format("{} {}", label, i + 1),
              true);
        }
        return;
      case model::YamlNode::Kind::Map:
        add_map(node, path, label, aside);
        return;
      case model::YamlNode::Kind::Nothing:
      case model::YamlNode::Kind::Refused:
        return;
    }
  }

  [[nodiscard]] Json take() { return std::move(list_); }

 private:
  static Path below(Path path, const std::string& step) {
    path.push_back(step);
    return path;
  }

  void add_text(const model::YamlNode& node,
                const Path& path,
                const std::string& label,
                bool aside) {
    Json object = control(path, label, node.text, "amount");
    const Input input = input_of(path);
    object["input"] = input.kind;
    if (!input.words.empty()) {
      object["words"] = input.words;
    }
    object["aside"] = aside;
    list_.push_back(std::move(object));
  }

  void add_map(const model::YamlNode& node,
               const Path& path,
               const std::string& label,
               bool aside) {
    if (path.size() == 3 && path.back() == "valve") {
      add_valve(node, path);
      return;
    }
    bool by_month = false;
    for (const model::YamlEntry& entry : node.entries) {
      const bool is_month = model::month_named(entry.key).has_value();
      by_month = by_month || is_month;
      const std::string words = path.size() == 2 ? entry.key
                                : is_month       ? fmt::format("{} in {}", label, entry.key)
                                                 : fmt::format("{}, {}", label, entry.key);
      add(entry.value,
          below(path, entry.key),
          words,
          aside || is_aside(below(path, entry.key)) || (is_month && entry.key != month_.name));
    }
    if (by_month && !month_.name.empty() && node_at(node, {month_.name}) == nullptr) {
      list_.push_back(control(
          below(path, month_.name), fmt::format("{} in {}", label, month_.name), "", "amount"));
    }
  }

  /// The valve as one thing to turn; its kind and place follow.
  void add_valve(const model::YamlNode& node, const Path& path) {
    const model::YamlNode* const open = node_at(node, {"open"});
    const model::YamlNode* const shut = node_at(node, {"shut"});
    const model::YamlNode* const type = node_at(node, {"type"});
    Json object = control(path, "valve", open == nullptr ? "1" : open->text, "valve");
    object["shut"] = shut != nullptr && (shut->text == "yes" || shut->text == "true");
    object["ball"] = type != nullptr && type->text == "ball";
    list_.push_back(std::move(object));
    for (const model::YamlEntry& entry : node.entries) {
      if (entry.key != "open" && entry.key != "shut") {
        add(entry.value, below(path, entry.key), "valve, " + entry.key, true);
      }
    }
  }

  MonthInForce month_;
  Json list_ = Json::array();
};

/// A box's words without its name, line by line.
Json facts_of(const BoxText& text) {
  Json lines = Json::array();
  for (const FactLine& facts : text.facts) {
    std::string line;
    for (const std::string& fact : facts) {
      line += (line.empty() ? "" : ", ") + fact;
    }
    lines.push_back(printable(line));
  }
  for (const std::string& words : text.attention) {
    lines.push_back(printable(words));
  }
  return lines;
}

Json item_of(std::string id,
             const char* kind,
             const std::string& name,
             const model::YamlNode& tree,
             const MonthInForce& month) {
  Json item;
  item["id"] = std::move(id);
  item["kind"] = kind;
  item["name"] = name;
  item["facts"] = Json::array();
  const Path path{std::string(kind) + "s", name};
  ControlList list(month);
  if (const model::YamlNode* const node = node_at(tree, path)) {
    list.add(*node, path, "level", false);
  }
  item["controls"] = list.take();
  return item;
}

}  // namespace

Json page_controls(const model::Farm& farm,
                   const solver::SteadyAnswer& answer,
                   const model::YamlNode& tree,
                   model::UnitSystem units) {
  const MonthInForce month{answer.month ? std::string(model::name_of(*answer.month)) : ""};
  Json items = Json::array();
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::Place& place = farm.places[i];
    items.push_back(
        item_of(fmt::format("place_{}", i), model::kind_word(place), place.name, tree, month));
    if (answer.converged) {
      items.back()["facts"] = facts_of(place_text(farm, answer, i, units));
    }
  }
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    items.push_back(item_of(fmt::format("pipe_{}", i), "pipe", farm.pipes[i].name, tree, month));
    if (answer.converged) {
      items.back()["facts"] = facts_of(pipe_text(farm, answer, i, units));
    }
  }
  return items;
}

}  // namespace leat::render
