#include "model/quantity/quantity.h"

#include <concepts>
#include <type_traits>

#include <catch2/catch.hpp>

using namespace leat;  // NOLINT(google-build-using-namespace): a test speaks the units it tests

namespace {

template <class A, class B>
concept CanAdd = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept CanSubtract = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept CanMultiply = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept CanDivide = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept CanCompare = requires(A a, B b) {
  a < b;
};

// A number becomes an amount by a named function only, and an amount a number likewise.
static_assert(!std::convertible_to<double, Length>);
static_assert(!std::constructible_from<Length, double>);
static_assert(!std::convertible_to<Length, double>);
static_assert(!std::constructible_from<double, Length>);
static_assert(!std::constructible_from<Elevation, double>);
static_assert(!std::constructible_from<Temperature, double>);
static_assert(!CanAdd<Length, double>);
static_assert(!CanAdd<double, Flow>);
static_assert(!CanCompare<Length, double>);

// A level is a point: two have a difference, never a sum.
static_assert(!CanAdd<Elevation, Elevation>);
static_assert(!CanMultiply<Elevation, double>);
static_assert(!CanDivide<Elevation, Elevation>);
static_assert(!CanCompare<Elevation, Length>);
static_assert(!std::constructible_from<Elevation, Length>);
static_assert(!CanSubtract<Length, Elevation>);
static_assert(std::same_as<decltype(Elevation() - Elevation()), Length>);
static_assert(std::same_as<decltype(Elevation() + Length()), Elevation>);
static_assert(std::same_as<decltype(Elevation() - Length()), Elevation>);

// A temperature is a point too, and this program never needs a difference of two.
static_assert(!CanAdd<Temperature, Temperature>);
static_assert(!CanMultiply<Temperature, double>);

// Kinds do not mix.
static_assert(!CanAdd<Length, Area>);
static_assert(!CanAdd<Flow, Volume>);
static_assert(!CanSubtract<Pressure, Length>);
static_assert(!CanMultiply<Length, Length>);
static_assert(!CanDivide<Volume, Duration>);
static_assert(!CanDivide<double, Length>);
static_assert(!std::constructible_from<Length, Area>);

// What does exist.
static_assert(std::same_as<decltype(Length() + Length()), Length>);
static_assert(std::same_as<decltype(Length() * 2.0), Length>);
static_assert(std::same_as<decltype(2.0 * Length()), Length>);
static_assert(std::same_as<decltype(Length() / 2.0), Length>);
static_assert(std::same_as<decltype(Length() / Length()), double>);
static_assert(std::is_trivially_copyable_v<Length> && sizeof(Length) == sizeof(double));

}  // namespace

TEST_CASE("the fall between two levels is a length and carries the lower one back up", "[law]") {
  const Elevation spring = elevation_feet(131.5);
  const Elevation trough = elevation_metres(30.0);
  const Length fall = spring - trough;
  CHECK(in_metres(fall) == Approx(131.5 * 0.3048 - 30.0).epsilon(1e-14));
  CHECK(in_metres(trough + fall) == Approx(in_metres(spring)).epsilon(1e-14));
  CHECK(trough < spring);
}

TEST_CASE("what a unit makes the same unit reads back", "[law]") {
  const double value = GENERATE(0.0, 1.0, -3.25, 7.3e-4, 81234.5);
  CAPTURE(value);
  const auto same = Approx(value).epsilon(1e-14).margin(1e-14);
  CHECK(in_metres(metres(value)) == same);
  CHECK(in_millimetres(millimetres(value)) == same);
  CHECK(in_feet(feet(value)) == same);
  CHECK(in_feet(elevation_feet(value)) == same);
  CHECK(in_inches(inches(value)) == same);
  CHECK(in_litres(litres(value)) == same);
  CHECK(in_us_gallons(us_gallons(value)) == same);
  CHECK(in_litres_per_second(litres_per_second(value)) == same);
  CHECK(in_us_gallons_per_minute(us_gallons_per_minute(value)) == same);
  CHECK(in_kilopascals(kilopascals(value)) == same);
  CHECK(in_psi(psi(value)) == same);
  CHECK(in_hours(hours(value)) == same);
  CHECK(in_celsius(celsius(value)) == same);
  CHECK(in_fahrenheit(fahrenheit(value)) == Approx(value).epsilon(1e-14).margin(1e-13));
}

TEST_CASE("water freezes at 32 F and boils at 212 F", "[reference]") {
  // Definition of the Fahrenheit scale, exact.
  CHECK(in_celsius(fahrenheit(32.0)) == 0.0);
  CHECK(in_celsius(fahrenheit(212.0)) == Approx(100.0).epsilon(1e-15));
}

TEST_CASE("a bore of twice the width has four times the area", "[law]") {
  CHECK(bore_area(millimetres(50.0)) / bore_area(millimetres(25.0)) == Approx(4.0).epsilon(1e-14));
  CHECK(in_square_metres(bore_area(metres(2.0))) == Approx(3.14159265358979).epsilon(1e-14));
}
