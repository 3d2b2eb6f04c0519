// What can be changed on a farm, place by place and pipe by pipe.
#pragma once

#include "model/farm/farm.h"
#include "model/text/yaml_tree.h"
#include "render/document/json_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Places, then pipes, each as in the file: [{id, kind, name, facts, controls [{path, label, text,
/// input, ...}]}]. `id` is that of the schematic's group. `input` is valve, size, choice, amount or
/// text; `aside` marks what is seldom turned. `tree` is the file's own (page_tree.h).
[[nodiscard]] Json page_controls(const model::Farm& farm,
                                 const solver::SteadyAnswer& answer,
                                 const model::YamlNode& tree,
                                 model::UnitSystem units);

}  // namespace leat::render
