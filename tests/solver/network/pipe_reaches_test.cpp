// A pipe cut into stretches: where it is cut, and which loss lies in which stretch.
#include "solver/network/pipe_reaches.h"

#include <optional>

#include <catch2/catch.hpp>

#include "model/catalogue/fitting_catalogue.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

namespace {

using Kind = solver::Break::Kind;

const hydraulics::Water& water() {
  static const hydraulics::Water cold = hydraulics::water_at(celsius(15.0));
  return cold;
}

/// The one pipe of a farm: a creek at 100 m, a pond at 80 m, 1 in pipe over two summits.
model::Farm hilly(const std::string& more) {
  return farm_of(
      "farm: hilly\ncreeks: {upper: {surface: 100 m}}\nponds: {lower: {surface: 80 m}}\n"
      "pipes:\n  line: {from: upper, to: lower, size: 1 in SIDR 15,\n"
      "    path: [[0 m, 99 m], [20 m, 101 m], [40 m, 96 m], [60 m, 98 m], [100 m, 80 m]]" +
      more + "}\n");
}

solver::PipeStretches cut(const model::Farm& farm) {
  return solver::cut_pipe(farm, farm.pipes.front(), std::nullopt, water(), {0.5, 1.0, 1.0, 0.5});
}

double forward_k(const solver::PipeStretches& stretches) {
  double sum = 0.0;
  for (const solver::Stretch& stretch : stretches.stretches) {
    sum += stretch.law.forward_k;
  }
  return sum;
}

}  // namespace

TEST_CASE("a pipe is cut at each summit and what is spread lies by length") {
  const solver::PipeStretches stretches = cut(hilly(", fittings: [k 4]"));
  REQUIRE(stretches.breaks.size() == 2);
  REQUIRE(stretches.stretches.size() == 3);
  CHECK(stretches.breaks[0].point.at_m == Approx(20.0));
  CHECK(stretches.breaks[1].point.at_m == Approx(60.0));
  double length_m = 0.0;
  for (const solver::Stretch& stretch : stretches.stretches) {
    const double own_m = stretch.end.along_m - stretch.start.along_m;
    CHECK(stretch.spread_k == Approx(4.0 * own_m / stretches.course.length_m));
    CHECK(stretch.friction.length_m == Approx(own_m));
    length_m += own_m;
  }
  CHECK(length_m == Approx(stretches.course.length_m));
  CHECK(forward_k(stretches) == Approx(4.0 + 0.5 + 1.0));
}

TEST_CASE("a fitting at a summit stands on the upstream side where it lowers the pressure") {
  const solver::PipeStretches stretches = cut(hilly(", fittings: [{k 3: 20 m}]"));
  CHECK(stretches.stretches[0].law.forward_k == Approx(3.0 + 0.5));
  CHECK(stretches.stretches[1].law.forward_k == Approx(0.0));
}

TEST_CASE("a vent on a summit takes its place and stays a summit") {
  const solver::PipeStretches stretches =
      cut(hilly(", vents: [20 m, {at: 50 m, top: 99 m}], regulator: {at: 80 m, set: 50 kPa}"));
  REQUIRE(stretches.breaks.size() == 4);
  CHECK(stretches.breaks[0].kind == Kind::Vent);
  CHECK(stretches.breaks[0].is_summit);
  CHECK_FALSE(stretches.breaks[0].vent_top_m);
  CHECK(stretches.breaks[1].kind == Kind::Vent);
  CHECK_FALSE(stretches.breaks[1].is_summit);
  CHECK(stretches.breaks[1].vent_top_m.value() == Approx(99.0));
  CHECK(stretches.breaks[1].point.elevation_m == Approx(97.0));
  CHECK(stretches.breaks[2].kind == Kind::Summit);
  CHECK(stretches.breaks[3].kind == Kind::Regulator);
  // 50 kPa above the pipe, which lies at 89 m there.
  CHECK(stretches.breaks[3].held_head_m ==
        Approx(89.0 + 50e3 / (water().density_kg_m3 * gravity_m_s2)));
  CHECK(stretches.stretches.front().one_way);
}

TEST_CASE("a shut valve cuts the pipe and a part-open one costs what its table says") {
  const solver::PipeStretches shut = cut(hilly(", valve: {type: gate, shut: yes, at: 30 m}"));
  REQUIRE(shut.breaks.size() == 3);
  CHECK(shut.breaks[1].kind == Kind::ShutValve);
  CHECK(shut.breaks[1].point.at_m == Approx(30.0));
  CHECK(forward_k(shut) == Approx(1.5));
  const solver::PipeStretches open = cut(hilly(", valve: {type: gate, open: 3/8, at: end}"));
  REQUIRE(open.breaks.size() == 2);
  // Gate 3/8 open: K 5.52 (Weisbach, from memory, design section 4).
  CHECK(open.stretches.back().law.forward_k == Approx(5.52 + 1.0));
  CHECK(open.stretches.front().law.forward_k == Approx(0.5));
}

TEST_CASE("a foot valve makes its pipe one-way and costs no plain K besides its lifting law") {
  const model::Farm farm = hilly(", fittings: [poppet foot valve, 2 elbow]");
  const solver::PipeStretches stretches = cut(farm);
  const solver::Stretch& first = stretches.stretches.front();
  CHECK(first.one_way);
  CHECK_FALSE(stretches.stretches[1].one_way);
  REQUIRE(first.law.lifting.size() == 1);
  // n 420 and fT 0.023 of Crane TP-410 (C1.1: V), lifting at 0.58 m/s (design: from memory).
  CHECK(first.law.lifting[0].loss_coefficient == Approx(9.66).epsilon(0.005));
  CHECK(first.opening_head_m == Approx(9.66 * 0.58 * 0.58 / 2.0 / gravity_m_s2).epsilon(0.02));
  const double elbows = 2.0 * 0.69;  // C1.9: M
  CHECK(forward_k(stretches) == Approx(elbows + 1.5).epsilon(1e-3));
  CHECK(solver::summed_fitting_k(farm.pipes.front()) == Approx(9.66 + elbows).epsilon(0.005));
}

TEST_CASE("two spring checks in one pipe need two opening heads") {
  const solver::PipeStretches one = cut(hilly(", fittings: [spring check]"));
  const solver::PipeStretches two = cut(hilly(", fittings: [2 spring check]"));
  CHECK(one.stretches.front().opening_head_m > 0.1);
  CHECK(two.stretches.front().opening_head_m == Approx(2.0 * one.stretches.front().opening_head_m));
}

}  // namespace leat::tests
