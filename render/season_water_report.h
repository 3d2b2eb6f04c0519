// The stores' part of a season's table: tanks, ponds, what lifts water, where all of it went.
#pragma once

#include <string>
#include <vector>

#include "model/farm.h"
#include "render/terminal_style.h"
#include "solver/season_answer.h"

namespace leat::render {

/// What one cause brings a pond, or takes from it, over the season [m3, not negative].
struct PondCause {
  const char* name;  // "rain brings", "sun takes"
  double volume_m3 = 0.0;
  bool brings = false;
};

[[nodiscard]] std::vector<PondCause> pond_causes(const solver::PondSeason& pond);

// Each begins with an empty line, and is empty where the farm has nothing of the kind.

[[nodiscard]] std::string tanks_text(const model::Farm& farm,
                                     const solver::SeasonAnswer& answer,
                                     model::UnitSystem units);
[[nodiscard]] std::string ponds_text(const model::Farm& farm,
                                     const solver::SeasonAnswer& answer,
                                     model::UnitSystem units,
                                     const Terminal& terminal);
[[nodiscard]] std::string lifters_text(const solver::SeasonAnswer& answer, model::UnitSystem units);
[[nodiscard]] std::string balance_text(const solver::SeasonAnswer& answer,
                                       model::UnitSystem units,
                                       const Terminal& terminal);

}  // namespace leat::render
