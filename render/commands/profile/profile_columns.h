// What is told of a run of pipes from the side: its points, and the reaches that are not full.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/document/columns.h"
#include "solver/profile/profile.h"

namespace leat::render {

struct ProfilePointRow {
  const model::Farm& farm;
  const solver::ProfilePoint& point;
};

[[nodiscard]] std::vector<ProfilePointRow> profile_point_rows(const model::Farm& farm,
                                                              const solver::Profile& profile);

[[nodiscard]] const Columns<ProfilePointRow>& profile_point_columns();
[[nodiscard]] const Columns<solver::PartFullReach>& part_full_columns();

}  // namespace leat::render
