// Where the boxes of a drawing by position stand before they are pushed apart.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/pictures/map_plane.h"
#include "render/pictures/schematic/graph_page.h"

namespace leat::render {

/// A point for every place of a farm [m east and north of the first one on the map].
struct PlacePoints {
  std::vector<PlanePoint> points;    // as many as places
  std::vector<std::size_t> guessed;  // places without a `map` key: they stand amid those their
                                     // pipes lead to, or at the east side where there are none
};

/// None where no place has a `map` key.
[[nodiscard]] PlacePoints place_points(const model::Farm& farm);

/// Gives each node of a schematic's page (places first, then pipes) its point: places where they
/// lie, north up, the whole scaled to fill `size`; a pipe's text half way. No two points are equal.
void put_at_positions(GraphPage& page,
                      const model::Farm& farm,
                      const PlacePoints& places,
                      const PageSize& size);

}  // namespace leat::render
