#include <cmath>
#include <string>

#include <catch2/catch.hpp>

#include "solver/findings/trapped_air.h"
#include "tests/render/words/told_farm.h"

namespace leat::tests {

namespace {

using hydraulics::AirVerdict;
using solver::FallingLeg;

/// Two rises below the pond's level on the way to an outlet; `extra` belongs to the pipe.
std::string two_rises(const std::string& extra, const std::string& opening = "opening: 15 mm") {
  return R"(farm: two rises
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m, )" +
         opening + R"(}
pipes:
  line:
    from: upper
    to: end
    size: 32 mm PE100 SDR 11
    path: [[0 m, 19 m], [100 m, 10 m], [200 m, 16 m], [260 m, 13 m], [300 m, 14 m], [400 m, 12 m]]
)" + extra;
}

}  // namespace

TEST_CASE("slow water in a wide pipe leaves air at a rise and the finding says what it takes") {
  // 8 m of fall through a 4 mm opening: the 32 mm pipe runs at a few centimetres a second.
  const ToldFarm farm = told(two_rises("", "opening: 4 mm"));
  const solver::Finding* const flag = farm.flag(solver::Code::AirStays, "line");
  REQUIRE(flag != nullptr);
  CHECK(flag->severity == solver::Severity::Caution);
  CHECK(flag->value.value() == Approx(farm.pipe("line").velocity_m_s));
  CHECK(flag->value.value() < flag->limit.value());
  const std::string text = farm.text(solver::Code::AirStays, "line");
  CAPTURE(text);
  // The steeper of the two legs is the worse.
  CHECK(text.find("at 200 m (16.00 m)") != std::string::npos);
  CHECK(text.find("hold back 3 m of water out of a fall of 8 m") != std::string::npos);
}

TEST_CASE("a summit in suction is bled by hand and never vented", "[reference]") {
  INFO("reference F8: never an automatic vent where the running pressure is below the air's");
  const ToldFarm farm = told(R"(farm: slow siphon
ponds:
  upper: {surface: 20 m}
outlets:
  end: {level: 12 m, opening: 4 mm}
pipes:
  siphon: {from: upper, to: end, size: 32 mm PE100 SDR 11,
           path: [[0 m, 19 m], [20 m, 22 m], [100 m, 12 m]]}
)");
  const std::string text = farm.text(solver::Code::AirStays, "siphon");
  CAPTURE(farm.flags());
  CHECK(text.find("by hand with the line stopped") != std::string::npos);
  CHECK(text.find("a vent there would let air in") != std::string::npos);
}

}  // namespace leat::tests
