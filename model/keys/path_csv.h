// The path of a pipe from a CSV file: two columns, distance along the ground and elevation.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/problem_list.h"

namespace leat::model {

/// Reads the text of such a file. Units stand in a header ("distance ft, elevation ft",
/// "distance_m,elevation_m", "distance (ft),elevation (ft)") above bare numbers, or in every cell.
/// Problems name `csv_file` and its line. Positions of the points are lines of the CSV file.
[[nodiscard]] std::optional<std::vector<PathPoint>> read_path_csv(std::string_view text,
                                                                  const std::string& csv_file,
                                                                  ProblemList& problems);

}  // namespace leat::model
