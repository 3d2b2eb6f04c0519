// What the first review of the steady solver found wrong, one case a finding: reasons that were not
// true, pressures below vacuum, heads that meant nothing.
#include <cmath>

#include <catch2/catch.hpp>

#include "tests/render/words/told_farm.h"

namespace leat::tests {

namespace {

bool says(const std::string& sentence, const std::string& part) {
  return sentence.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a shut valve on another branch is not why a trough is too high") {
  const ToldFarm farm = told(R"(
farm: sibling
springs: {up: {overflow: 100 m, yield: 5 L/s}}
tees: {t: 90 m}
troughs: {high: {float: 105 m, need: 0.1 L/s}}
outlets: {low: {level: 85 m}}
pipes:
  main: {from: up, to: t, size: 1 in SIDR 15, length: 100 m}
  h: {from: t, to: high, size: 1 in SIDR 15, length: 100 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 100 m,
      valve: {type: gate, shut: yes, at: end}}
)");
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "high"), "shut"));
  CHECK(says(farm.text(solver::Code::Dry, "high"), "too high: its float stands 5 m above"));
}

TEST_CASE("a summit lowered by what the sentence says is no danger any more") {
  const auto at = [](const std::string& level) {
    return told(
        "farm: parted\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 80 m}}\n"
        "pipes: {a: {from: c, to: p, size: 1 in SIDR 15, path: [[0 m, 100 m], [50 m, " +
        level + " m], [100 m, 80 m]]}}\n");
  };
  const std::string text = at("108").text(solver::Code::Parted, "a");
  const std::string before = "would have to lie ";
  const double lower =
      std::strtod(text.c_str() + text.find(before) + before.size(), nullptr) + 0.01;
  CAPTURE(text);
  CHECK(at(std::to_string(108.0 - lower)).flag(solver::Code::Parted, "a") == nullptr);
  CHECK(at(std::to_string(108.0 - lower)).flag(solver::Code::NearVapour, "a") == nullptr);
}

TEST_CASE("a summit too high is why nothing comes over it") {
  const ToldFarm farm = told(R"(
farm: barred
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 90 m, need: 0.1 L/s}}
pipes:
  main: {from: c, to: low, size: 1 in SIDR 15, path: [[0 m, 100 m], [50 m, 115 m], [100 m, 90 m]]}
)");
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "low"), "nothing that holds water is joined"));
  CHECK(farm.pipe("main").lowest_pressure_Pa.value() >= -farm.answer.air_pressure_Pa);
}

TEST_CASE("a check that does not open is why nothing comes") {
  const ToldFarm farm = told(R"(
farm: check
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 99.8 m, need: 0.1 L/s}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 60 m, fittings: [spring check]}}
)");
  CHECK(says(farm.text(solver::Code::Dry, "low"), "does not open the check on a"));
}

TEST_CASE("a creek below the pipe's mouth is why nothing comes") {
  const ToldFarm farm = told(R"(
farm: uncovered
creeks: {c: {surface: 98 m}}
troughs: {low: {float: 90 m, need: 0.1 L/s}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, path: [[0 m, 99 m], [60 m, 90 m]]}}
)");
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "low"), "nothing that holds water is joined"));
}

TEST_CASE("a spring that has dried up is why nothing comes") {
  const ToldFarm farm = told(R"(
farm: dried up
springs: {up: {overflow: 100 m, yield: 0 L/s}}
tees: {t: 92 m}
ponds: {p: {surface: 89 m}}
troughs: {low: {float: 90 m, need: 0.1 L/s}}
pipes:
  main: {from: up, to: t, size: 1 in SIDR 15, length: 100 m}
  l: {from: t, to: low, size: 1 in SIDR 15, length: 100 m}
  pp: {from: t, to: p, size: 1 in SIDR 15, length: 100 m}
)");
  CHECK(says(farm.text(solver::Code::Dry, "low"), "up yields nothing"));
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "low"), "takes all of it"));
  CHECK(says(farm.text(solver::Code::DrawnDown, "up"), "up yields nothing"));
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "low"), "0 cm above"));
}

TEST_CASE("no float far below a dried box is said to stand above the box's water") {
  const ToldFarm farm = told(R"(
farm: parched
springs: {box: {overflow: 60 m, intake: 59.8 m, yield: 0 L/s}}
troughs: {yard: {float: 30 m, need: 1440 L/day}}
pipes:
  line: {from: box, to: yard, size: 1 in SIDR 15, length: 60 m}
)");
  CHECK(says(farm.text(solver::Code::Dry, "yard"), "box yields nothing"));
  CHECK_FALSE(says(farm.text(solver::Code::Dry, "yard"), "above the water of box"));
}

TEST_CASE("what takes a third of the fall does not take most of it") {
  const ToldFarm farm = told(R"(
farm: thirds
creeks: {c: {surface: 100 m}}
tees: {t1: 90 m, t2: 90 m}
troughs: {low: {float: 90 m, need: 5 L/s, seat: 20 mm}}
pipes:
  p1: {from: c, to: t1, size: 1 in SIDR 15, length: 100 m}
  p2: {from: t1, to: t2, size: 1 in SIDR 15, length: 100 m}
  p3: {from: t2, to: low, size: 1 in SIDR 15, length: 100 m}
)");
  CHECK_FALSE(says(farm.text(solver::Code::Starved, "low"), "most of the fall"));
}

TEST_CASE("a regulator that takes most of the fall is named and counted") {
  const ToldFarm farm = told(R"(
farm: regulated
creeks: {c: {surface: 150 m}}
troughs: {low: {float: 100 m, need: 2 L/s, seat: 12 mm}}
pipes:
  a: {from: c, to: low, size: 1 in SIDR 15, length: 100 m, regulator: {at: end, set: 20 kPa}}
)");
  CHECK(says(farm.text(solver::Code::Starved, "low"), "regulator"));
  CHECK(says(farm.text(solver::Code::Starved, "low"), "of the 50 m there is"));
}

TEST_CASE("fittings that take nearly all are not the pipe's length") {
  const ToldFarm farm = told(R"(
farm: fittings
creeks: {c: {surface: 100 m}}
troughs: {low: {float: 95 m, need: 5 L/s}}
pipes: {a: {from: c, to: low, size: 1 in SIDR 15, length: 6 m, fittings: [k 500]}}
)");
  CHECK_FALSE(says(farm.text(solver::Code::Starved, "low"), "too far for its pipe"));
}

}  // namespace leat::tests
