// What a farm file says, as the page lists it.
#pragma once

#include <string>
#include <vector>

#include "model/text/yaml_tree.h"

namespace leat::render {

/// The tree of a farm file's text, laid over what it is based on; Nothing where it cannot be read.
[[nodiscard]] model::YamlNode page_tree(const std::string& text, const std::string& path);

/// The value at a path of keys (numbers in lists); null where there is none.
[[nodiscard]] const model::YamlNode* node_at(const model::YamlNode& root,
                                             const std::vector<std::string>& path);

}  // namespace leat::render
