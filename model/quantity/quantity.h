// Room: a number never changes its unit unseen, and is read and written in one place.
//
// Strong types for what a farm is measured in. A quantity is stored in SI, made only by a named
// function (`metres(3.2)`) and read only by a named function (`in_metres(length)`), so that a
// number never changes its unit unseen.
#pragma once

#include <compare>
#include <numbers>

namespace leat {

/// One measured amount of the given dimension, stored in SI.
/// Only the operators that keep their meaning exist: sums, differences, scaling by a number, and
/// the ratio of two amounts of the same dimension.
template <class Dimension>
class Quantity {
 public:
  constexpr Quantity() = default;

  /// The amount whose value in the SI unit of its dimension is `value`.
  [[nodiscard]] static constexpr Quantity from_si(double value) {
    Quantity quantity;
    quantity.value_ = value;
    return quantity;
  }

  /// The value in the SI unit of the dimension.
  [[nodiscard]] constexpr double in_si() const { return value_; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return from_si(a.value_ + b.value_);
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return from_si(a.value_ - b.value_);
  }
  friend constexpr Quantity operator-(Quantity a) { return from_si(-a.value_); }
  friend constexpr Quantity operator*(Quantity a, double factor) {
    return from_si(a.value_ * factor);
  }
  friend constexpr Quantity operator*(double factor, Quantity a) {
    return from_si(factor * a.value_);
  }
  friend constexpr Quantity operator/(Quantity a, double divisor) {
    return from_si(a.value_ / divisor);
  }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  friend constexpr bool operator==(const Quantity&, const Quantity&) = default;

 private:
  double value_ = 0.0;
};

using Length = Quantity<struct LengthDimension>;        // m
using Area = Quantity<struct AreaDimension>;            // m2
using Volume = Quantity<struct VolumeDimension>;        // m3
using Flow = Quantity<struct FlowDimension>;            // m3/s
using Velocity = Quantity<struct VelocityDimension>;    // m/s
using Pressure = Quantity<struct PressureDimension>;    // Pa
using Duration = Quantity<struct DurationDimension>;    // s
using Heads = Quantity<struct HeadsDimension>;          // head of stock, a count
using DepthRate = Quantity<struct DepthRateDimension>;  // m/s, rain and evaporation

/// A point on the farm's datum. Two elevations have a difference (a Length), never a sum.
class Elevation {
 public:
  constexpr Elevation() = default;
  [[nodiscard]] static constexpr Elevation from_si(double value) {
    Elevation elevation;
    elevation.value_m_ = value;
    return elevation;
  }
  [[nodiscard]] constexpr double in_si() const { return value_m_; }

  friend constexpr Length operator-(Elevation a, Elevation b) {
    return Length::from_si(a.value_m_ - b.value_m_);
  }
  friend constexpr Elevation operator+(Elevation a, Length rise) {
    return from_si(a.value_m_ + rise.in_si());
  }
  friend constexpr Elevation operator-(Elevation a, Length fall) {
    return from_si(a.value_m_ - fall.in_si());
  }
  friend constexpr auto operator<=>(const Elevation&, const Elevation&) = default;
  friend constexpr bool operator==(const Elevation&, const Elevation&) = default;

 private:
  double value_m_ = 0.0;
};

/// A point on the Celsius scale.
class Temperature {
 public:
  constexpr Temperature() = default;
  /// SI here means degrees Celsius: the only scale this program computes with.
  [[nodiscard]] static constexpr Temperature from_si(double celsius) {
    Temperature temperature;
    temperature.celsius_ = celsius;
    return temperature;
  }
  [[nodiscard]] constexpr double in_si() const { return celsius_; }
  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
  friend constexpr bool operator==(const Temperature&, const Temperature&) = default;

 private:
  double celsius_ = 0.0;
};

// Exact by definition (international yard 1959, US gallon of 231 cubic inches).
inline constexpr double metres_per_foot = 0.3048;
inline constexpr double metres_per_inch = 0.0254;
inline constexpr double cubic_metres_per_us_gallon = 3.785411784e-3;
inline constexpr double cubic_metres_per_imperial_gallon = 4.54609e-3;
inline constexpr double pascals_per_psi = 6894.757293168361;
/// Standard acceleration of gravity [m/s2] (CGPM 1901).
inline constexpr double gravity_m_s2 = 9.80665;

constexpr Length metres(double value) {
  return Length::from_si(value);
}
constexpr Length millimetres(double value) {
  return Length::from_si(value * 1e-3);
}
constexpr Length feet(double value) {
  return Length::from_si(value * metres_per_foot);
}
constexpr Length inches(double value) {
  return Length::from_si(value * metres_per_inch);
}
constexpr Elevation elevation_metres(double value) {
  return Elevation::from_si(value);
}
constexpr Elevation elevation_feet(double value) {
  return Elevation::from_si(value * metres_per_foot);
}
constexpr Area square_metres(double value) {
  return Area::from_si(value);
}
constexpr Volume cubic_metres(double value) {
  return Volume::from_si(value);
}
constexpr Volume litres(double value) {
  return Volume::from_si(value * 1e-3);
}
constexpr Volume us_gallons(double value) {
  return Volume::from_si(value * cubic_metres_per_us_gallon);
}
constexpr Flow cubic_metres_per_second(double value) {
  return Flow::from_si(value);
}
constexpr Flow litres_per_second(double value) {
  return Flow::from_si(value * 1e-3);
}
constexpr Flow us_gallons_per_minute(double value) {
  return Flow::from_si(value * cubic_metres_per_us_gallon / 60.0);
}
constexpr Velocity metres_per_second(double value) {
  return Velocity::from_si(value);
}
constexpr Pressure pascals(double value) {
  return Pressure::from_si(value);
}
constexpr Pressure kilopascals(double value) {
  return Pressure::from_si(value * 1e3);
}
constexpr Pressure psi(double value) {
  return Pressure::from_si(value * pascals_per_psi);
}
constexpr Duration seconds(double value) {
  return Duration::from_si(value);
}
constexpr Duration hours(double value) {
  return Duration::from_si(value * 3600.0);
}
constexpr Temperature celsius(double value) {
  return Temperature::from_si(value);
}
constexpr Temperature fahrenheit(double value) {
  return Temperature::from_si((value - 32.0) / 1.8);
}

constexpr double in_metres(Length value) {
  return value.in_si();
}
constexpr double in_metres(Elevation value) {
  return value.in_si();
}
constexpr double in_millimetres(Length value) {
  return value.in_si() * 1e3;
}
constexpr double in_feet(Length value) {
  return value.in_si() / metres_per_foot;
}
constexpr double in_feet(Elevation value) {
  return value.in_si() / metres_per_foot;
}
constexpr double in_inches(Length value) {
  return value.in_si() / metres_per_inch;
}
constexpr double in_square_metres(Area value) {
  return value.in_si();
}
constexpr double in_cubic_metres(Volume value) {
  return value.in_si();
}
constexpr double in_litres(Volume value) {
  return value.in_si() * 1e3;
}
constexpr double in_us_gallons(Volume value) {
  return value.in_si() / cubic_metres_per_us_gallon;
}
constexpr double in_cubic_metres_per_second(Flow value) {
  return value.in_si();
}
constexpr double in_litres_per_second(Flow value) {
  return value.in_si() * 1e3;
}
constexpr double in_us_gallons_per_minute(Flow value) {
  return value.in_si() / cubic_metres_per_us_gallon * 60.0;
}
constexpr double in_metres_per_second(Velocity value) {
  return value.in_si();
}
constexpr double in_pascals(Pressure value) {
  return value.in_si();
}
constexpr double in_kilopascals(Pressure value) {
  return value.in_si() * 1e-3;
}
constexpr double in_psi(Pressure value) {
  return value.in_si() / pascals_per_psi;
}
constexpr double in_seconds(Duration value) {
  return value.in_si();
}
constexpr double in_hours(Duration value) {
  return value.in_si() / 3600.0;
}
constexpr double in_celsius(Temperature value) {
  return value.in_si();
}
constexpr double in_fahrenheit(Temperature value) {
  return value.in_si() * 1.8 + 32.0;
}

/// The cross-section of a round bore.
constexpr Area bore_area(Length bore) {
  return square_metres(std::numbers::pi / 4.0 * bore.in_si() * bore.in_si());
}

}  // namespace leat
