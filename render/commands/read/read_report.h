// What was understood of a farm file, before any water runs.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "render/io/terminal_style.h"

namespace leat::render {

struct ReadOptions {
  model::UnitSystem units = model::UnitSystem::Metric;
  std::optional<model::Month> month;  // absent: every month of what varies
};

/// The screen of `leat read`: pipes, places, needs, water and air, assumptions.
[[nodiscard]] std::string read_table(const model::Farm& farm,
                                     const ReadOptions& options,
                                     const Terminal& terminal);
/// The same as JSON (keys: OUTPUT.md).
[[nodiscard]] std::string read_json(const model::Farm& farm, std::optional<model::Month> month);
/// The pipes as CSV, columns as the JSON's keys.
[[nodiscard]] std::string read_csv(const model::Farm& farm, std::optional<model::Month> month);

}  // namespace leat::render
