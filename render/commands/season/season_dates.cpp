#include "render/commands/season/season_dates.h"

#include <algorithm>
#include <variant>
#include <vector>

namespace leat::render {

namespace {

using Latest = std::optional<model::Date>;

void take(Latest& latest, model::Date date) {
  latest = latest ? std::max(*latest, date) : date;
}

/// The last date of a record; its dates rise.
template <class Record>
void take_last(Latest& latest, const std::vector<Record>& record) {
  if (!record.empty()) {
    take(latest, record.back().on);
  }
}

Latest latest_break(const model::Farm& farm) {
  Latest latest;
  for (const model::FloatBreak& each : farm.breaks) {
    take(latest, each.on);
  }
  return latest;
}

Latest latest_weather(const model::Farm& farm) {
  Latest latest;
  if (farm.weather) {
    take_last(latest, farm.weather->days);
  }
  return latest;
}

Latest latest_record(const model::Farm& farm) {
  Latest latest;
  take_last(latest, farm.site.water_record);
  for (const model::Place& place : farm.places) {
    model::for_each_record(place, [&latest](const auto& record) { take_last(latest, record); });
  }
  return latest;
}

Latest latest_measurement(const model::Farm& farm) {
  Latest latest;
  for (const model::Measurement& measurement : farm.measured) {
    if (measurement.on) {
      take(latest, *measurement.on);
    }
  }
  return latest;
}

SeasonDates year_of(model::Date date, const char* chosen) {
  return {{date.year, 1, 1}, {date.year, 12, 31}, chosen};
}

}  // namespace

SeasonDates season_dates(const model::Farm& farm,
                         std::optional<model::Date> from,
                         std::optional<model::Date> to,
                         model::Date today) {
  if (from || to) {
    return {from.value_or(model::Date{to.value_or(today).year, 1, 1}),
            to.value_or(model::Date{from.value_or(today).year, 12, 31}),
            ""};
  }
  if (const Latest on = latest_break(farm)) {
    return year_of(*on, "the year in which a float breaks");
  }
  if (const Latest on = latest_weather(farm)) {
    return year_of(*on, "the last year of the weather on file");
  }
  if (const Latest on = latest_record(farm)) {
    return year_of(*on, "the last year of the records on file");
  }
  if (const Latest on = latest_measurement(farm)) {
    return year_of(*on, "the year of the last measurement");
  }
  return year_of(today, "this year");
}

}  // namespace leat::render
