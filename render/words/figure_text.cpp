#include "render/words/figure_text.h"

#include <cmath>
#include <string_view>

#include "model/quantity/quantity.h"
#include "model/quantity/written_number.h"
#include "render/words/number_text.h"
#include "render/words/running_text.h"

namespace leat::render {
namespace {

/// A figure and its unit, never parted by a line's end.
std::string with_unit(const std::string& figure, std::string_view unit) {
  return figure + std::string(joined_space) + std::string(unit);
}

}  // namespace

std::string short_number(double value) {
  return model::without_end_zeros(significant_text(value));
}

std::string length_figure(double metres, model::UnitSystem units) {
  const double shown = units == model::UnitSystem::Us ? in_feet(leat::metres(metres)) : metres;
  return with_unit(short_number(shown), length_unit(units));
}

std::string level_figure(double metres, model::UnitSystem units) {
  const std::string level = level_number_text(elevation_metres(metres), units);
  return with_unit(model::without_end_zeros(level), length_unit(units));
}

std::string flow_number(double cubic_metres_per_second, model::UnitSystem units) {
  const Flow flow = leat::cubic_metres_per_second(cubic_metres_per_second);
  return short_number(units == model::UnitSystem::Us ? in_us_gallons_per_minute(flow)
                                                     : 60.0 * in_litres_per_second(flow));
}

std::string flow_figure(double cubic_metres_per_second, model::UnitSystem units) {
  return with_unit(flow_number(cubic_metres_per_second, units), flow_unit(units));
}

std::string pressure_size_figure(double pascals, model::UnitSystem units) {
  const Pressure size = leat::pascals(std::abs(pascals));
  const double shown = units == model::UnitSystem::Us ? in_psi(size) : in_kilopascals(size);
  return with_unit(short_number(shown), pressure_unit(units));
}

std::string pressure_figure(double pascals, model::UnitSystem units) {
  constexpr double zero_band_Pa = 100.0;
  if (std::abs(pascals) <= zero_band_Pa) {
    return "no pressure";
  }
  return (pascals < 0.0 ? "suction " : "") + pressure_size_figure(pascals, units);
}

}  // namespace leat::render
