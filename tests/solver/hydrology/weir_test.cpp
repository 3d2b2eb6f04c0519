#include "tests/support/weir.h"

#include <stdexcept>

#include <catch2/catch.hpp>

#include "model/quantity/quantity.h"

namespace leat::hydrology {
namespace {

double gallons_per_minute(double flow_m3_s) {
  return in_us_gallons_per_minute(cubic_metres_per_second(flow_m3_s));
}

TEST_CASE("a right-angled notch passes the published gallons", "[reference]") {
  // Reference E8.2: USBR Water Measurement Manual (from memory), 2.49 H^2.48 in feet.
  CHECK(gallons_per_minute(right_angle_notch_m3_s(0.1 * 0.3048)) == Approx(3.70).margin(6e-3));
  CHECK(gallons_per_minute(right_angle_notch_m3_s(0.2 * 0.3048)) == Approx(20.65).margin(6e-3));
  CHECK(gallons_per_minute(right_angle_notch_m3_s(0.3 * 0.3048)) == Approx(56.43).margin(6e-3));
  CHECK(gallons_per_minute(right_angle_notch_m3_s(0.4 * 0.3048)) == Approx(115.2).margin(6e-2));
  CHECK(gallons_per_minute(right_angle_notch_m3_s(0.5 * 0.3048)) == Approx(200.3).margin(6e-2));
}

TEST_CASE("narrower notches pass the published gallons", "[reference]") {
  // Reference E8.3: ASTM D5242-92; tolerance 0.3 %.
  CHECK(gallons_per_minute(sixty_degree_notch_m3_s(0.2 * 0.3048)) == Approx(11.58).epsilon(3e-3));
  CHECK(gallons_per_minute(sixty_degree_notch_m3_s(0.3 * 0.3048)) == Approx(31.92).epsilon(3e-3));
  CHECK(gallons_per_minute(forty_five_degree_notch_m3_s(0.2 * 0.3048)) ==
        Approx(8.309).epsilon(3e-3));
  CHECK(gallons_per_minute(forty_five_degree_notch_m3_s(0.3 * 0.3048)) ==
        Approx(22.90).epsilon(3e-3));
}

TEST_CASE("a right-angled notch by Kindsvater and Shen passes the published litres",
          "[reference]") {
  // Reference E8.4: ISO 1438, Ce 0.57790, kh 0.885 mm, computed there.
  CHECK(notch_m3_s(0.060, 90.0) * 1e3 == Approx(1.2486).epsilon(2e-4));
  CHECK(notch_m3_s(0.100, 90.0) * 1e3 == Approx(4.4127).epsilon(2e-4));
  CHECK(notch_m3_s(0.150, 90.0) * 1e3 == Approx(12.071).epsilon(2e-4));
  CHECK(notch_m3_s(0.200, 90.0) * 1e3 == Approx(24.689).epsilon(2e-4));
}

TEST_CASE("the general notch agrees with the notches of fixed angle within five percent", "[law]") {
  // Different authors: at small heads the allowance kh makes 4 % at 45 degrees.
  for (double head_m = 0.08; head_m < 0.3; head_m += 0.02) {
    CAPTURE(head_m);
    CHECK(notch_m3_s(head_m, 90.0) == Approx(right_angle_notch_m3_s(head_m)).epsilon(0.05));
    CHECK(notch_m3_s(head_m, 60.0) == Approx(sixty_degree_notch_m3_s(head_m)).epsilon(0.05));
    CHECK(notch_m3_s(head_m, 45.0) == Approx(forty_five_degree_notch_m3_s(head_m)).epsilon(0.05));
  }
}

TEST_CASE("no head, no water over a notch, and no notch of any angle") {
  CHECK(right_angle_notch_m3_s(0.0) == 0.0);
  CHECK(notch_m3_s(-0.1, 60.0) == 0.0);
  CHECK_THROWS_AS(notch_m3_s(0.1, 170.0), std::invalid_argument);
}

}  // namespace
}  // namespace leat::hydrology
