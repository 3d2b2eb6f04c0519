// How high still water stands with everything shut.
#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::LoadCase;

TEST_CASE("with everything shut each stretch stands at the highest water that reaches it") {
  const SolvedFarm farm = solved(R"(
farm: static
springs: {up: {overflow: 110 m, yield: 1 L/s}}
creeks: {ford: {surface: 100 m}}
tees: {upper: 90 m, lower: 70 m}
outlets: {garden: {level: 60 m}}
pipes:
  a: {from: up, to: upper, size: 1 in SIDR 15, length: 60 m}
  c: {from: ford, to: upper, size: 1 in SIDR 15, length: 60 m}
  b: {from: upper, to: lower, size: 1 in SIDR 15, length: 60 m}
  d: {from: lower, to: garden, size: 1 in SIDR 15, length: 60 m}
)",
                                 LoadCase::Static);
  CHECK(farm.answer.converged);
  CHECK(farm.answer.iterations == 0);
  CHECK(farm.place("upper").head_m.value() == Approx(110.0));
  CHECK(farm.place("garden").head_m.value() == Approx(110.0));
  CHECK(farm.place("ford").level_m.value() == Approx(100.0));
  const double weight = farm.answer.density_kg_m3 * gravity_m_s2;
  CHECK(farm.place("lower").pressure_Pa.value() == Approx(weight * 40.0));
  CHECK(farm.pipe("d").highest_pressure_Pa.value() == Approx(weight * 50.0));
  CHECK(farm.pipe("d").flow_m3_s == 0.0);
  CHECK(farm.place("garden").delivered_m3_s == 0.0);
  CHECK(farm.place("up").spill_m3_s == 0.0);
}

TEST_CASE("a tank that breaks the pressure starts again at its brim") {
  const SolvedFarm farm = solved(R"(
farm: static
springs: {up: {overflow: 110 m, yield: 1 L/s}}
tanks: {hill: {floor: 80 m, full: 2 m, depth: settle}}
outlets: {garden: {level: 60 m}}
pipes:
  a: {from: up, to: hill, size: 1 in SIDR 15, length: 60 m}
  b: {from: hill, to: garden, size: 1 in SIDR 15, length: 60 m}
)",
                                 LoadCase::Static);
  CHECK(farm.place("garden").head_m.value() == Approx(82.0));
  const double weight = farm.answer.density_kg_m3 * gravity_m_s2;
  CHECK(farm.pipe("a").highest_pressure_Pa.value() == Approx(weight * 28.0));
}

TEST_CASE("a one-way holds high water back and a shut valve parts two heads") {
  const SolvedFarm farm = solved(R"(
farm: static
creeks: {high: {surface: 110 m}, low: {surface: 90 m}}
tees: {left: 70 m, right: 70 m}
outlets: {one: {level: 60 m}, two: {level: 60 m}}
pipes:
  a: {from: low, to: left, size: 1 in SIDR 15, length: 60 m}
  b: {from: left, to: high, size: 1 in SIDR 15, length: 60 m, one-way: yes}
  c: {from: left, to: one, size: 1 in SIDR 15, length: 60 m}
  d: {from: high, to: right, size: 1 in SIDR 15, length: 60 m}
  e: {from: left, to: right, size: 1 in SIDR 15, length: 60 m,
      valve: {type: gate, shut: yes, at: end}}
  f: {from: right, to: two, size: 1 in SIDR 15, length: 60 m}
)",
                                 LoadCase::Static);
  CHECK(farm.place("one").head_m.value() == Approx(90.0));
  CHECK(farm.place("two").head_m.value() == Approx(110.0));
}

TEST_CASE("behind a one-way the higher water fills the stretch it may enter") {
  const SolvedFarm farm = solved(R"(
farm: static
creeks: {high: {surface: 110 m}, low: {surface: 90 m}}
tees: {t: 70 m}
outlets: {end: {level: 60 m}}
pipes:
  a: {from: low, to: t, size: 1 in SIDR 15, length: 60 m, one-way: yes}
  b: {from: high, to: t, size: 1 in SIDR 15, length: 60 m, one-way: yes}
  c: {from: t, to: end, size: 1 in SIDR 15, length: 60 m}
)",
                                 LoadCase::Static);
  CHECK(farm.place("end").head_m.value() == Approx(110.0));
}

TEST_CASE("a regulator may fail open and is counted so") {
  const SolvedFarm farm = solved(R"(
farm: static
creeks: {high: {surface: 110 m}}
outlets: {end: {level: 60 m, wished: 0.1 L/s}}
pipes:
  a: {from: high, to: end, size: 1 in SIDR 15, length: 100 m, regulator: {at: 50 m, set: 50 kPa}}
)",
                                 LoadCase::Static);
  CHECK(farm.place("end").head_m.value() == Approx(110.0));
}

TEST_CASE("a vent with a top lets still water stand no higher") {
  const SolvedFarm farm = solved(R"(
farm: static
creeks: {high: {surface: 110 m}}
outlets: {end: {level: 60 m}}
pipes:
  a: {from: high, to: end, size: 1 in SIDR 15, path: [[0 m, 110 m], [50 m, 85 m], [100 m, 60 m]],
      vents: [{at: 50 m, top: 95 m}]}
)",
                                 LoadCase::Static);
  CHECK(farm.place("end").head_m.value() == Approx(95.0));
}

TEST_CASE("the dip of a pipe sees its static pressure and seventy-two hundredths of the rating") {
  // 100 psi pipe may see 166.1 ft of water: B7, Missouri Livestock Watering Systems Handbook, ch. 5
  // (NRCS 1997), quoting ASAE S376.1: V. The book's foot weighs 62.4 lb, ours is water of 15 C.
  const auto dip = [](double depth_ft) {
    const std::string bottom = std::to_string(500.0 - depth_ft);
    return solved(
        "farm: dip\nshow: US\ncreeks: {c: {surface: 500 ft}}\nponds: {p: {surface: "
        "450 ft}}\npipes:\n  a: {from: c, to: p, size: {bore: 1 in, rating: 100 psi}, "
        "path: [[0 ft, 500 ft], [400 ft, " +
        bottom + " ft], [800 ft, 450 ft]]}\n");
  };
  const SolvedFarm under = dip(165.9);
  CAPTURE(under.flags());
  CHECK(under.flag(solver::Code::OverRating, "a") == nullptr);
  const SolvedFarm over = dip(166.4);
  REQUIRE(over.flag(solver::Code::OverRating, "a") != nullptr);
  CHECK(over.flag(solver::Code::OverRating, "a")->load_case == LoadCase::Static);
  CHECK(over.flag(solver::Code::OverRating, "a")->severity == solver::Severity::Danger);
  CHECK(over.flag(solver::Code::OverRating, "a")->limit.value() ==
        Approx(0.72 * 100.0 * pascals_per_psi));
  CHECK(over.pipe("a").state == solver::PipeState::OverRating);
}

TEST_CASE("pipe in the grass keeps 0.87 of its rating and pipe in the sun has none") {
  // ISO 4427-1 Annex A, from memory (B8).
  const auto line = [](const std::string& lies) {
    return solved(
        "farm: warm\ncreeks: {c: {surface: 150 m}}\nponds: {p: {surface: 100 m}}\n"
        "pipes:\n  a: {from: c, to: p, size: {bore: 26 mm, rating: 7 bar}, length: "
        "300 m, lies: " +
        lies + "}\n");
  };
  // 50 m is 490 kPa; 0.72 of 700 kPa is 504, of 609 kPa 438.
  CHECK(line("buried").flag(solver::Code::OverRating, "a") == nullptr);
  const SolvedFarm grass = line("grass");
  REQUIRE(grass.flag(solver::Code::OverRating, "a") != nullptr);
  CHECK(grass.flag(solver::Code::OverRating, "a")->limit.value() == Approx(0.72 * 700e3 * 0.87));
  CHECK(line("sun").flag(solver::Code::OverRating, "a") == nullptr);
  CHECK(line("sun").flag(solver::Code::NoRating, "a") != nullptr);
}

}  // namespace leat::tests
