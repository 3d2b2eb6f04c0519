// How high practice lets water be lifted by suction, against what leat says of a siphon that high.
#include <string>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::tests {
namespace {

struct LiftRow {
  std::string source;
  int altitude_ft;
  int lift_ft;
};

/// A wide siphon with hardly any fall: the summit's suction is its height.
SolvedFarm siphon(int altitude_ft, double lift_ft) {
  return solved("farm: lift\nshow: US\nsite: {altitude: " + std::to_string(altitude_ft) +
                " ft, water: 15 C}\ncreeks: {c: {surface: 100 ft}}\nponds: {p: {surface: 99.999 "
                "ft}}\npipes: {a: {from: c, to: p, size: {bore: 300 mm}, path: [[0 ft, 95 ft], "
                "[100 ft, " +
                std::to_string(100.0 + lift_ft) + " ft], [200 ft, 95 ft]]}}\n");
}

}  // namespace

TEST_CASE("the lifts that practice allows come out as a caution and not as a danger",
          "[reference]") {
  const std::string source = "reference D3: practical suction-lift table, public (V)";
  const auto row = GENERATE_COPY(values<LiftRow>({
      {source, 0, 22},
      {source, 1320, 21},
      {source, 2640, 20},
      {source, 3960, 18},
      {source, 5280, 17},
      {source, 6600, 16},
      {source, 7920, 15},
      {source, 10560, 14},
  }));
  const SolvedFarm farm = siphon(row.altitude_ft, row.lift_ft);
  CAPTURE(row.source, row.altitude_ft, row.lift_ft, farm.flags());
  CHECK(farm.flag(solver::Code::LowPressure, "a") != nullptr);
  CHECK(farm.flag(solver::Code::NearVapour, "a") == nullptr);
  CHECK(farm.flag(solver::Code::Parted, "a") == nullptr);
  // A tenth of the air's weight higher it is one.
  CHECK(siphon(row.altitude_ft, row.lift_ft + 4.0).flag(solver::Code::NearVapour, "a") != nullptr);
}

}  // namespace leat::tests
