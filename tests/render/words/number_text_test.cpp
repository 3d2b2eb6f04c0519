#include "render/words/number_text.h"

#include <cmath>
#include <limits>

#include <catch2/catch.hpp>

namespace leat::render {

TEST_CASE("a flow of any size is shown without an exponent and never as minus zero") {
  CHECK(significant_text(1234.0) == "1234");
  CHECK(significant_text(340.2) == "340");
  CHECK(significant_text(99.96) == "100");
  CHECK(significant_text(34.12) == "34.1");
  CHECK(significant_text(9.996) == "10.0");
  CHECK(significant_text(2.4) == "2.40");
  CHECK(significant_text(0.81) == "0.81");
  CHECK(significant_text(0.034) == "0.034");
  CHECK(significant_text(0.0034) == "0.0034");
  CHECK(significant_text(-0.0) == "0");
  CHECK(significant_text(-1e-12) == "0");
  CHECK(decimal_text(-0.04, 1) == "0.0");
  CHECK(decimal_text(-0.06, 1) == "-0.1");
}

TEST_CASE("half a last digit rounds away from zero whatever the last bits of a balance say") {
  // 900 gal a day are 0.625 gal/min: what the spring gives is what the trough gets.
  CHECK(significant_text(0.625) == "0.63");
  CHECK(significant_text(-0.625) == "-0.63");
  CHECK(significant_text(0.62499999999) == "0.63");
  CHECK(significant_text(0.62500000001) == "0.63");
  CHECK(significant_text(0.6249) == "0.62");
  CHECK(significant_text(2.375) == "2.38");
  CHECK(decimal_text(0.25, 1) == "0.3");
  CHECK(decimal_text(std::numeric_limits<double>::max(), 1) == "-");
}

TEST_CASE("a number that is none is shown as a dash on screen and as an empty cell to a script") {
  CHECK(decimal_text(std::nan(""), 2) == "-");
  CHECK(significant_text(std::numeric_limits<double>::infinity()) == "-");
  CHECK(cell_text(std::nan(""), 2).empty());
  CHECK(cell_text(std::nullopt, 2).empty());
}

TEST_CASE("figures are shown in the units the farm asks for") {
  using model::UnitSystem;
  CHECK(flow_number_text(us_gallons_per_minute(2.4), UnitSystem::Us) == "2.40");
  CHECK(flow_number_text(litres_per_second(0.5), UnitSystem::Metric) == "30.0");
  CHECK(level_number_text(elevation_feet(-6.0), UnitSystem::Us) == "-6.0");
  CHECK(level_number_text(elevation_metres(32.914), UnitSystem::Metric) == "32.91");
  CHECK(bore_number_text(inches(1.049), UnitSystem::Us) == "1.049");
  CHECK(bore_number_text(inches(1.049), UnitSystem::Metric) == "26.6");
  CHECK(pressure_number_text(psi(14.2), UnitSystem::Us) == "14.2");
  CHECK(volume_number_text(us_gallons(350.0), UnitSystem::Us) == "350");
  CHECK(velocity_number_text(metres_per_second(0.3048), UnitSystem::Us) == "1.00");
  CHECK(temperature_number_text(fahrenheit(55.0), UnitSystem::Us) == "55.0");
}

}  // namespace leat::render
