#include "model/quantity/spoken_amount.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/quantity/decimal_tie.h"
#include "model/quantity/quantity.h"
#include "model/quantity/written_number.h"

namespace leat::solver {

namespace {

/// Two or three figures, no exponent, no "-0".
std::string figure(double value) {
  const double size = std::abs(value);
  const int digits = size >= 100.0 ? 0 : size >= 10.0 ? 1 : size >= 0.095 ? 2 : 3;
  return model::without_end_zeros(fmt::format("{:.{}f}", model::past_a_tie(value), digits));
}

struct FlowUnit {
  double per_m3_s = 1.0;
  const char* name = "";
};

/// How long the unit is that lengths and levels are said in [m].
double length_unit_m(model::UnitSystem units) {
  return units == model::UnitSystem::Us ? metres_per_foot : 1.0;
}

/// "0 m", "8.89 m", "395 ft": never in the smaller unit.
std::string length_in_the_larger_unit(double length_m, model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return fmt::format("{} ft", figure(std::round(length_m / metres_per_foot * 10.0) / 10.0));
  }
  return fmt::format("{} m", figure(std::round(length_m * 100.0) / 100.0));
}

/// Whether a length is said in inches or centimetres.
bool is_short(double length_m, model::UnitSystem units) {
  return std::abs(length_m) < (units == model::UnitSystem::Us ? metres_per_foot : 0.1);
}

/// Gallons or litres a minute: what a bucket and a watch give.
FlowUnit flow_unit(model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return {1.0 / (cubic_metres_per_us_gallon / 60.0), "gal/min"};
  }
  return {6e4, "L/min"};
}

}  // namespace

std::string spoken_length(double length_m, model::UnitSystem units) {
  if (!is_short(length_m, units)) {
    return length_in_the_larger_unit(length_m, units);
  }
  if (units == model::UnitSystem::Us) {
    return fmt::format("{} in", figure(std::round(length_m / metres_per_foot * 120.0) / 10.0));
  }
  return fmt::format("{} cm", figure(std::round(length_m * 1000.0) / 10.0));
}

std::string spoken_reach(double from_m, double to_m, model::UnitSystem units) {
  const bool both_short = is_short(from_m, units) && is_short(to_m, units);
  return both_short
             ? fmt::format(
                   "between {} and {}", spoken_length(from_m, units), spoken_length(to_m, units))
             : fmt::format("between {} and {}",
                           length_in_the_larger_unit(from_m, units),
                           length_in_the_larger_unit(to_m, units));
}

std::string spoken_level(double elevation_m, model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return fmt::format("{:.1f} ft", model::past_a_tie(elevation_m / metres_per_foot));
  }
  return fmt::format("{:.2f} m", model::past_a_tie(elevation_m));
}

std::string spoken_lowering(double elevation_m, double lower_m, model::UnitSystem units) {
  const double unit_m = length_unit_m(units);
  // The level as it is written, to the tenth of a foot or the centimetre: the reader subtracts.
  const double steps = units == model::UnitSystem::Us ? 10.0 : 100.0;
  const double written = std::round(model::past_a_tie(elevation_m / unit_m) * steps) / steps;
  const double wanted = (elevation_m - lower_m) / unit_m;
  const double lower = std::ceil((written - wanted) * 10.0 - 1e-6) / 10.0;
  return fmt::format("{:.1f} {} lower, at {}",
                     lower,
                     units == model::UnitSystem::Us ? "ft" : "m",
                     spoken_level((written - lower) * unit_m, units));
}

std::string spoken_level_at_most(double elevation_m, model::UnitSystem units) {
  const double step_m = units == model::UnitSystem::Us ? 0.1 * metres_per_foot : 0.01;
  return spoken_level(std::floor(elevation_m / step_m + 1e-6) * step_m, units);
}

std::string spoken_flow_figure(double flow_m3_s, model::UnitSystem units) {
  return figure(flow_m3_s * flow_unit(units).per_m3_s);
}

std::string spoken_flow(double flow_m3_s, model::UnitSystem units) {
  return fmt::format("{} {}", spoken_flow_figure(flow_m3_s, units), flow_unit(units).name);
}

std::string spoken_volume(double volume_m3, model::UnitSystem units) {
  // A season's hundred thousands to four figures: nobody measures them better.
  const auto volume_figure = [](double amount) {
    const double size = std::abs(amount);
    if (size < 10000.0) {
      return figure(amount);
    }
    const double unit = std::pow(10.0, std::floor(std::log10(size)) - 3.0);
    return figure(std::round(amount / unit) * unit);
  };
  if (units == model::UnitSystem::Us) {
    return fmt::format("{} gal", volume_figure(volume_m3 / cubic_metres_per_us_gallon));
  }
  if (std::abs(volume_m3) < 1.0) {
    return fmt::format("{} L", volume_figure(volume_m3 * 1e3));
  }
  return fmt::format("{} m3", volume_figure(volume_m3));
}

std::string spoken_pressure(double pressure_Pa, model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return fmt::format("{} psi", figure(std::round(pressure_Pa / pascals_per_psi * 10.0) / 10.0));
  }
  return fmt::format("{} kPa", figure(std::round(pressure_Pa / 100.0) / 10.0));
}

std::string spoken_time(double time_s) {
  if (time_s < 90.0) {
    return fmt::format("{:.0f} s", std::max(1.0, std::round(time_s)));
  }
  const double minutes = std::round(time_s / 60.0);
  if (minutes < 90.0) {
    return fmt::format("{:.0f} min", minutes);
  }
  const double hours = std::floor(minutes / 60.0);
  return fmt::format("{:.0f} h {:.0f} min", hours, minutes - 60.0 * hours);
}

std::string spoken_velocity(double velocity_m_s, model::UnitSystem units) {
  if (units == model::UnitSystem::Us) {
    return fmt::format("{} ft/s", figure(velocity_m_s / metres_per_foot));
  }
  return fmt::format("{} m/s", figure(velocity_m_s));
}

}  // namespace leat::solver
