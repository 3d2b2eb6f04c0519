#include "solver/hydraulics/pipe_rating.h"

#include <string>

#include <catch2/catch.hpp>

namespace leat::hydraulics {
namespace {

enum class SizedBy { Inside, Outside };

struct RatingRow {
  std::string source;
  SizedBy sized_by;
  double design_stress_psi;
  double ratio;
  double rating_psi;
};

Pressure rating_of(SizedBy sized_by, Pressure design_stress, double ratio) {
  return sized_by == SizedBy::Inside ? rating_by_inside(design_stress, ratio)
                                     : rating_by_outside(design_stress, ratio);
}

TEST_CASE("pipe is rated by its resin and its wall", "[reference]") {
  const std::string source =
      "reference B6: 2 HDS/(SIDR + 1) and 2 HDS/(DR - 1), ASTM D2239/D3035 appendices (from "
      "memory), computed and printed to the psi";
  const auto row = GENERATE_COPY(values<RatingRow>({
      {source, SizedBy::Inside, 625.0, 7.0, 156.0},
      {source, SizedBy::Inside, 625.0, 9.0, 125.0},
      {source, SizedBy::Inside, 625.0, 11.5, 100.0},
      {source, SizedBy::Inside, 625.0, 15.0, 78.0},
      {source, SizedBy::Inside, 625.0, 19.0, 62.5},
      {source, SizedBy::Outside, 625.0, 9.0, 156.0},
      {source, SizedBy::Outside, 625.0, 11.0, 125.0},
      {source, SizedBy::Outside, 625.0, 13.5, 100.0},
      {source, SizedBy::Outside, 625.0, 17.0, 78.0},
      {source, SizedBy::Inside, 800.0, 7.0, 200.0},
      {source, SizedBy::Inside, 800.0, 9.0, 160.0},
      {source, SizedBy::Inside, 800.0, 11.5, 128.0},
      {source, SizedBy::Inside, 800.0, 15.0, 100.0},
      {source, SizedBy::Inside, 800.0, 19.0, 80.0},
      {source, SizedBy::Outside, 800.0, 9.0, 200.0},
      {source, SizedBy::Outside, 800.0, 11.0, 160.0},
      {source, SizedBy::Outside, 800.0, 13.5, 128.0},
      {source, SizedBy::Outside, 800.0, 17.0, 100.0},
      {source, SizedBy::Inside, 1000.0, 7.0, 250.0},
      {source, SizedBy::Inside, 1000.0, 9.0, 200.0},
      {source, SizedBy::Inside, 1000.0, 11.5, 160.0},
      {source, SizedBy::Inside, 1000.0, 15.0, 125.0},
      {source, SizedBy::Inside, 1000.0, 19.0, 100.0},
      {source, SizedBy::Outside, 1000.0, 9.0, 250.0},
      {source, SizedBy::Outside, 1000.0, 11.0, 200.0},
      {source, SizedBy::Outside, 1000.0, 13.5, 160.0},
      {source, SizedBy::Outside, 1000.0, 17.0, 125.0},
  }));
  CAPTURE(row.source, row.design_stress_psi, row.ratio);
  const Pressure rating = rating_of(row.sized_by, psi(row.design_stress_psi), row.ratio);
  CHECK(in_psi(rating) == Approx(row.rating_psi).epsilon(0.0).margin(0.51));
}

struct MetricRatingRow {
  std::string source;
  double design_stress_MPa;
  double sdr;
  double rating_bar;
};

TEST_CASE("metric polyethylene is rated by its resin and its wall", "[reference]") {
  const std::string source =
      "reference B2.1: PN = 20 sigma/(SDR - 1), ISO 4427 formula, PE100 8.0 MPa, PE80 6.3 MPa";
  const auto row = GENERATE_COPY(values<MetricRatingRow>({
      {source, 8.0, 11.0, 16.0},
      {source, 8.0, 13.6, 12.7},
      {source, 8.0, 17.0, 10.0},
      {source, 8.0, 21.0, 8.0},
      {source, 6.3, 11.0, 12.6},
      {source, 6.3, 13.6, 10.0},
      {source, 6.3, 17.0, 7.9},
  }));
  CAPTURE(row.source, row.design_stress_MPa, row.sdr);
  const Pressure rating = rating_by_outside(kilopascals(row.design_stress_MPa * 1e3), row.sdr);
  CHECK(in_kilopascals(rating) / 100.0 == Approx(row.rating_bar).epsilon(0.0).margin(0.051));
}

TEST_CASE("100 psi pipe may stand under 166.1 ft of still water", "[reference]") {
  const std::string source =
      "reference B7: Missouri Livestock Watering Systems Handbook ch. 5 (NRCS, 1997), quoting ASAE "
      "S376.1: 72 % of the rating; 166.1 ft computed, tolerance 0.1 ft";
  CAPTURE(source);
  const Pressure allowed = psi(100.0) * static_share_without_surge;
  CHECK(in_psi(allowed) == Approx(72.0).epsilon(1e-12));
  const Length head = metres(in_pascals(allowed) / (1000.0 * gravity_m_s2));
  CHECK(in_feet(head) == Approx(166.1).epsilon(0.0).margin(0.1));
  CHECK(in_metres(head) == Approx(50.6).epsilon(0.0).margin(0.06));
}

TEST_CASE("a fall in 100 psi pipe needs the published number of tanks", "[reference]") {
  // Reference E7, computed: ceil(static fall / limit) - 1 with the 166.1 ft of B7.
  CHECK(break_pressure_tanks(300.0, 166.1) == 1);
  CHECK(break_pressure_tanks(350.0, 166.1) == 2);
  CHECK(break_pressure_tanks(166.0, 166.1) == 0);
  CHECK(break_pressure_tanks(0.0, 166.1) == 0);
}

struct DeratingRow {
  std::string source;
  double temperature_C;
  double share;
};

TEST_CASE("warm polyethylene keeps the published share of its rating", "[reference]") {
  const std::string source = "reference B8: ISO 4427-1 Annex A, from memory";
  const auto row = GENERATE_COPY(values<DeratingRow>({
      {source, 20.0, 1.00},
      {source, 30.0, 0.87},
      {source, 40.0, 0.74},
  }));
  CAPTURE(row.source, row.temperature_C);
  const auto share = polyethylene_derating(celsius(row.temperature_C));
  REQUIRE(share.has_value());
  CHECK(*share == Approx(row.share).epsilon(1e-12));
}

TEST_CASE("polyethylene has no rating in the full sun and no more than its rating in the cold") {
  CHECK_FALSE(polyethylene_derating(celsius(40.01)).has_value());
  CHECK_FALSE(polyethylene_derating(celsius(50.0)).has_value());
  CHECK(polyethylene_derating(celsius(4.0)).value() == 1.0);
  CHECK(polyethylene_derating(celsius(25.0)).value() == Approx(0.935));
}

}  // namespace
}  // namespace leat::hydraulics
