// What one day brings to the farm: yields, levels, temperatures, needs, rain and sun. Monthly
// values are joined mid-month to mid-month around the year; measured records stand on their dates.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm.h"

namespace leat::solver {

/// What sky and ground do to one pond on one day.
struct PondDay {
  double rain_m = 0.0;         // depth on the pond itself
  double evaporation_m = 0.0;  // depth of open water
  double seepage_m = 0.0;      // depth a day over the wetted surface
  double runoff_m3 = 0.0;      // from its catchment
  double stock_m3 = 0.0;       // what stock want to drink from it
};

/// One place on one day. Only what its kind has is set.
struct PlaceDay {
  std::optional<double> yield_m3_s;   // spring
  std::optional<double> surface_m;    // creek, and pond without a known shape
  std::optional<double> flow_m3_s;    // what a creek carries
  std::optional<double> spare_m3_s;   // what may be taken from it
  std::optional<double> need_m3;      // trough: the day's amount; none where no need is given
  std::optional<double> wished_m3_s;  // outlet
  std::optional<PondDay> pond;        // pond whose shape is known
};

struct DayValues {
  double water_C = 15.0;
  std::optional<double> lowest_air_C;
  std::optional<double> mean_air_C;
  std::vector<PlaceDay> places;  // by place of the farm
};

/// The values of a farm on a day.
[[nodiscard]] DayValues day_values(const model::Farm& farm, model::Date date);

/// What was taken for granted between two dates: months filled from their neighbours, evaporation
/// by which method, weather that no day or month tells of. One sentence each.
[[nodiscard]] std::vector<std::string> day_value_notes(const model::Farm& farm,
                                                       model::Date from,
                                                       model::Date to);

/// Share (0 to 1) of a trough's daily need that falls between two moments of a day [s since
/// midnight, from <= to <= 86 400]: its clock ranges; else its `within`, spread around the day's
/// middle; else the whole day. The shares of a day add up to 1.
[[nodiscard]] double drinking_share(const model::Trough& trough, double from_s, double to_s);

/// Hours of the day in which a trough's stock drink: above 0, at most 24.
[[nodiscard]] double drinking_hours(const model::Trough& trough);

}  // namespace leat::solver
