// A solved network read back: which heads are known, and what the water does along a pipe.
#include "solver/flow/flow_state.h"

#include <cmath>
#include <limits>

#include <catch2/catch.hpp>

#include "solver/hydraulics/head_loss.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using solver::FlowState;
using solver::PipePoint;

FlowState flowing(const model::Farm& farm) {
  FlowState state = solver::solve_flow(farm, solver::surroundings_of(farm, std::nullopt), {});
  REQUIRE(state.solution.report.is_usable());
  return state;
}

/// Head just upstream and just downstream of a distance.
std::pair<double, double> heads_at(const std::vector<PipePoint>& points, double at_m) {
  double before = std::numeric_limits<double>::quiet_NaN();
  double after = before;
  for (const PipePoint& point : points) {
    if (std::abs(point.at_m - at_m) < 1e-9) {
      before = std::isnan(before) ? point.head_m : before;
      after = point.head_m;
    }
  }
  return {before, after};
}

}  // namespace

TEST_CASE("along a pipe the grade line falls evenly and steps where a fitting stands") {
  const model::Farm farm = farm_of(R"(
farm: steps
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, fittings: [{k 20: 50 m}],
      path: [[0 m, 99 m], [50 m, 85 m], [100 m, 88 m]]}
)");
  const FlowState state = flowing(farm);
  const double bore_m = in_metres(farm.pipes[0].size.bore);
  const double velocity_head_m = hydraulics::velocity_head_m(bore_m, state.pipe_flow_m3_s(0));
  const solver::PipeWater water = solver::water_along(state, 0);
  REQUIRE(water.points.size() >= 4);
  CHECK(water.part_full_m == 0.0);
  // The entrance's loss comes before the first point, the exit's after the last.
  CHECK(water.points.front().head_m == Approx(100.0 - 0.5 * velocity_head_m));
  CHECK(water.points.back().head_m == Approx(90.0 + velocity_head_m));
  const auto [before, after] = heads_at(water.points, 50.0);
  CHECK(before - after == Approx(20.0 * velocity_head_m));
  const double first_m = std::hypot(50.0, 14.0);
  const double second_m = std::hypot(50.0, 3.0);
  CHECK((water.points.front().head_m - before) / first_m ==
        Approx((after - water.points.back().head_m) / second_m));
  const double weight = state.surroundings.pressure_of_head_Pa(1.0);
  CHECK(water.points.front().pressure_Pa ==
        Approx(weight * (100.0 - 99.0 - 1.5 * velocity_head_m)));
}

TEST_CASE("heads are known as far as running or still two-way pipes reach from open water") {
  const model::Farm farm = farm_of(R"(
farm: known
creeks: {c: {surface: 100 m}, d: {surface: 101 m}}
tees: {t: 90 m, side: 90 m, beyond: 90 m}
troughs: {high: {float: 102 m, need: 0.1 L/s}, after: {float: 95 m, need: 0.1 L/s}}
outlets: {low: {level: 85 m}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: t, to: low, size: 1 in SIDR 15, length: 60 m}
  still: {from: t, to: side, size: 1 in SIDR 15, length: 60 m}
  up: {from: side, to: high, size: 1 in SIDR 15, length: 60 m}
  wrong: {from: beyond, to: d, size: 1 in SIDR 15, length: 60 m, one-way: yes}
  last: {from: beyond, to: after, size: 1 in SIDR 15, length: 60 m}
)");
  SolvedFarm farm_solved{farm, solver::solve_steady(farm, {})};
  CHECK(farm_solved.place("side").head_m.value() ==
        Approx(farm_solved.place("t").head_m.value()).margin(1e-6));
  CHECK(farm_solved.place("high").head_m);
  CHECK_FALSE(farm_solved.place("beyond").head_m);
  CHECK_FALSE(farm_solved.place("after").head_m);
  CHECK_FALSE(farm_solved.place("after").pressure_Pa);
  CHECK_FALSE(farm_solved.pipe("last").head_loss_m);
  CHECK_FALSE(farm_solved.pipe("last").lowest_pressure_Pa);
  CHECK(farm_solved.pipe("last").flow_m3_s == 0.0);
  CHECK(farm_solved.place("beyond").state == solver::PlaceState::Dry);
  CHECK(farm_solved.flag(solver::Code::CutOff, "beyond") != nullptr);
}

TEST_CASE("a parted flow is that of the upstream leg alone") {
  // A knee before a bank: no local high point, yet the water parts there.
  const model::Farm farm = farm_of(R"(
farm: knee
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 70 m}}
pipes: {a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 99.9 m], [200 m, 97 m], [225 m, 70 m]]}}
)");
  SolvedFarm farm_solved{farm, solver::solve_steady(farm, {})};
  REQUIRE(farm_solved.pipe("a").summits.size() == 1);
  CHECK(farm_solved.pipe("a").summits[0].parted);
  CHECK(farm_solved.pipe("a").state == solver::PipeState::Parted);
  // By hand: 100 m less 97 m, the air's head less the vapour's, drive the first leg, its entrance
  // and one velocity head; bisection on the hydraulics alone.
  const hydraulics::Water water = hydraulics::water_at(celsius(15.0));
  const double weight = water.density_kg_m3 * gravity_m_s2;
  const double drive_m = 100.0 - 97.0 + (101325.0 - water.vapour_pressure_Pa) / weight;
  const double bore_m = in_metres(farm.pipes[0].size.bore);
  const hydraulics::FrictionLaw leg = hydraulics::darcy_weisbach(
      bore_m, std::hypot(200.0, 2.9), 1.5e-6, water.kinematic_viscosity_m2_s);
  double low = 0.0;
  double high = 0.01;
  for (int i = 0; i < 80; ++i) {
    const double flow = 0.5 * (low + high);
    const double loss_m = hydraulics::friction_loss(leg, flow).loss_m +
                          1.5 * hydraulics::velocity_head_m(bore_m, flow);
    (loss_m < drive_m ? low : high) = flow;
  }
  CHECK(farm_solved.pipe("a").flow_m3_s == Approx(low).epsilon(1e-3));
  CHECK(farm_solved.pipe("a").part_full_m > 10.0);
  CHECK(farm_solved.pipe("a").part_full_m < std::hypot(25.0, 27.0));
  // Beyond the knee the water stands at vapour pressure, never lower.
  CHECK(farm_solved.pipe("a").lowest_pressure_Pa.value() ==
        Approx(water.vapour_pressure_Pa - 101325.0).epsilon(1e-3));
}

TEST_CASE("a vent on the knee keeps it at the air's pressure and the pipe below runs part full") {
  const SolvedFarm farm = solved(R"(
farm: vent
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 70 m}}
pipes:
  a: {from: c, to: p, size: 1 in SIDR 15, vents: [200 m],
      path: [[0 m, 99.9 m], [200 m, 97 m], [225 m, 70 m]]}
)");
  // The same first leg ending free at 97 m, one velocity head left in the water.
  const SolvedFarm leg = solved(R"(
farm: leg
creeks: {c: {surface: 100 m}}
outlets: {end: {level: 97 m}}
pipes: {a: {from: c, to: end, size: 1 in SIDR 15, path: [[0 m, 99.9 m], [200 m, 97 m]]}}
)");
  CHECK(farm.pipe("a").flow_m3_s == Approx(leg.pipe("a").flow_m3_s).epsilon(1e-3));
  CHECK_FALSE(farm.pipe("a").summits[0].parted);
  CHECK(farm.pipe("a").state == solver::PipeState::PartFull);
  CHECK(farm.flag(solver::Code::Parted, "a") == nullptr);
  const double air_m = 101325.0 / (farm.answer.density_kg_m3 * gravity_m_s2);
  CHECK(farm.pipe("a").summits[0].absolute_head_m.value() == Approx(air_m).epsilon(1e-3));
}

TEST_CASE("a vent without a top in a pipe under pressure changes nothing") {
  const char* const text = R"(
farm: idle vent
creeks: {c: {surface: 100 m}}
outlets: {end: {level: 80 m, opening: 5 mm}}
pipes: {a: {from: c, to: end, size: 1 in SIDR 15, path: [[0 m, 99 m], [50 m, 90 m], [90 m, 80 m]],
)";
  const SolvedFarm vented = solved(std::string(text) + "vents: [50 m]}}\n");
  const SolvedFarm plain = solved(std::string(text) + "lies: buried}}\n");
  CHECK(vented.pipe("a").flow_m3_s == Approx(plain.pipe("a").flow_m3_s).epsilon(1e-4));
  CHECK(vented.pipe("a").part_full_m == 0.0);
}

TEST_CASE("a vent with a top spills what stands above it") {
  const SolvedFarm farm = solved(R"(
farm: standpipe
creeks: {c: {surface: 100 m}}
outlets: {end: {level: 80 m, opening: 5 mm}}
pipes:
  a: {from: c, to: end, size: 1 in SIDR 15, vents: [{at: 50 m, top: 92 m}],
      path: [[0 m, 99 m], [50 m, 85 m], [90 m, 80 m]]}
)");
  // The end sees the standpipe's level, less a little loss, through its hole.
  const double area_m2 = 3.141592653589793 / 4.0 * 0.005 * 0.005;
  const double most = 0.61 * area_m2 * std::sqrt(2.0 * gravity_m_s2 * 12.0);
  CHECK(farm.place("end").delivered_m3_s == Approx(most).epsilon(0.03));
  CHECK(farm.place("end").delivered_m3_s < most);
  // The pipe's start carries what spills as well.
  CHECK(farm.pipe("a").flow_m3_s > 3.0 * most);
  CHECK(farm.place("c").delivered_m3_s == Approx(-farm.pipe("a").flow_m3_s));
}

TEST_CASE(
    "a pipe that starts in a drawn-down spring runs part full as far as the grade line says") {
  const SolvedFarm farm = solved(R"(
farm: part full
springs: {up: {overflow: 100 m, intake: 99 m, yield: 0.05 L/s}}
ponds: {p: {surface: 95 m}}
pipes: {a: {from: up, to: p, size: 1 in SIDR 15, length: 60 m, ends: 90 m}}
)");
  // At 0.05 L/s the loss is small, so the pipe fills about where it dips under the pond's level:
  // 4 m of the 9 m it falls.
  CHECK(farm.pipe("a").part_full_m == Approx(60.0 * 4.0 / 9.0).epsilon(0.02));
  CHECK(farm.pipe("a").lowest_pressure_Pa.value() == Approx(0.0).margin(1.0));
  CHECK(farm.pipe("a").state == solver::PipeState::PartFull);
  CHECK(farm.flag(solver::Code::PartFull, "a")->severity == solver::Severity::Note);
}

}  // namespace leat::tests
