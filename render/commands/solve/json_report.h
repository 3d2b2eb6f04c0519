// Answers as JSON for scripts: SI, the unit in each key, null for what is absent.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// The object of `leat solve --json` (keys, order and meaning: OUTPUT.md), ending in a newline.
/// Without an answer it holds no places and no pipes, and the reason under `problems`.
[[nodiscard]] std::string solve_json(const model::Farm& farm,
                                     const solver::SteadyAnswer& answer,
                                     model::UnitSystem units);

/// The object of `leat draw --json`: what was written, and the answer's flags.
[[nodiscard]] std::string draw_json(const model::Farm& farm,
                                    const solver::SteadyAnswer& answer,
                                    const std::string& written,
                                    model::UnitSystem units);

/// The object of `leat new --json`: the file written (null for none) and the starter's text.
[[nodiscard]] std::string new_json(const std::string& written, const std::string& text);

/// The object printed with exit 2 when there is no farm or no valid command: the problems alone.
/// `command` is null in the output where none was given.
[[nodiscard]] std::string problems_json(const std::optional<std::string>& command,
                                        const std::vector<model::Diagnostic>& problems);

}  // namespace leat::render
