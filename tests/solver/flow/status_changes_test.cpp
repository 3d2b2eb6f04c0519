// What one answer brings about: siphons that draw air and break, tees that draw air and open.
#include "solver/flow/status_changes.h"

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PlaceState;

namespace {

/// A spring that could give less than its line takes, over a high point at a level.
SolvedFarm over_a_rise(const std::string& high_m, const std::string& yield) {
  return solved("farm: rise\nsprings: {up: {overflow: 100 m, intake: 99.7 m, yield: " + yield +
                "}}\noutlets: {end: {level: 90 m}}\npipes:\n  line: {from: up, to: end, size: "
                "1 in SIDR 15, path: [[0 m, 99.7 m], [20 m, " +
                high_m + " m], [100 m, 90 m]]}\n");
}

}  // namespace

TEST_CASE("the same siphon holds when the spring yields more than it takes") {
  const SolvedFarm farm = over_a_rise("101", "3 L/s");
  CHECK(farm.place("up").state == PlaceState::Spilling);
  CHECK(farm.pipe("line").flow_m3_s > litres(0.4));
  CHECK(farm.flag(solver::Code::Breaks, "up") == nullptr);
  CHECK(farm.place("up").spill_m3_s.value() == Approx(litres(3.0) - farm.pipe("line").flow_m3_s));
}

TEST_CASE("a line whose high point lies below the intake runs part full and does not break") {
  const SolvedFarm farm = over_a_rise("99.6", "0.2 L/s");
  CHECK(farm.flag(solver::Code::Breaks, "up") == nullptr);
  CHECK(farm.pipe("line").flow_m3_s == Approx(litres(0.2)));
  CHECK(farm.pipe("line").part_full_m > 0.0);
  CHECK(farm.place("up").level_m.value() == Approx(99.7));
  CHECK(farm.place("up").head_m.value() < 99.7);
  CHECK(farm.place("up").state == PlaceState::DrawnDown);
}

TEST_CASE("a tee above the intake breaks the siphon although no path rises") {
  const SolvedFarm farm = solved(R"(
farm: tee
springs: {up: {overflow: 100 m, intake: 99 m, yield: 0.1 L/s}}
tees: {saddle: 99.5 m}
outlets: {end: {level: 90 m}}
pipes:
  a: {from: up, to: saddle, size: 1 in SIDR 15, length: 20 m}
  b: {from: saddle, to: end, size: 1 in SIDR 15, length: 40 m}
)");
  REQUIRE(farm.flag(solver::Code::Breaks, "up") != nullptr);
  CHECK(farm.flag(solver::Code::Breaks, "up")->value.value() == Approx(0.5));
  CHECK(farm.pipe("b").flow_m3_s == 0.0);
}

TEST_CASE("a high point on a still branch does not break the line that runs") {
  const SolvedFarm farm = solved(R"(
farm: branch
springs: {up: {overflow: 100 m, intake: 99 m, yield: 0.1 L/s}}
tees: {saddle: 95 m}
outlets: {end: {level: 90 m}}
ponds: {high: {surface: 103 m}}
pipes:
  a: {from: up, to: saddle, size: 1 in SIDR 15, length: 20 m}
  b: {from: saddle, to: end, size: 1 in SIDR 15, length: 40 m}
  still: {from: saddle, to: high, size: 1 in SIDR 15, one-way: yes,
          path: [[0 m, 95 m], [20 m, 104 m], [40 m, 103 m]]}
)");
  CAPTURE(farm.flags());
  CHECK(farm.pipe("still").flow_m3_s == 0.0);
  CHECK(farm.flag(solver::Code::Breaks, "up") == nullptr);
  CHECK(farm.pipe("b").flow_m3_s == Approx(litres(0.1)));
}

TEST_CASE("a one-way before the starved outlet keeps the air out") {
  const SolvedFarm farm = solved(R"(
farm: no air
creeks: {c: {surface: 100 m}}
tees: {t: 97 m}
outlets: {low: {level: 92 m}, high: {level: 99 m}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}
  l: {from: t, to: low, size: 1-1/2 in SIDR 15, length: 20 m}
  h: {from: t, to: high, size: 1 in SIDR 15, length: 20 m, one-way: yes}
)");
  CHECK(farm.flag(solver::Code::AirIn, "t") == nullptr);
  CHECK(farm.flag(solver::Code::SuctionAtTee, "t") != nullptr);
  CHECK(farm.place("t").state == PlaceState::Suction);
}

TEST_CASE("a starved float draws air like any open end and a satisfied one does not") {
  const auto farm = [](const std::string& need) {
    return solved(
        "farm: float\ncreeks: {c: {surface: 100 m}}\ntees: {t: 97 m}\noutlets: {low: "
        "{level: 92 m}}\ntroughs: {high: {float: 99 m, need: " +
        need +
        "}}\npipes:\n  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}\n"
        "  l: {from: t, to: low, size: 1-1/2 in SIDR 15, length: 20 m}\n"
        "  h: {from: t, to: high, size: 1 in SIDR 15, length: 20 m}\n");
  };
  const SolvedFarm starved = farm("0.1 L/s");
  REQUIRE(starved.flag(solver::Code::AirIn, "t") != nullptr);
  CHECK(starved.flag(solver::Code::AirIn, "t")->load_case == solver::LoadCase::Needs);
  // A float that asks for nothing stays shut in the case asked for, and draws air once it opens.
  const SolvedFarm satisfied = farm("0 L/s");
  REQUIRE(satisfied.flag(solver::Code::AirIn, "t") != nullptr);
  CHECK(satisfied.flag(solver::Code::AirIn, "t")->load_case == solver::LoadCase::Wide);
  CHECK(satisfied.pipe("a").flow_m3_s > starved.pipe("a").flow_m3_s);
}

}  // namespace leat::tests
