// What each place sees: level, pressure, what it gets and gives.
#include "solver/flow/place_answers.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/hydraulics/head_loss.h"
#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::PlaceState;

TEST_CASE("a spring holds its overflow while the line takes less than it yields") {
  const SolvedFarm farm = solved(R"(
farm: spring
springs: {up: {overflow: 100 m, yield: 0.5 L/s}}
troughs: {low: {float: 90 m, need: 0.2 L/s}}
pipes: {a: {from: up, to: low, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.place("up").level_m.value() == Approx(100.0).margin(0.01));
  CHECK(farm.place("up").delivered_m3_s == Approx(-litres(0.2)));
  CHECK(farm.place("up").spill_m3_s.value() == Approx(litres(0.3)));
  CHECK(farm.place("up").state == PlaceState::Spilling);
  CHECK(farm.flag(solver::Code::Spills, "up")->value.value() == Approx(0.3e-3));
  CHECK_FALSE(farm.place("up").pressure_Pa);
  CHECK_FALSE(farm.place("up").met);
}

TEST_CASE("a spring box draws down between overflow and intake until the line takes the yield") {
  const SolvedFarm farm = solved(R"(
farm: drawn down
springs: {up: {overflow: 100 m, intake: 98 m, yield: 0.5 L/s}}
outlets: {end: {level: 97 m}}
pipes: {a: {from: up, to: end, size: 1 in SIDR 15, length: 60 m}}
)");
  const double level_m = farm.place("up").level_m.value();
  CHECK(level_m < 99.99);
  CHECK(level_m > 98.0);
  CHECK(level_m == Approx(farm.place("up").head_m.value()));
  CHECK(farm.place("up").spill_m3_s.value() < 1e-9);
  CHECK(farm.place("end").delivered_m3_s == Approx(litres(0.5)));
  CHECK(farm.place("up").state == PlaceState::DrawnDown);
  CHECK(farm.flag(solver::Code::DrawnDown, "up")->value.value() == Approx(level_m));
  // The outlet has the velocity head left: its energy head stands that much over its level.
  const double velocity_head_m =
      hydraulics::velocity_head_m(in_metres(farm.farm.pipes[0].size.bore), litres(0.5));
  CHECK(farm.place("end").head_m.value() == Approx(97.0 + velocity_head_m));
}

TEST_CASE("water that runs back into a spring box spills there") {
  const SolvedFarm farm = solved(R"(
farm: back
springs: {up: {overflow: 90 m, yield: 0.2 L/s}}
ponds: {high: {surface: 95 m}}
pipes: {a: {from: up, to: high, size: 1 in SIDR 15, length: 60 m}}
)");
  const double back = -farm.pipe("a").flow_m3_s;
  CHECK(back > litres(0.5));
  CHECK(farm.place("up").spill_m3_s.value() == Approx(litres(0.2) + back));
  CHECK(farm.place("up").level_m.value() <= 90.01);
  CHECK(farm.place("up").delivered_m3_s == Approx(back));
  CHECK(farm.place("high").delivered_m3_s == Approx(-back));
  CHECK(farm.pipe("a").state == solver::PipeState::Backwards);
  CHECK(farm.flag(solver::Code::Backwards, "a")->severity == solver::Severity::Caution);
}

TEST_CASE("a tank that settles spills when more comes than leaves") {
  const SolvedFarm farm = solved(R"(
farm: brim
creeks: {c: {surface: 100 m}}
tanks: {hill: {floor: 90 m, full: 2 m, depth: settle}}
outlets: {end: {level: 88 m}}
pipes:
  a: {from: c, to: hill, size: 1 in SIDR 15, length: 60 m}
  b: {from: hill, to: end, size: 3/4 in SIDR 15, length: 60 m}
)");
  CHECK(farm.place("hill").level_m.value() == Approx(92.0).margin(0.01));
  CHECK(farm.place("hill").spill_m3_s.value() ==
        Approx(farm.pipe("a").flow_m3_s - farm.pipe("b").flow_m3_s));
  CHECK(farm.place("hill").spill_m3_s.value() > litres(0.1));
  CHECK(farm.place("hill").state == PlaceState::Spilling);
  // What the network hands to the tank is what is left over, and that spills.
  CHECK(farm.place("hill").delivered_m3_s == Approx(farm.place("hill").spill_m3_s.value()));
}

TEST_CASE("a tank that settles finds the level at which as much leaves as comes") {
  const SolvedFarm farm = solved(R"(
farm: between
springs: {up: {overflow: 100 m, yield: 0.36 L/s}}
tanks: {hill: {floor: 90 m, full: 3 m, depth: settle}}
outlets: {end: {level: 88 m}}
pipes:
  a: {from: up, to: hill, size: 1 in SIDR 15, length: 60 m}
  b: {from: hill, to: end, size: 3/4 in SIDR 15, length: 60 m}
)");
  const double level_m = farm.place("hill").level_m.value();
  CHECK(level_m > 90.2);
  CHECK(level_m < 92.9);
  CHECK(farm.pipe("b").flow_m3_s == Approx(litres(0.36)));
  CHECK(farm.place("hill").spill_m3_s.value() < 1e-9);
  CHECK(farm.place("hill").elevation_m == Approx(90.0));
}

TEST_CASE("a float inlet shuts at its depth and lets in only what leaves") {
  const SolvedFarm farm = solved(R"(
farm: float inlet
creeks: {c: {surface: 100 m}}
tanks: {hill: {floor: 90 m, full: 2 m, depth: settle, float inlet: 1.5 m}}
outlets: {end: {level: 88 m}}
pipes:
  a: {from: c, to: hill, size: 1-1/2 in SIDR 15, length: 60 m}
  b: {from: hill, to: end, size: 3/4 in SIDR 15, length: 60 m}
)");
  CHECK(farm.place("hill").level_m.value() == Approx(91.5).margin(0.005));
  CHECK(farm.pipe("a").flow_m3_s == Approx(farm.pipe("b").flow_m3_s));
  CHECK(farm.place("hill").spill_m3_s.value() < 1e-9);
}

TEST_CASE("a float inlet under its depth is wide open and above it shut") {
  const auto with_depth = [](const std::string& depth) {
    return solved(
        "farm: depth\ncreeks: {c: {surface: 100 m}}\ntanks: {hill: {floor: 90 m, full: "
        "2 m, depth: " +
        depth +
        ", float inlet: 1.5 m}}\npipes: {a: {from: c, to: hill, size: 1 in SIDR 15, "
        "length: 60 m}}\n");
  };
  CHECK(with_depth("1 m").pipe("a").flow_m3_s > litres(0.5));
  CHECK(with_depth("1.8 m").pipe("a").flow_m3_s == 0.0);
}

TEST_CASE("a pipe that falls free gives less than one that ends under water below") {
  const SolvedFarm farm = solved(R"(
farm: ends
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 90 m}}
pipes:
  free: {from: c, to: p, size: 1 in SIDR 15, length: 60 m, ends: 95 m}
  drowned: {from: c, to: p, size: 1 in SIDR 15, length: 60 m, ends: 88 m}
  surface: {from: c, to: p, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(farm.pipe("surface").flow_m3_s == Approx(farm.pipe("drowned").flow_m3_s));
  CHECK(farm.pipe("free").flow_m3_s < 0.8 * farm.pipe("drowned").flow_m3_s);
  // Free at 95 m it is as an outlet there.
  const SolvedFarm outlet = solved(R"(
farm: outlet
creeks: {c: {surface: 100 m}}
outlets: {end: {level: 95 m}}
pipes: {a: {from: c, to: end, size: 1 in SIDR 15, length: 60 m}}
)");
  CHECK(farm.pipe("free").flow_m3_s == Approx(outlet.pipe("a").flow_m3_s).epsilon(1e-3));
  CHECK(farm.place("p").delivered_m3_s ==
        Approx(farm.pipe("free").flow_m3_s + farm.pipe("drowned").flow_m3_s +
               farm.pipe("surface").flow_m3_s));
  CHECK_FALSE(farm.place("p").spill_m3_s);
}

TEST_CASE("a free end lets no water back and a drowned one does") {
  const SolvedFarm farm = solved(R"(
farm: back
creeks: {low: {surface: 80 m}}
ponds: {high: {surface: 90 m}}
pipes:
  free: {from: low, to: high, size: 1 in SIDR 15, length: 60 m, ends: 91 m}
  drowned: {from: low, to: high, size: 1 in SIDR 15, length: 60 m, ends: 89 m}
)");
  CHECK(farm.pipe("free").flow_m3_s == 0.0);
  CHECK(farm.pipe("drowned").flow_m3_s < -litres(0.5));
}

TEST_CASE("a creek that has fallen below the pipe's mouth gives nothing") {
  const char* const text = R"(
farm: low creek
creeks: {c: {surface: {Jan: 100 m, Jul: 98 m, Sep: 98 m, Dec: 100 m}, intake: 99 m}}
ponds: {p: {surface: 90 m}}
pipes: {a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m}}
)";
  solver::SteadyOptions options;
  options.month = model::Month::Jul;
  const SolvedFarm july = solved(text, options);
  CHECK(july.pipe("a").flow_m3_s == 0.0);
  CHECK(std::abs(july.place("c").delivered_m3_s) < solver::still_flow_m3_s);
  options.month = model::Month::Jan;
  CHECK(solved(text, options).pipe("a").flow_m3_s > litres(0.5));
}

TEST_CASE("a regulator holds the pressure just below it") {
  const SolvedFarm farm = solved(R"(
farm: regulated
creeks: {c: {surface: 150 m}}
outlets: {end: {level: 98 m, opening: 4 mm}}
pipes:
  a: {from: c, to: end, size: 1 in SIDR 15, regulator: {at: 50 m, set: 100 kPa},
      path: [[0 m, 149 m], [50 m, 100 m], [90 m, 98 m]]}
)");
  // Without a regulator 52 m would stand over the hole, with it 10.2 m above the pipe at 100 m and
  // the 2 m below it.
  const double weight = farm.answer.density_kg_m3 * gravity_m_s2;
  CHECK(farm.place("end").head_m.value() == Approx(100.0 + 100e3 / weight).margin(0.15));
  CHECK(farm.place("end").head_m.value() < 100.0 + 100e3 / weight);
}

TEST_CASE("a regulator set higher than what comes passes all of it") {
  const char* const text = R"(
farm: idle regulator
creeks: {c: {surface: 110 m}}
outlets: {end: {level: 98 m, opening: 4 mm}}
pipes: {a: {from: c, to: end, size: 1 in SIDR 15, length: 60 m,
)";
  const SolvedFarm set = solved(std::string(text) + "regulator: {at: start, set: 500 kPa}}}\n");
  const SolvedFarm none = solved(std::string(text) + "lies: buried}}\n");
  CHECK(set.pipe("a").flow_m3_s == Approx(none.pipe("a").flow_m3_s).epsilon(1e-3));
}

}  // namespace leat::tests
