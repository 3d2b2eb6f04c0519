#include "solver/hydrology/freezing.h"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

namespace leat::hydrology {
namespace {

PipeWall inch_pipe() {
  PipeWall wall;
  wall.bore_m = 0.0266;
  wall.outside_diameter_m = 0.0334;
  return wall;
}

TEST_CASE("a cylinder across the wind gives off the textbook's heat", "[reference]") {
  // Incropera and DeWitt, example of a 12.7 mm cylinder at Re 6071, Pr 0.70, from memory: Nu 40.6.
  CHECK(cylinder_nusselt(6071.0, 0.70) == Approx(40.6).epsilon(2e-3));
}

TEST_CASE("the ground round a buried pipe conducts as the shape factor says", "[reference]") {
  // Incropera and DeWitt, table of shape factors (from memory): beyond z = 1.5 D, 2 pi / ln(4 z /
  // D) serves for the arcosh: 2 pi / ln(20) = 2.0974 for 0.1 m at 0.5 m in ground of 1 W/m K.
  PipeWall thin;
  thin.bore_m = 0.0999999;
  thin.outside_diameter_m = 0.1;
  CHECK(buried_loss_W_m_K(thin, 0.5, 1.0) == Approx(2.0974).epsilon(1e-3));
}

TEST_CASE("wall, insulation and air stand in series") {
  // Wall ln(33.4/26.6)/(2 pi 0.40) = 0.22767/2.51327 = 0.09059; foam 13 mm ln(59.4/33.4)/(2 pi
  // 0.04) = 0.57575/0.25133 = 2.2908; still air at 6 + 5 W/m2 K: 1/(pi 0.0594 11) = 0.48716 m K/W.
  PipeWall wall = inch_pipe();
  wall.insulation_m = 0.013;
  CHECK(exposed_loss_W_m_K(wall, 0.0) == Approx(1.0 / (0.09059 + 2.2908 + 0.48716)).epsilon(1e-3));
}

TEST_CASE("the least flow leaves the outlet just warm enough, slice by slice") {
  const double loss = exposed_loss_W_m_K(inch_pipe(), 4.0);
  const auto flow = least_pipe_flow_m3_s(loss, 60.0, 8.0, -12.0, 0.5);
  REQUIRE(flow);
  // March down the pipe: each slice gives loss x dx x (T - Ta) watts to the air.
  double water_C = 8.0;
  constexpr int slices = 20000;
  for (int slice = 0; slice < slices; ++slice) {
    water_C -= loss * 60.0 / slices * (water_C + 12.0) / (4.21e6 * *flow);
  }
  CHECK(water_C == Approx(0.5).margin(2e-3));
}

TEST_CASE("colder air, more wind, a longer pipe and less cover ask for more flow", "[law]") {
  const PipeWall wall = inch_pipe();
  const auto flow = [&](double wind, double air_C, double length_m) {
    return least_pipe_flow_m3_s(exposed_loss_W_m_K(wall, wind), length_m, 8.0, air_C, 0.5).value();
  };
  CHECK(flow(8.0, -10.0, 50.0) > flow(4.0, -10.0, 50.0));
  CHECK(flow(4.0, -20.0, 50.0) > flow(4.0, -10.0, 50.0));
  CHECK(flow(4.0, -10.0, 100.0) == Approx(2.0 * flow(4.0, -10.0, 50.0)));
  CHECK(exposed_loss_W_m_K(wall, 4.0) > buried_loss_W_m_K(wall, 0.1, 1.0));
  CHECK(buried_loss_W_m_K(wall, 0.1, 1.0) > buried_loss_W_m_K(wall, 0.6, 1.0));
  CHECK(std::isfinite(buried_loss_W_m_K(wall, 0.0, 1.0)));
}

TEST_CASE("mild air asks for no flow, and water that comes too cold cannot be helped") {
  CHECK(least_pipe_flow_m3_s(2.0, 50.0, 8.0, 3.0, 0.5) == 0.0);
  CHECK_FALSE(least_pipe_flow_m3_s(2.0, 50.0, 0.4, -5.0, 0.5));
  CHECK_FALSE(least_pipe_flow_m3_s(2.0, 50.0, 0.4, 3.0, 0.5));
  CHECK_FALSE(least_trough_inflow_m3_s(200.0, 2.0, 1.0, 1.0));
}

TEST_CASE("still water in a pipe cools and then freezes by its own heat") {
  // 20 mm bore: 3.1416e-4 m2; 1 W/m K, 5 C in air of -5 C. To 0 C: 4.21e6 x 3.1416e-4 x ln 2 =
  // 916.8 s = 0.25466 h. To ice: 334e6 x 3.1416e-4 / 5 = 20 986 s = 5.8294 h more.
  const auto hours = still_pipe_hours(1.0, 0.020, 5.0, -5.0);
  REQUIRE(hours);
  CHECK(hours->to_first_ice == Approx(0.25466).epsilon(1e-3));
  CHECK(hours->to_solid == Approx(0.25466 + 5.8294).epsilon(1e-3));
  CHECK_FALSE(still_pipe_hours(1.0, 0.020, 5.0, 0.0));
  CHECK(still_pipe_hours(1.0, 0.020, -1.0, -5.0)->to_first_ice == 0.0);
}

TEST_CASE("a trough's surface gives off its heat by wind, steam and sky") {
  // 0 C water, -10 C saturated calm air: e 0.6108 and 0.2857 kPa; 2.8 x (10 + 0.3251/0.066) = 41.79
  // W/m2; sky -30 C: 0.96 x 5.67e-8 x (273.15^4 - 243.15^4) = 112.75; together 154.54.
  const double loss = open_water_loss_W_m2(0.0, -10.0, 100.0, 0.0);
  CHECK(loss == Approx(154.54).epsilon(1e-3));
  // Wind of 5 m/s: (2.8 + 15) x 14.926 + 112.75 = 378.43.
  CHECK(open_water_loss_W_m2(0.0, -10.0, 100.0, 5.0) == Approx(378.43).epsilon(1e-3));
  CHECK(open_water_loss_W_m2(0.0, -10.0, 40.0, 5.0) > open_water_loss_W_m2(0.0, -10.0, 100.0, 5.0));
  CHECK(open_water_loss_W_m2(0.0, 45.0, 100.0, 5.0) == 0.0);
  // 2 m2 at 154.54 W/m2 from water of 8 C held at 1 C: 309.08 / (4.21e6 x 7) = 1.0488e-5 m3/s.
  CHECK(least_trough_inflow_m3_s(154.54, 2.0, 8.0, 1.0).value() == Approx(1.0488e-5).epsilon(1e-3));
}

}  // namespace
}  // namespace leat::hydrology
