#include "render/page/page_tree.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "model/keys/variant_reader.h"
#include "model/text/problem_list.h"

namespace leat::render {

model::YamlNode page_tree(const std::string& text, const std::string& path) {
  model::ProblemList unheard(path);
  model::YamlNode root = model::read_yaml(text, unheard);
  if (!model::is_variant(root)) {
    return root;
  }
  std::optional<model::WholeTree> whole = model::with_its_base(std::move(root), unheard);
  return whole ? std::move(whole->root) : model::YamlNode{};
}

const model::YamlNode* node_at(const model::YamlNode& root, const std::vector<std::string>& path) {
  const model::YamlNode* node = &root;
  for (const std::string& step : path) {
    const model::YamlNode* next = nullptr;
    for (std::size_t i = 0; i < node->items.size() && next == nullptr; ++i) {
      next = std::to_string(i) == step ? &node->items[i] : nullptr;
    }
    for (const model::YamlEntry& entry : node->entries) {
      if (entry.key == step) {
        next = &entry.value;
      }
    }
    if (next == nullptr) {
      return nullptr;
    }
    node = next;
  }
  return node;
}

}  // namespace leat::render
