// What a season's sums mean: why a trough went short, how long a tank carries the farm, flags.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"
#include "solver/network/farm_stores.h"
#include "solver/season/season_steps.h"
#include "solver/season/water_account.h"

namespace leat::solver {

/// A tee that drew air, and the day it first did.
struct DatedAirEntry {
  DrawingTee entry;
  model::Date on;
};

/// What a season leaves behind beside its answer.
struct SeasonPast {
  const model::Farm& farm;
  const FarmStores& stores;
  const WaterAccount& account;
  const std::vector<StoppedLine>& stopped;
  const std::vector<DatedAirEntry>& air_entries;
};

/// Fills in reasons, days alone, flags and frost of an answer whose sums stand.
void find_season_findings(const SeasonPast& past, SeasonAnswer& answer);

/// Why every short month of every trough was short (season_reasons.cpp).
void find_season_reasons(const SeasonPast& past, SeasonAnswer& answer);

/// What is amiss, worst first (season_flags.cpp).
[[nodiscard]] std::vector<Finding> season_flags(const SeasonPast& past, const SeasonAnswer& answer);

/// What frost does, as notes and as flags of pipes that may freeze: at the flows that the cold
/// months of the season had. Nothing where no temperatures are given (season_frost.cpp).
void find_season_frost(const SeasonPast& past, SeasonAnswer& answer);

}  // namespace leat::solver
