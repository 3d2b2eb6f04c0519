// What one answer brings about: siphons that draw air and break, tees that draw air and open.
#include "solver/flow/status_changes.h"

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PipeState;
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

TEST_CASE("a siphon whose spring cannot feed it draws air and breaks") {
  const SolvedFarm farm = over_a_rise("101", "0.2 L/s");
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
  const SolvedFarm farm = solved(text);
  CHECK(farm.flag(solver::Code::Breaks, "one") != nullptr);
  CHECK(farm.flag(solver::Code::Breaks, "two") != nullptr);
  CHECK(farm.place("end").delivered_m3_s < solver::still_flow_m3_s);
  REQUIRE_FALSE(farm.answer.notes.empty());
  CHECK(farm.answer.notes.back().find("2 lines broken") != std::string::npos);
}

TEST_CASE("a tee above the grade line draws air through an outlet that gets no water") {
  const SolvedFarm farm = solved(R"(
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
  const SolvedFarm alone = solved(R"(
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
