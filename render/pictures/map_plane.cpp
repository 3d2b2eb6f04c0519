#include "render/pictures/map_plane.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace leat::render {
namespace {

constexpr double half_turn_degrees = 180.0;
constexpr double radians_per_degree = std::numbers::pi / half_turn_degrees;

/// The same direction within -180 to 180 degrees.
double wrapped(double degrees) {
  return std::abs(degrees) <= half_turn_degrees ? degrees
                                                : std::remainder(degrees, 2.0 * half_turn_degrees);
}

}  // namespace

DegreeLength degree_length(double latitude_degrees) {
  constexpr double equator_radius_m = 6378137.0;
  constexpr double flattening = 1.0 / 298.257223563;
  constexpr double eccentricity_squared = flattening * (2.0 - flattening);
  const double sine = std::sin(latitude_degrees * radians_per_degree);
  const double squash = 1.0 - eccentricity_squared * sine * sine;
  const double across_m = equator_radius_m / std::sqrt(squash);
  const double along_m = across_m * (1.0 - eccentricity_squared) / squash;
  return {across_m * std::cos(latitude_degrees * radians_per_degree) * radians_per_degree,
          along_m * radians_per_degree};
}

PlanePoint offset_between(const model::MapPosition& from, const model::MapPosition& to) {
  if (from.is_in_degrees() != to.is_in_degrees()) {
    throw std::logic_error("positions of two kinds on one map");
  }
  if (!from.is_in_degrees()) {
    const auto& start = std::get<model::MapOffset>(from.value);
    const auto& end = std::get<model::MapOffset>(to.value);
    return {in_metres(end.east - start.east), in_metres(end.north - start.north)};
  }
  const auto& start = std::get<model::MapDegrees>(from.value);
  const auto& end = std::get<model::MapDegrees>(to.value);
  const DegreeLength degree = degree_length((start.latitude + end.latitude) / 2.0);
  return {wrapped(end.longitude - start.longitude) * degree.of_longitude_m,
          (end.latitude - start.latitude) * degree.of_latitude_m};
}

model::MapDegrees degrees_at(const model::MapDegrees& origin, const model::MapOffset& offset) {
  const double north_m = in_metres(offset.north);
  double latitude = origin.latitude;
  DegreeLength degree{};
  // The degree's length hardly changes along the way: each round is a thousand times nearer.
  constexpr int rounds = 5;
  for (int round = 0; round < rounds; ++round) {
    degree = degree_length((origin.latitude + latitude) / 2.0);
    latitude = origin.latitude + north_m / degree.of_latitude_m;
  }
  degree = degree_length((origin.latitude + latitude) / 2.0);
  return {wrapped(origin.longitude + in_metres(offset.east) / degree.of_longitude_m), latitude};
}

}  // namespace leat::render
