// The keys of the weather: by month or day by day, of which a moment of steady flow needs only the
// air's warmth.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "model/keys/key.h"
#include "model/keys/weather_csv.h"

namespace leat::model {

/// The weather while it is read: the CSV files its keys name, and their days.
struct WeatherDraft {
  Weather weather;
  std::map<std::string, std::optional<WeatherTable>> tables;
  std::map<Date, WeatherDay> days;
  const YamlNode* rain_days = nullptr;
};

[[nodiscard]] const Keys<WeatherDraft>& weather_keys();

/// Reads `weather` into `farm.weather`; the mean of tmin and tmax by month becomes `farm.air`, for
/// what stock drink.
void read_weather(const YamlNode& node, SourcePosition key, Farm& farm, LoadContext& context);

}  // namespace leat::model
