// What one answer brings about: siphons that draw air and break, tees that draw air and open.
#include <catch2/catch.hpp>

#include "solver/flow/status_changes.h"
#include "tests/render/words/told_farm.h"

namespace leat::tests {

using solver::PipeState;
using solver::PlaceState;

namespace {

/// A spring that could give less than its line takes, over a high point at a level.
ToldFarm over_a_rise(const std::string& high_m, const std::string& yield) {
  return told("farm: rise\nsprings: {up: {overflow: 100 m, intake: 99.7 m, yield: " + yield +
              "}}\noutlets: {end: {level: 90 m}}\npipes:\n  line: {from: up, to: end, size: "
              "1 in SIDR 15, path: [[0 m, 99.7 m], [20 m, " +
              high_m + " m], [100 m, 90 m]]}\n");
}

}  // namespace

TEST_CASE("a siphon whose spring cannot feed it draws air and breaks") {
  const ToldFarm farm = over_a_rise("101", "0.2 L/s");
  CHECK(farm.place("up").state == PlaceState::Breaks);
  CHECK(farm.pipe("line").flow_m3_s == 0.0);
  CHECK(farm.pipe("line").state == PipeState::Still);
  CHECK(farm.place("end").delivered_m3_s == 0.0);
  REQUIRE(farm.flag(solver::Code::Breaks, "up") != nullptr);
  CHECK(farm.flag(solver::Code::Breaks, "up")->severity == solver::Severity::Danger);
  CHECK(farm.flag(solver::Code::Breaks, "up")->value.value() == Approx(1.3));
  CHECK(farm.text(solver::Code::Breaks, "up").find("1.3 m above the intake") != std::string::npos);
  CHECK(farm.text(solver::Code::Breaks, "up").find("throttle") != std::string::npos);
  // The broken line takes nothing, so all of the yield spills.
  CHECK(farm.place("up").spill_m3_s.value() == Approx(litres(0.2)));
}

TEST_CASE("when one siphon breaks the next breaks for having to feed all") {
  const char* const text = R"(
farm: two
springs:
  one: {overflow: 100.5 m, intake: 100.2 m, yield: 0.25 L/s}
  two: {overflow: 100 m, intake: 99.7 m, yield: 0.45 L/s}
tees: {t: 98 m}
outlets: {end: {level: 97.5 m}}
pipes:
  a: {from: one, to: t, size: 1 in SIDR 15,
      path: [[0 m, 100.2 m], [10 m, 100.9 m], [20 m, 98 m]]}
  b: {from: two, to: t, size: 1 in SIDR 15, path: [[0 m, 99.7 m], [10 m, 100.4 m], [20 m, 98 m]]}
  c: {from: t, to: end, size: 1 in SIDR 15, length: 30 m}
)";
  const model::Farm plain = farm_of(text);
  const solver::Surroundings around = solver::surroundings_of(plain, std::nullopt);
  const solver::FlowState first = solver::solve_flow(plain, around, {});
  const auto broken = solver::lines_that_break(first);
  REQUIRE(broken.size() == 1);
  CHECK(plain.places[broken[0].spring].name == "one");
  CHECK(broken[0].high_at_m == Approx(10.0));
  const ToldFarm farm = told(text);
  CHECK(farm.flag(solver::Code::Breaks, "one") != nullptr);
  CHECK(farm.flag(solver::Code::Breaks, "two") != nullptr);
  CHECK(farm.place("end").delivered_m3_s < solver::still_flow_m3_s);
  REQUIRE_FALSE(farm.notes().empty());
  CHECK(farm.notes().back().find("2 lines broken") != std::string::npos);
}

TEST_CASE("a tee above the grade line draws air through an outlet that gets no water") {
  const ToldFarm farm = told(R"(
farm: air
creeks: {c: {surface: 100 m}}
tees: {t: 97 m}
outlets: {low: {level: 92 m}, high: {level: 99 m}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1-1/2 in SIDR 15, length: 20 m}
  h: {from: t, to: high, size: 1 in SIDR 15, length: 20 m}
)");
  REQUIRE(farm.flag(solver::Code::AirIn, "t") != nullptr);
  CHECK(farm.flag(solver::Code::AirIn, "t")->severity == solver::Severity::Danger);
  CHECK(farm.text(solver::Code::AirIn, "t").find("high") != std::string::npos);
  // Solved again as an open box: the upstream leg alone, from 100 m down to the tee at 97 m, with
  // the entrance loss, as the same pipe ending free at that level would carry.
  const ToldFarm alone = told(R"(
farm: alone
creeks: {c: {surface: 100 m}}
outlets: {box: {level: 97 m}}
pipes: {a: {from: c, to: box, size: 1 in SIDR 15, length: 60 m, exit: 0}}
)");
  // Water stands a little (30 s/m2 times the flow) over an end it falls into: 17 mm of 3 m here.
  CHECK(farm.pipe("a").flow_m3_s == Approx(alone.pipe("a").flow_m3_s).epsilon(5e-3));
  CHECK(farm.place("low").delivered_m3_s == Approx(farm.pipe("a").flow_m3_s));
  CHECK(farm.place("high").delivered_m3_s < solver::still_flow_m3_s);
}

}  // namespace leat::tests
