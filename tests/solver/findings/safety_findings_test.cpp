// Dangers over the load cases: what each finding says, from which figure on, and in which case.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {

using solver::Severity;

namespace {

/// A long steel line with a valve at its end.
SolvedFarm steel(const std::string& valve, const std::string& length = "600 m") {
  return solved(
      "farm: steel\nsite: {water: 15 C}\ncreeks: {c: {surface: 40 m}}\noutlets: {o: {level: 10 "
      "m}}\n"
      "pipes: {a: {from: c, to: o, size: {bore: 26.6 mm, wall: 3.4 mm, modulus: 207000000 kPa, "
      "rating: 10 bar}, length: " +
      length + valve + "}}\n");
}

}  // namespace

TEST_CASE("a quarter-turn valve slams a long steel line beyond its rating") {
  const SolvedFarm farm = steel(", valve: {type: ball, open: 100 %, at: end}");
  const solver::Finding* const flag = farm.flag(solver::Code::Surge, "a");
  REQUIRE(flag != nullptr);
  CHECK(flag->severity == Severity::Danger);
  CHECK(flag->limit.value() == Approx(1e6));
  // By hand: 2 L V/(g tc), tc = 1 s (common practice, no source), water of 999.1 kg/m3 and
  // 30 m standing: 9.798 kPa/m x (30 + 2 x 600 V/9.80665). The wave alone (1410 m/s) makes more.
  const double velocity = farm.pipe("a").velocity_m_s;
  CHECK(flag->value.value() ==
        Approx(9798.0 * (30.0 + 2.0 * 600.0 * velocity / 9.80665)).epsilon(1e-3));
  // A wheel valve takes ten times as long, and a short line has little behind it.
  CHECK(steel(", valve: {type: gate, open: 100 %, at: end}").flag(solver::Code::Surge, "a") ==
        nullptr);
  CHECK(
      steel(", valve: {type: ball, open: 100 %, at: end}", "60 m").flag(solver::Code::Surge, "a") ==
      nullptr);
  CHECK(steel("").flag(solver::Code::Surge, "a") == nullptr);
}

TEST_CASE("a mouth too near the surface draws air, more so while the water runs fast") {
  const auto mouth = [](const std::string& level) {
    return solved(
        "farm: mouth\ncreeks: {c: {surface: 100 m}}\noutlets: {o: {level: 80 m}}\npipes: "
        "{a: {from: c, to: o, size: 1 in SIDR 15, path: [[0 m, " +
        level + " m], [60 m, 80 m]]}}\n");
  };
  const SolvedFarm shallow = mouth("99.8");
  REQUIRE(shallow.flag(solver::Code::IntakeCover, "a") != nullptr);
  CHECK(shallow.flag(solver::Code::IntakeCover, "a")->severity == Severity::Caution);
  CHECK(shallow.flag(solver::Code::IntakeCover, "a")->value.value() == Approx(0.2));
  // Hydraulic Institute 9.8, from memory: D (1 + 2.3 v/sqrt(g D)), D 26.645 mm.
  CHECK(shallow.flag(solver::Code::IntakeCover, "a")->limit.value() ==
        Approx(0.026645 *
               (1.0 + 2.3 * shallow.pipe("a").velocity_m_s / std::sqrt(9.80665 * 0.026645)))
            .epsilon(1e-4));
  CHECK(mouth("99.6").flag(solver::Code::IntakeCover, "a") == nullptr);
  // Where the file does not say how deep the mouth lies nothing is said of its cover.
  CHECK(solved("farm: m\ncreeks: {c: {surface: 100 m}}\noutlets: {o: {level: 80 m}}\npipes: {a: "
               "{from: c, to: o, size: 1 in SIDR 15, length: 60 m}}\n")
            .flag(solver::Code::IntakeCover, "a") == nullptr);
}

TEST_CASE("silt stays in a dip that water never runs through fast") {
  const auto dip = [](const std::string& surface) {
    return solved("farm: silt\ncreeks: {c: {surface: " + surface +
                  " m}}\noutlets: {o: {level: 90 m}}\npipes: {a: {from: c, to: o, size: 1-1/2 in "
                  "SIDR 15, path: [[0 m, 90 m], [50 m, 80 m], [100 m, 90 m]]}}\n");
  };
  const SolvedFarm slow = dip("90.3");
  REQUIRE(slow.flag(solver::Code::Silt, "a") != nullptr);
  CHECK(slow.flag(solver::Code::Silt, "a")->severity == Severity::Note);
  CHECK(slow.flag(solver::Code::Silt, "a")->value.value() == Approx(slow.pipe("a").velocity_m_s));
  CHECK(dip("96").pipe("a").velocity_m_s > 0.6);
  CHECK(dip("96").flag(solver::Code::Silt, "a") == nullptr);
}

TEST_CASE("a tee said to leak in suction lets air in, and so does a joint placed there") {
  const SolvedFarm tee = solved(R"(
farm: leak
creeks: {c: {surface: 100 m}}
ponds: {p: {surface: 85 m}}
tees: {t: {elevation: 94 m, leaks: yes}}
pipes:
  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}
  b: {from: t, to: p, size: 1 in SIDR 15, length: 60 m}
)");
  REQUIRE(tee.flag(solver::Code::AirLeak, "t") != nullptr);
  CHECK(tee.flag(solver::Code::AirLeak, "t")->severity == Severity::Caution);
  CHECK(tee.flag(solver::Code::SuctionAtTee, "t") == nullptr);
  const auto joint = [](const std::string& fitting) {
    return solved(
        "farm: joint\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 97 m}}\npipes: "
        "{a: {from: c, to: p, size: 1 in SIDR 15, fittings: [" +
        fitting + "], path: [[0 m, 99 m], [30 m, 102 m], [80 m, 96 m]]}}\n");
  };
  const SolvedFarm on_rise = joint("{coupler: 30 m}");
  REQUIRE(on_rise.flag(solver::Code::AirLeak, "a") != nullptr);
  CHECK(on_rise.flag(solver::Code::AirLeak, "a")->severity == Severity::Caution);
  // Two metres above the water, and what the first leg loses.
  CHECK(on_rise.flag(solver::Code::AirLeak, "a")->value.value() < -9798.0 * 2.0);
  CHECK(joint("{coupler: 2 m}").flag(solver::Code::AirLeak, "a") == nullptr);
  CHECK(joint("").flag(solver::Code::AirLeak, "a") == nullptr);
  // Without a place it may sit anywhere: a note that asks for it.
  REQUIRE(joint("2 coupler").flag(solver::Code::AirLeak, "a") != nullptr);
  CHECK(joint("2 coupler").flag(solver::Code::AirLeak, "a")->severity == Severity::Note);
}

TEST_CASE("a float under water is emptied by a line that stands lower and one above it is not") {
  const auto farm = [](const std::string& enters) {
    return solved(
        "farm: trough\ncreeks: {c: {surface: 100 m}}\ntees: {t: 97 m}\noutlets: {low: "
        "{level: 92 m}}\ntroughs: {high: {float: 99 m, need: 0.1 L/s" +
        enters +
        "}}\npipes:\n  a: {from: c, to: t, size: 1 in SIDR 15, length: 60 m}\n  l: {from: "
        "t, to: low, size: 1-1/2 in SIDR 15, length: 20 m}\n  h: {from: t, to: high, "
        "size: 1 in SIDR 15, length: 20 m}\n");
  };
  const SolvedFarm under = farm(", enters: under water");
  REQUIRE(under.flag(solver::Code::BackSiphonage, "high") != nullptr);
  CHECK(under.flag(solver::Code::BackSiphonage, "high")->severity == Severity::Danger);
  CHECK(farm("").flag(solver::Code::BackSiphonage, "high") == nullptr);
}

TEST_CASE("a household on a siphon is warned and one below a tank is not") {
  const auto farm = [](const std::string& to, const std::string& more) {
    return solved(
        "farm: house\ncreeks: {c: {surface: 100 m}}\ntanks: {box: {floor: 90 m, full: 2 m, depth: "
        "1 "
        "m}}\noutlets: {tap: {level: 80 m, household: yes}}\npipes:\n  a: {from: c, to: " +
        to + ", size: 1 in SIDR 15, path: [[0 m, 99 m], [20 m, 102 m], [60 m, " + more);
  };
  const SolvedFarm siphon =
      farm("tap",
           "80 m]]}\n  b: {from: box, to: box2, size: 1 in SIDR 15, length: 9 m}\n"
           "ponds: {box2: {surface: 85 m}}\n");
  REQUIRE(siphon.flag(solver::Code::BackSiphonage, "tap") != nullptr);
  CHECK(siphon.flag(solver::Code::BackSiphonage, "tap")->severity == Severity::Danger);
  const SolvedFarm tank =
      farm("box", "92 m]]}\n  b: {from: box, to: tap, size: 1 in SIDR 15, length: 40 m}\n");
  CHECK(tank.pipe("a").lowest_pressure_Pa.value() < -15000.0);
  CHECK(tank.flag(solver::Code::BackSiphonage, "tap") == nullptr);
}

}  // namespace leat::tests
