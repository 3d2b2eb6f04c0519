#include "render/pictures/schematic/position_layout.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "solver/network/pipes_by_place.h"

namespace leat::render {
namespace {

struct Extent {
  PlanePoint low{std::numeric_limits<double>::max(), std::numeric_limits<double>::max()};
  PlanePoint high{std::numeric_limits<double>::lowest(), std::numeric_limits<double>::lowest()};

  void take_in(const PlanePoint& point) {
    low = {std::min(low.east_m, point.east_m), std::min(low.north_m, point.north_m)};
    high = {std::max(high.east_m, point.east_m), std::max(high.north_m, point.north_m)};
  }
};

/// Which places a row of pipes joins to those on the map, however long the row.
std::vector<bool> joined_to_map(const model::Farm& farm) {
  std::vector<bool> joined(farm.places.size());
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    joined[i] = farm.places[i].map.has_value();
  }
  return solver::joined_by_pipes(farm, std::move(joined));
}

/// Moves the guessed places to the middle of those their pipes lead to, round after round: as rings
/// on rubber bands between the places that are held.
void settle_between_neighbours(const model::Farm& farm, PlacePoints& places) {
  constexpr int rounds = 200;
  for (int round = 0; round < rounds; ++round) {
    std::vector<PlanePoint> sums(farm.places.size());
    std::vector<double> counts(farm.places.size(), 0.0);
    const auto pull = [&](std::size_t at, std::size_t by) {
      sums[at].east_m += places.points[by].east_m;
      sums[at].north_m += places.points[by].north_m;
      counts[at] += 1.0;
    };
    for (const model::Pipe& pipe : farm.pipes) {
      pull(pipe.from, pipe.to);
      pull(pipe.to, pipe.from);
    }
    for (const std::size_t i : places.guessed) {
      if (counts[i] > 0.0) {
        places.points[i] = {sums[i].east_m / counts[i], sums[i].north_m / counts[i]};
      }
    }
  }
}

/// Moves a point aside while another stands there, round after round as seeds stand in a flower:
/// what pushes boxes apart then goes all ways alike.
PagePoint apart(const PagePoint& point, std::set<std::pair<double, double>>& taken) {
  constexpr double golden_angle = 2.399963;  // radians
  constexpr double spacing = 12.0;           // points
  PagePoint moved = point;
  for (double turn = 1.0; !taken.insert({moved.x, moved.y}).second; turn += 1.0) {
    moved.x = point.x + spacing * std::sqrt(turn) * std::cos(golden_angle * turn);
    moved.y = point.y + spacing * std::sqrt(turn) * std::sin(golden_angle * turn);
  }
  return moved;
}

}  // namespace

PlacePoints place_points(const model::Farm& farm) {
  PlacePoints places;
  const auto first = std::find_if(farm.places.begin(),
                                  farm.places.end(),
                                  [](const model::Place& place) { return place.map.has_value(); });
  if (first == farm.places.end()) {
    return places;
  }
  Extent extent;
  places.points.resize(farm.places.size());
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    if (farm.places[i].map) {
      places.points[i] = offset_between(*first->map, *farm.places[i].map);
      extent.take_in(places.points[i]);
    } else {
      places.guessed.push_back(i);
    }
  }
  const std::vector<bool> joined = joined_to_map(farm);
  for (const std::size_t i : places.guessed) {
    places.points[i] = joined[i] ? PlanePoint{} : extent.high;
  }
  settle_between_neighbours(farm, places);
  return places;
}

void put_at_positions(GraphPage& page,
                      const model::Farm& farm,
                      const PlacePoints& places,
                      const PageSize& size) {
  Extent extent;
  for (const PlanePoint& point : places.points) {
    extent.take_in(point);
  }
  const double width_m = extent.high.east_m - extent.low.east_m;
  const double height_m = extent.high.north_m - extent.low.north_m;
  constexpr double least_m = 1e-3;  // all at one point
  const double scale =
      std::min(size.width / std::max(width_m, least_m), size.height / std::max(height_m, least_m));
  std::set<std::pair<double, double>> taken;
  const auto put = [&](GraphNode& node, double east_m, double north_m) {
    node.at = apart({(east_m - extent.low.east_m) * scale, (north_m - extent.low.north_m) * scale},
                    taken);
  };
  for (std::size_t i = 0; i < places.points.size(); ++i) {
    put(page.nodes.at(i), places.points[i].east_m, places.points[i].north_m);
  }
  for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
    const PlanePoint& from = places.points.at(farm.pipes[i].from);
    const PlanePoint& to = places.points.at(farm.pipes[i].to);
    put(page.nodes.at(places.points.size() + i),
        (from.east_m + to.east_m) / 2.0,
        (from.north_m + to.north_m) / 2.0);
  }
}

}  // namespace leat::render
