// The farm and its answer as GeoJSON (RFC 7946), and what of the farm is not on the map.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// What a farm's map lacks, and what on it is hard to believe. In the order of the file.
struct MapRemarks {
  std::vector<std::string> places_left_out;  // without a `map` key, by name
  std::vector<std::string> pipes_left_out;   // to or from such a place, by name
  std::vector<std::string> doubts;           // sentences: a pipe shorter than its way on the map
};
[[nodiscard]] MapRemarks map_remarks(const model::Farm& farm, model::UnitSystem units);

/// A FeatureCollection: a Point for each place with a `map` key, a line for each pipe between two
/// such places, as the crow flies; the properties are the objects of `solve --json` and the flags
/// there. Positions told as [x, y] become degrees where the site has a `map origin`, else they stay
/// metres, and `positions` says so. Keys: OUTPUT.md. `answer` has converged and belongs to `farm`.
[[nodiscard]] std::string map_geojson(const model::Farm& farm,
                                      const solver::SteadyAnswer& answer,
                                      const MapRemarks& remarks,
                                      model::UnitSystem units);

/// The object of `leat map --json`: what was written, what was left out, and the answer's flags.
[[nodiscard]] std::string map_json(const model::Farm& farm,
                                   const solver::SteadyAnswer& answer,
                                   const MapRemarks& remarks,
                                   const std::string& written,
                                   model::UnitSystem units);

}  // namespace leat::render
