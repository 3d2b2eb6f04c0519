#include "render/words/pumps_and_rams_text.h"

#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/conversion.h"
#include "model/quantity/spoken_amount.h"
#include "render/words/number_text.h"

namespace leat::render {

namespace {

using solver::spoken_flow;
using solver::spoken_length;
using solver::spoken_level;
using solver::spoken_volume;

constexpr double fading_ratio = 24.0;

std::string clock_text(Duration time) {
  const auto minutes = std::lround(in_seconds(time) / 60.0);
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

/// "4 h a day", "from 6:00 to 9:00 and from 17:00 to 18:00", "all day".
std::string hours_words(const model::Pump& pump) {
  if (pump.hours_a_day) {
    return fmt::format("{} a day", solver::spoken_time(in_seconds(*pump.hours_a_day)));
  }
  std::string text;
  for (const model::ClockRange& range : pump.runs) {
    text += fmt::format("{}from {} to {}",
                        text.empty() ? "" : " and ",
                        clock_text(range.from),
                        clock_text(range.to));
  }
  return text.empty() ? "all day" : text;
}

std::string pump_words(const model::Pump& pump,
                       const solver::LifterAnswer& found,
                       model::UnitSystem units) {
  if (found.flow_m3_s == 0.0) {
    return found.shut_off_short
               ? fmt::format(
                     "Pump {} lifts nothing: with no flow it gives a head of {}, and more stands "
                     "against it.",
                     pump.name,
                     spoken_length(in_metres(pump.curve.front().second), units))
               : fmt::format("Pump {} lifts nothing: no water reaches it.", pump.name);
  }
  std::string text =
      fmt::format("Pump {} lifts {}", pump.name, spoken_flow(found.flow_m3_s, units));
  if (found.head_m) {
    text += fmt::format(" at a head of {}", spoken_length(*found.head_m, units));
  }
  text += fmt::format(" while it runs ({}, which makes {} a day)",
                      hours_words(pump),
                      spoken_volume(found.flow_m3_s * found.running_s, units));
  if (found.power_W) {
    text += fmt::format("; it draws {} W, {} kWh a day",
                        decimal_text(*found.power_W, 0),
                        decimal_text(*found.power_W * found.running_s / 3.6e6, 2));
  }
  text += ".";
  if (found.running_s < seconds_per_day) {
    text += " All the figures here are for those hours; with it still the farm stands otherwise.";
  }
  if (found.beyond_curve || found.before_curve) {
    text += fmt::format(" That is {} flow of its curve: its maker does not say what it does there.",
                        found.beyond_curve ? "beyond the last" : "below the first");
  }
  return text;
}

std::string ram_words(const model::Ram& ram,
                      const solver::LifterAnswer& found,
                      model::UnitSystem units) {
  if (found.wasted_m3_s + found.flow_m3_s == 0.0) {
    return fmt::format("Ram {} stands still: no water drives it.", ram.name);
  }
  const double drive_m3_s = found.flow_m3_s + found.wasted_m3_s;
  std::string text = fmt::format("Ram {} takes {}{}{}",
                                 ram.name,
                                 found.set_by_hand ? "the " : "",
                                 spoken_flow(drive_m3_s, units),
                                 found.set_by_hand ? " it is set to" : "");
  if (found.fall_m) {
    text += fmt::format(" with a fall of {}", spoken_length(*found.fall_m, units));
  }
  if (found.flow_m3_s == 0.0) {
    text += " and lifts nothing";
    if (found.head_m && found.fall_m) {
      text += fmt::format(": {} stands against it, and no ram lifts 26 times its fall",
                          spoken_length(*found.head_m, units));
    }
  } else {
    text += fmt::format(" and lifts {}", spoken_flow(found.flow_m3_s, units));
    if (found.head_m && found.fall_m && *found.head_m > 0.0 && *found.fall_m > 0.0) {
      const double ratio = *found.head_m / *found.fall_m;
      text += fmt::format(" to {} above itself ({} times the fall)",
                          spoken_length(*found.head_m, units),
                          decimal_text(ratio, 1));
      if (ratio > fading_ratio) {
        text += ", more than a ram should be asked";
      }
    }
  }
  text += fmt::format("; {} ({} a day) runs to waste below it.",
                      spoken_flow(found.wasted_m3_s, units),
                      spoken_volume(found.wasted_m3_s * seconds_per_day, units));
  if (!found.set_by_hand) {
    text +=
        " It is taken to swallow all that its drive pipe brings; a real one takes less: give its "
        "own figure as 'takes'.";
  }
  return text;
}

std::string curve_words(const model::Pump& pump, model::UnitSystem units) {
  if (pump.curve.empty()) {
    return "";
  }
  const auto& [first_flow, first_head] = pump.curve.front();
  const auto& [last_flow, last_head] = pump.curve.back();
  return fmt::format(", {} of head at {} down to {} at {}",
                     spoken_length(in_metres(first_head), units),
                     spoken_flow(in_cubic_metres_per_second(first_flow), units),
                     spoken_length(in_metres(last_head), units),
                     spoken_flow(in_cubic_metres_per_second(last_flow), units));
}

}  // namespace

std::string lifters_text(const model::Farm& farm,
                         const solver::SteadyAnswer& answer,
                         model::UnitSystem units,
                         int width) {
  if (answer.load_case == solver::LoadCase::Static ||
      answer.lifters.size() != farm.pumps.size() + farm.rams.size() || answer.lifters.empty()) {
    return "";
  }
  std::string text = "\n";
  for (std::size_t i = 0; i < farm.pumps.size(); ++i) {
    text += wrapped(pump_words(farm.pumps[i], answer.lifters[i], units), width, 2);
  }
  for (std::size_t i = 0; i < farm.rams.size(); ++i) {
    const solver::LifterAnswer& found = answer.lifters[farm.pumps.size() + i];
    text += wrapped(ram_words(farm.rams[i], found, units), width, 2);
  }
  return text;
}

std::string lifters_read_text(const model::Farm& farm, model::UnitSystem units, int width) {
  std::string text;
  for (const model::Pump& pump : farm.pumps) {
    text += wrapped(fmt::format("pump {}: from {} to {}{}; runs {}",
                                pump.name,
                                farm.places[pump.from].name,
                                farm.places[pump.to].name,
                                curve_words(pump, units),
                                hours_words(pump)),
                    width,
                    2);
  }
  for (const model::Ram& ram : farm.rams) {
    const double level_m = in_metres(
        ram.level.value_or(model::to_end_level(farm, farm.pipes[ram.drive], std::nullopt)));
    text += wrapped(
        fmt::format("ram {}: driven by {}, delivers into {}, at {}{}; efficiency {}",
                    ram.name,
                    farm.pipes[ram.drive].name,
                    farm.pipes[ram.delivery].name,
                    spoken_level(level_m, units),
                    ram.takes
                        ? fmt::format("; takes {}",
                                      spoken_flow(in_cubic_metres_per_second(*ram.takes), units))
                        : std::string(),
                    ram.efficiency ? decimal_text(*ram.efficiency, 2)
                                   : std::string("by the trade's table of lift and fall")),
        width,
        2);
  }
  return text.empty() ? "" : '\n' + text;
}

}  // namespace leat::render
