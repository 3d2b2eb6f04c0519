// A pipe as the lines of a farm file.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "model/farm/farm.h"

namespace leat::model {

/// The pipe's key and its keys, a line each, indented by `indent` blanks and two more. `kept` are
/// further keys with their texts, of what the farm does not hold.
[[nodiscard]] std::string pipe_text(const Farm& farm,
                                    const Pipe& pipe,
                                    std::size_t indent,
                                    const std::vector<std::pair<std::string, std::string>>& kept);

}  // namespace leat::model
