// The stores' part of a season's table: tanks, ponds, what lifts water, where all of it went.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/document/text_table.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// What one cause brings a pond, or takes from it, over the season [m3, not negative].
struct PondCause {
  const char* name;  // "rain brings", "sun takes"
  double volume_m3 = 0.0;
  bool brings = false;
};

[[nodiscard]] std::vector<PondCause> pond_causes(const solver::PondSeason& pond);

// Tables without rows where the farm has nothing of the kind.

[[nodiscard]] TextTable tanks_table(const model::Farm& farm,
                                    const solver::SeasonAnswer& answer,
                                    model::UnitSystem units);
/// All ponds, then for each what comes and goes.
[[nodiscard]] std::vector<TextTable> pond_tables(const model::Farm& farm,
                                                 const solver::SeasonAnswer& answer,
                                                 model::UnitSystem units);
/// What the ponds' rates leave to guess; empty without ponds, and for a whole year.
[[nodiscard]] std::string pond_remark(const solver::SeasonAnswer& answer);
[[nodiscard]] TextTable lifted_table(const solver::SeasonAnswer& answer, model::UnitSystem units);
/// Where the water went, in sentences.
[[nodiscard]] std::string balance_sentence(const solver::SeasonAnswer& answer,
                                           model::UnitSystem units);

}  // namespace leat::render
