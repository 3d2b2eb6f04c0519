#include "render/words/number_text.h"

#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "model/quantity/decimal_tie.h"

namespace leat::render {

namespace {

bool is_us(model::UnitSystem units) {
  return units == model::UnitSystem::Us;
}

}  // namespace

std::string decimal_text(double value, int decimals) {
  const double shown = model::past_a_tie(value);
  if (!std::isfinite(shown)) {
    return "-";
  }
  std::string text = fmt::format("{:.{}f}", shown, decimals);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string significant_text(double value) {
  const double size = std::abs(value);
  // The limits stand half a last digit early, so that 9.996 reads 10.0 and not 10.00.
  constexpr std::array<std::pair<double, int>, 4> decimals_from = {
      {{99.95, 0}, {9.995, 1}, {0.0995, 2}, {0.00995, 3}}};
  for (const auto& [least, decimals] : decimals_from) {
    if (size >= least) {
      return decimal_text(value, decimals);
    }
  }
  return decimal_text(value, size < 0.00005 ? 0 : 4);
}

std::string cell_text(std::optional<double> value, int decimals) {
  return value && std::isfinite(*value) ? decimal_text(*value, decimals) : std::string();
}

std::string_view flow_unit(model::UnitSystem units) {
  return is_us(units) ? "gal/min" : "L/min";
}

std::string_view length_unit(model::UnitSystem units) {
  return is_us(units) ? "ft" : "m";
}

std::string_view bore_unit(model::UnitSystem units) {
  return is_us(units) ? "in" : "mm";
}

std::string_view pressure_unit(model::UnitSystem units) {
  return is_us(units) ? "psi" : "kPa";
}

std::string_view volume_unit(model::UnitSystem units) {
  return is_us(units) ? "gal" : "L";
}

std::string_view velocity_unit(model::UnitSystem units) {
  return is_us(units) ? "ft/s" : "m/s";
}

std::string_view temperature_unit(model::UnitSystem units) {
  return is_us(units) ? "F" : "C";
}

std::string flow_number_text(Flow flow, model::UnitSystem units) {
  return significant_text(is_us(units) ? in_us_gallons_per_minute(flow)
                                       : 60.0 * in_litres_per_second(flow));
}

std::string level_number_text(Elevation level, model::UnitSystem units) {
  return is_us(units) ? decimal_text(in_feet(level), 1) : decimal_text(in_metres(level), 2);
}

std::string length_number_text(Length length, model::UnitSystem units) {
  return decimal_text(is_us(units) ? in_feet(length) : in_metres(length), 1);
}

std::string bore_number_text(Length bore, model::UnitSystem units) {
  return is_us(units) ? decimal_text(in_inches(bore), 3) : decimal_text(in_millimetres(bore), 1);
}

std::string pressure_number_text(Pressure pressure, model::UnitSystem units) {
  return is_us(units) ? decimal_text(in_psi(pressure), 1)
                      : decimal_text(in_kilopascals(pressure), 1);
}

std::string volume_number_text(Volume volume, model::UnitSystem units) {
  return significant_text(is_us(units) ? in_us_gallons(volume) : in_litres(volume));
}

std::string velocity_number_text(Velocity velocity, model::UnitSystem units) {
  const double metres_per_second = in_metres_per_second(velocity);
  return decimal_text(is_us(units) ? metres_per_second / metres_per_foot : metres_per_second, 2);
}

std::string temperature_number_text(Temperature temperature, model::UnitSystem units) {
  return decimal_text(is_us(units) ? in_fahrenheit(temperature) : in_celsius(temperature), 1);
}

}  // namespace leat::render
