// Dangers over the load cases: what each finding says, from which figure on, and in which case.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/render/words/told_farm.h"

namespace leat::tests {

using solver::LoadCase;
using solver::Severity;

TEST_CASE("a float that snaps shut knocks in the case where all floats run wide open") {
  const auto with_float = [](const std::string& closes) {
    return told(
        "farm: snap\ncreeks: {c: {surface: 60 m}}\ntroughs: {t: {float: 10 m, need: 1 L/min" +
        closes +
        "}}\npipes: {a: {from: c, to: t, size: {bore: 26.6 mm, wall: 3.4 mm, modulus: 207000000 "
        "kPa, rating: 10 bar}, length: 300 m}}\n");
  };
  const ToldFarm snap = with_float(", closes in: 0.2 s");
  REQUIRE(snap.flag(solver::Code::Surge, "t") == nullptr);
  REQUIRE(snap.flag(solver::Code::Surge, "a") != nullptr);
  CHECK(snap.flag(solver::Code::Surge, "a")->load_case == LoadCase::Wide);
  CHECK(snap.text(solver::Code::Surge, "a").find("the float of t") != std::string::npos);
  // 5 s unless given: 2 x 300 m x under 3 m/s / (9.8 x 5 s) stays below 40 m.
  CHECK(with_float("").flag(solver::Code::Surge, "a") == nullptr);
}

TEST_CASE("with the knock worked out still water may take the whole rating and without it 72 %") {
  const auto line = [](const std::string& wall) {
    return told(
        "farm: share\ncreeks: {c: {surface: 95 m}}\ntroughs: {t: {float: 10 m, need: 1 "
        "L/min, seat: 2 mm}}\npipes: {a: {from: c, to: t, size: {bore: 26.6 mm, rating: "
        "10 bar" +
        wall + "}, length: 300 m}}\n");
  };
  // 85 m is 833 kPa: more than 720, less than 1000.
  const ToldFarm unknown = line("");
  REQUIRE(unknown.flag(solver::Code::OverRating, "a") != nullptr);
  CHECK(unknown.flag(solver::Code::OverRating, "a")->limit.value() == Approx(720e3));
  REQUIRE(unknown.flag(solver::Code::NoRating, "a") != nullptr);
  CHECK(unknown.text(solver::Code::NoRating, "a").find("wall and a modulus") != std::string::npos);
  const ToldFarm known = line(", wall: 3 mm, modulus: 1000000 kPa");
  CAPTURE(known.flags());
  CHECK(known.flag(solver::Code::OverRating, "a") == nullptr);
  CHECK(known.flag(solver::Code::NoRating, "a") == nullptr);
}

TEST_CASE("a dip over its rating says where a tank would have to stand") {
  // E7: 300 ft of fall in 100 psi pipe ask for one tank, 350 ft for two (72 % rule, 166.1 ft).
  const auto dip = [](int fall_ft) {
    return told("farm: dip\nshow: US\ncreeks: {c: {surface: 500 ft}}\nponds: {p: {surface: " +
                std::to_string(500 - fall_ft) +
                " ft}}\npipes: {a: {from: c, to: p, size: {bore: 1 in, rating: 100 psi}, length: "
                "900 ft}}\n");
  };
  CHECK(dip(300)
            .text(solver::Code::OverRating, "a")
            .find("a tank that breaks the pressure, near 350.0 ft") != std::string::npos);
  // 500 - 350/3 and 500 - 2 x 350/3.
  CHECK(dip(350)
            .text(solver::Code::OverRating, "a")
            .find("2 tanks that break the pressure, near 383.3 ft, "
                  "266.7 ft") != std::string::npos);
}

TEST_CASE("thin pipe is flattened by the suction of its rise and stronger pipe is not") {
  const auto rise = [](const std::string& wall_mm, const std::string& lies = "buried") {
    return told(
        "farm: rise\ncreeks: {c: {surface: 10 m}}\nponds: {p: {surface: 9.9 m}}\npipes: "
        "{a: {from: c, to: p, lies: " +
        lies + ", size: {bore: 50 mm, wall: " + wall_mm +
        " mm, modulus: 896000 kPa}, path: [[0 m, 9.5 m], [20 m, 12 m], [40 m, 9.5 m]]}}\n");
  };
  // A modulus of 896 MPa counts as polyethylene: 200 MPa for a season (H3). By hand, wall 2 mm:
  // DR 27, 2 x 200 MPa/0.7975/26^3 = 28.537 kPa, out of round 0.63984: 18.259 kPa.
  const ToldFarm thin = rise("2");
  REQUIRE(thin.flag(solver::Code::Collapse, "a") != nullptr);
  CHECK(thin.flag(solver::Code::Collapse, "a")->severity == Severity::Danger);
  CHECK(thin.text(solver::Code::Collapse, "a")
            .find("18.3 kPa of suction, kept up for a season, flattens so thin a pipe") !=
        std::string::npos);
  CHECK(thin.flag(solver::Code::Collapse, "a")->value.value() *
            -thin.pipe("a").lowest_pressure_Pa.value() ==
        Approx(18259.0).epsilon(1e-3));
  // Wall 2.5 mm: DR 22, 54.16 kPa, out of round 34.65 kPa, 1.75 times 2 m of suction.
  const ToldFarm doubtful = rise("2.5");
  REQUIRE(doubtful.flag(solver::Code::Collapse, "a") != nullptr);
  CHECK(doubtful.flag(solver::Code::Collapse, "a")->severity == Severity::Caution);
  CHECK(doubtful.flag(solver::Code::Collapse, "a")->limit.value() == 2.0);
  CHECK(rise("4").flag(solver::Code::Collapse, "a") == nullptr);
  // Wall 2.8 mm holds twice in the ground; in the sun the warm wall has half of its stiffness.
  CHECK(rise("2.8").flag(solver::Code::Collapse, "a") == nullptr);
  CHECK(rise("2.8", "sun").flag(solver::Code::Collapse, "a") != nullptr);
}

TEST_CASE("hose on a rise is noted as unjudged and suction hose is made for it") {
  const auto rise = [](const std::string& size) {
    return told(
        "farm: hose\ncreeks: {c: {surface: 10 m}}\nponds: {p: {surface: 8 m}}\npipes: "
        "{a: {from: c, to: p, size: " +
        size + ", path: [[0 m, 9.5 m], [20 m, 11 m], [40 m, 7.5 m]]}}\n");
  };
  CHECK(rise("1 in hose").text(solver::Code::NoRating, "a").find("sucks flat") !=
        std::string::npos);
  CHECK(rise("1 in suction hose").text(solver::Code::NoRating, "a").find("sucks flat") ==
        std::string::npos);
}

TEST_CASE("a pond drains back when the creek above it falls in the dry month") {
  const auto farm = [](const std::string& more, const std::string& low = "94 m") {
    return "farm: drain\ncreeks: {c: {surface: {Feb: 100 m, Aug: " + low +
           "}, intake: 93 m, flow: {Feb: 9 L/s, Aug: 1 L/s}}}\nponds: {p: {surface: 96 m}}\npipes: "
           "{a: {from: c, to: p, size: 1 in SIDR 15, length: 60 m, ends: 95 m" +
           more + "}}\n";
  };
  solver::SteadyOptions in_february;
  in_february.month = model::Month::Feb;
  const ToldFarm warned = told(farm(""), in_february);
  CHECK(warned.pipe("a").flow_m3_s > 0.0);
  REQUIRE(warned.flag(solver::Code::Backwards, "a") != nullptr);
  CHECK(warned.flag(solver::Code::Backwards, "a")->severity == Severity::Caution);
  // From the pond's 96 m to the pipe's end at 95 m; the creek falls further.
  CHECK(warned.flag(solver::Code::Backwards, "a")->value.value() == Approx(-1.0));
  CHECK(warned.text(solver::Code::Backwards, "a").find("Aug") != std::string::npos);
  CHECK(warned.text(solver::Code::Backwards, "a").find("95.00 m") != std::string::npos);
  CHECK(told(farm(", one-way: yes"), in_february).flag(solver::Code::Backwards, "a") == nullptr);
  CHECK(told(farm("", "97 m"), in_february).flag(solver::Code::Backwards, "a") == nullptr);
  const ToldFarm dry = told(farm(""));
  CHECK(dry.pipe("a").flow_m3_s < 0.0);
  REQUIRE(dry.flag(solver::Code::Backwards, "a") != nullptr);
  CHECK(dry.flag(solver::Code::Backwards, "a")->measure == solver::Measure::Flow);
}

TEST_CASE("a summit in danger only while every float runs wide is named with that case") {
  const ToldFarm farm = told(R"(
farm: wide
creeks: {c: {surface: 100 m}}
troughs: {t: {float: 60 m, need: 1 L/min}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 11.5, path: [[0 m, 99 m], [80 m, 102 m], [160 m, 60 m]]}
)");
  CHECK(farm.pipe("a").summit->margin_m.value() > 5.0);
  CHECK(farm.pipe("a").state == solver::PipeState::Suction);
  REQUIRE(farm.flag(solver::Code::Parted, "a") != nullptr);
  CHECK(farm.flag(solver::Code::Parted, "a")->load_case == LoadCase::Wide);
  // Asked for itself, the case says the same.
  solver::SteadyOptions wide;
  wide.load_case = LoadCase::Wide;
  const ToldFarm asked = told(R"(
farm: wide
creeks: {c: {surface: 100 m}}
troughs: {t: {float: 60 m, need: 1 L/min}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 11.5, path: [[0 m, 99 m], [80 m, 102 m], [160 m, 60 m]]}
)",
                              wide);
  CHECK(asked.text(solver::Code::Parted, "a") == farm.text(solver::Code::Parted, "a"));
  CHECK(asked.pipe("a").state == solver::PipeState::Parted);
}

}  // namespace leat::tests
