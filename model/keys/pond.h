// The keys of a pond: its water, and what a season needs besides.
#pragma once

#include "model/keys/key.h"

namespace leat::model {

[[nodiscard]] const Keys<Pond>& pond_keys();
/// The keys of a pond's catchment.
[[nodiscard]] const Keys<Catchment>& catchment_keys();

[[nodiscard]] Pond read_pond(const MapReader& map, LoadContext& context);

/// A catchment needs rain day by day, or the number of days it falls on: a month's sum through a
/// curve number is wrong (code catchment-needs-days).
void check_catchments(const Farm& farm, ProblemList& problems);

}  // namespace leat::model
