// What a pond is over a season: its shape, spill, seepage, runoff, and the stock that drink from
// it.
#pragma once

#include "model/farm/farm.h"
#include "model/keys/map_reader.h"

namespace leat::model {

/// Reads the keys shape, spills, seepage, catchment and stock drink here.
void read_pond_season(const MapReader& map, Pond& pond, Reading& reading);

/// A catchment needs rain day by day, or the number of days it falls on: a month's sum through a
/// curve number is wrong (code catchment-needs-days).
void check_catchments(const Farm& farm, ProblemList& problems);

}  // namespace leat::model
