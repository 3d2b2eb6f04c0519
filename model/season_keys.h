// Keys that later capabilities read: checked for their shape and, so far, used no further.
#pragma once

#include "model/map_reader.h"

namespace leat::model {

/// A place on the map: [longitude, latitude] in degrees, or [x, y] with a unit of length.
void check_map_point(const YamlNode& node, std::string_view what, ProblemList& problems);

/// Hours of the day: "6:00-9:00", or a list of such; where `hours_too`, also "4 h/day".
enum class HoursToo { No, Yes };
void check_clock_ranges(const YamlNode& node,
                        std::string_view what,
                        HoursToo hours_too,
                        ProblemList& problems);

/// The keys of a pond that only a season needs: shape, spills, seepage, catchment, stock drink
/// here.
void check_pond_season(const MapReader& pond, Reading& reading);

/// A text that is kept as it is.
void check_free_text(const YamlNode& node, std::string_view what, ProblemList& problems);

}  // namespace leat::model
