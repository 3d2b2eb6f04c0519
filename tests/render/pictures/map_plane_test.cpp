// Metres on the ground from degrees, against printed tables and a surveyed line.
#include "render/pictures/map_plane.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

namespace {

using leat::metres;
using leat::model::MapDegrees;
using leat::model::MapOffset;
using leat::model::MapPosition;
using leat::render::degree_length;
using leat::render::DegreeLength;
using leat::render::degrees_at;
using leat::render::offset_between;
using leat::render::PlanePoint;

struct DegreeRow {
  double latitude;
  double longitude_km;
  double latitude_km;
};

TEST_CASE("a degree is as long on the ground as navigators' tables say", "[reference]") {
  // Length of a degree on WGS 84, as printed to the metre in the American Practical Navigator and
  // elsewhere; the values from memory.
  const auto row = GENERATE(values<DegreeRow>({{0.0, 111.320, 110.574},
                                               {15.0, 107.551, 110.649},
                                               {30.0, 96.486, 110.852},
                                               {45.0, 78.847, 111.132},
                                               {-60.0, 55.800, 111.412},
                                               {75.0, 28.902, 111.618},
                                               {90.0, 0.0, 111.694}}));
  CAPTURE(row.latitude);
  const DegreeLength length = degree_length(row.latitude);
  CHECK(length.of_longitude_m / 1e3 == Approx(row.longitude_km).margin(0.00051));
  CHECK(length.of_latitude_m / 1e3 == Approx(row.latitude_km).margin(0.00051));
}

double degrees(double whole, double minutes, double seconds) {
  return whole + minutes / 60.0 + seconds / 3600.0;
}

TEST_CASE("the way between two trig points is what surveyors print for it", "[reference]") {
  // Flinders Peak to Buninyong, Geocentric Datum of Australia technical manual: 54 972.271 m at
  // azimuth 306 52 05.37 (from memory); the ellipsoid GRS 80 is WGS 84 to 0.1 mm.
  const MapPosition flinders{MapDegrees{degrees(144, 25, 29.52440), -degrees(37, 57, 3.72030)}};
  const MapPosition buninyong{MapDegrees{degrees(143, 55, 35.38390), -degrees(37, 39, 10.15610)}};
  const PlanePoint way = offset_between(flinders, buninyong);
  CHECK(std::hypot(way.east_m, way.north_m) == Approx(54972.271).epsilon(1e-5));
  CHECK(way.east_m < 0.0);
  CHECK(way.north_m > 0.0);
}

TEST_CASE("metres from an origin and back are the same metres") {
  const MapOffset offset{metres(-640.0), metres(1250.0)};
  for (const double latitude : {-84.0, -33.0, 0.0, 46.4, 70.0}) {
    const MapDegrees origin{179.999, latitude};
    CAPTURE(latitude);
    const MapDegrees found = degrees_at(origin, offset);
    CHECK(std::abs(found.longitude) <= 180.0);
    const PlanePoint back = offset_between({origin}, {found});
    CHECK(back.east_m == Approx(-640.0).margin(1e-5));
    CHECK(back.north_m == Approx(1250.0).margin(1e-5));
  }
}

TEST_CASE("a way over the meridian of 180 degrees is the short one") {
  const PlanePoint way =
      offset_between({MapDegrees{179.999, -16.8}}, {MapDegrees{-179.999, -16.8}});
  CHECK(way.east_m == Approx(0.002 * degree_length(-16.8).of_longitude_m));
  const MapDegrees over = degrees_at({179.999, -16.8}, {metres(500.0), metres(0.0)});
  CHECK(over.longitude == Approx(-179.9963).margin(1e-4));
}

TEST_CASE("degrees and metres of one map do not mix") {
  CHECK_THROWS_AS(offset_between({MapDegrees{7.0, 46.0}}, {MapOffset{metres(1.0), metres(2.0)}}),
                  std::logic_error);
}

}  // namespace
