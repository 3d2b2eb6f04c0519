#include "solver/season/freezing_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/quantity.h"
#include "model/quantity/spoken_amount.h"

namespace leat::solver {

namespace {

/// The sentence that holds the given flow against the least one; empty where none was given.
std::string verdict_text(FrostVerdict verdict,
                         std::optional<double> flow_m3_s,
                         model::UnitSystem units) {
  const std::string flow = flow_m3_s ? spoken_flow(std::abs(*flow_m3_s), units) : std::string();
  switch (verdict) {
    case FrostVerdict::Enough:
      return fmt::format(" The {} that runs there is enough.", flow);
    case FrostVerdict::Doubtful:
      return fmt::format(" The {} that runs there may or may not be enough.", flow);
    case FrostVerdict::TooLittle:
      return fmt::format(" The {} that runs there is too little.", flow);
    case FrostVerdict::Still:
    case FrostVerdict::Untold:
      break;
  }
  return "";
}

/// Two figures: more would claim what the rules cannot know.
double two_figures(double value) {
  if (!(value > 0.0)) {
    return 0.0;
  }
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  return std::round(value / step) * step;
}

/// "about 2 L/min (1 to 4)": the figure and what may be right as well.
std::string flow_with_spread(double flow_m3_s, model::UnitSystem units) {
  const double per_unit =
      units == model::UnitSystem::Us ? cubic_metres_per_us_gallon / 60.0 : 1e-3 / 60.0;
  const auto figure = [&](double factor) {
    return two_figures(flow_m3_s * factor / per_unit) * per_unit;
  };
  return fmt::format("about {} ({} to {})",
                     spoken_flow(figure(1.0), units),
                     spoken_flow_figure(figure(1.0 / hydrology::freezing_spread), units),
                     spoken_flow_figure(figure(hydrology::freezing_spread), units));
}

/// A time to the minute below 20 min, to ten minutes below 2 h, to half an hour above.
std::string rough_time(double hours) {
  constexpr double minutes_per_hour = 60.0;
  const double minutes = hours * minutes_per_hour;
  const double step = minutes < 20.0 ? 1.0 : minutes < 120.0 ? 10.0 : 30.0;
  const double rough = std::max(std::round(minutes / step) * step, 1.0);
  if (rough < minutes_per_hour) {
    return fmt::format("{:.0f} min", rough);
  }
  const double whole = std::floor(rough / minutes_per_hour);
  const double rest = rough - whole * minutes_per_hour;
  return rest > 0.0 ? fmt::format("{:.0f} h {:.0f} min", whole, rest)
                    : fmt::format("{:.0f} h", whole);
}

std::string drains_text(const FrostPipe& pipe, model::UnitSystem units) {
  if (pipe.drains.empty()) {
    return "";
  }
  std::vector<std::string> points;
  for (const DrainPoint& point : pipe.drains) {
    points.push_back(fmt::format("{} along it, {} high",
                                 spoken_length(point.at_m, units),
                                 spoken_level(point.elevation_m, units)));
  }
  return fmt::format(" To empty it, drain its low point{}: {}.",
                     points.size() == 1 ? "" : "s",
                     fmt::join(points, "; "));
}

std::string still_text(const FrostPipe& pipe) {
  if (!pipe.feeds_floats_only && pipe.verdict != FrostVerdict::Still) {
    return "";
  }
  return pipe.feeds_floats_only ? " It feeds floats alone: once they shut at night nothing runs in "
                                  "it. Drain it, or let a "
                                  "trough run over."
                                : " Nothing runs in it: drain it.";
}

}  // namespace

std::string spoken_temperature(double temperature_C, model::UnitSystem units) {
  const bool us = units == model::UnitSystem::Us;
  const double shown = std::round(us ? in_fahrenheit(celsius(temperature_C)) : temperature_C);
  return fmt::format("{:.0f} {}", shown == 0.0 ? 0.0 : shown, us ? "F" : "C");
}

std::string frost_nights_text(const FrostAnswer& answer, model::UnitSystem units) {
  std::vector<std::string> months;
  bool expected = false;
  for (const FrostMonth& month : answer.months) {
    const double nights = std::round(month.freezing);
    if (nights < 1.0) {
      continue;
    }
    expected = expected || !month.measured;
    months.push_back(fmt::format("{} {}{:.0f} of {}",
                                 model::name_of(month.month),
                                 month.measured ? "" : "about ",
                                 nights,
                                 month.nights));
  }
  const std::string zero = spoken_temperature(0.0, units);
  std::string text = months.empty()
                         ? fmt::format("Hardly a night falls below {}.", zero)
                         : fmt::format("Nights below {}: {}.", zero, fmt::join(months, ", "));
  if (expected) {
    const double spread =
        units == model::UnitSystem::Us ? night_spread_C * 1.8 : night_spread_C;  // a difference
    text += fmt::format(
        " Where a month's mean alone is known, single nights are taken to stray some {:.2g} {} "
        "about it, a rule of thumb.",
        spread,
        units == model::UnitSystem::Us ? "F" : "C");
  }
  if (answer.coldest) {
    text += fmt::format(
        " The coldest night to reckon with: {}{}, {}, with water that starts out at {}.",
        answer.coldest->measured ? "" : "about ",
        spoken_temperature(answer.coldest->air_C, units),
        answer.coldest->measured
            ? model::date_text(answer.coldest->on)
            : fmt::format("in {}", model::name_of(model::month_of(answer.coldest->on))),
        spoken_temperature(answer.coldest->water_C, units));
  }
  return text;
}

std::string frost_pipe_text(const model::Farm& farm,
                            const FrostPipe& pipe,
                            const FrostNight& night,
                            model::UnitSystem units) {
  std::string text = farm.pipes[pipe.pipe].name;
  text += pipe.lies_untold ? ", if it is not buried (the file does not say)" : " lies open";
  text +=
      fmt::format(": standing water has its first ice after about {} and is solid after about {}.",
                  rough_time(pipe.still.to_first_ice),
                  rough_time(pipe.still.to_solid));
  text += pipe.least_flow_m3_s ? fmt::format(" A flow of {} keeps it open.",
                                             flow_with_spread(*pipe.least_flow_m3_s, units))
                               : fmt::format(" No flow keeps it open: its water comes at {}.",
                                             spoken_temperature(night.water_C, units));
  text += verdict_text(pipe.verdict, pipe.flow_m3_s, units);
  return text + still_text(pipe) + drains_text(pipe, units);
}

std::string frost_troughs_text(const model::Farm& farm,
                               const std::vector<FrostTrough>& troughs,
                               const FrostNight& night,
                               model::UnitSystem units) {
  std::vector<std::string> names;
  for (const FrostTrough& trough : troughs) {
    names.push_back(farm.places[trough.place].name);
  }
  const std::string all = fmt::format("{}", fmt::join(names, ", "));
  if (!troughs.front().least_inflow_m3_s) {
    return fmt::format("At {}: no inflow keeps a hole open, as the water comes at {}.",
                       all,
                       spoken_temperature(night.water_C, units));
  }
  return fmt::format(
      "At {}: an inflow of {} that still has {} when it gets there keeps a hole {} square open. A "
      "float lets nothing in once its trough is full: that takes an overflow, led well away from "
      "where stock stand.",
      all,
      flow_with_spread(*troughs.front().least_inflow_m3_s, units),
      spoken_temperature(night.water_C, units),
      spoken_length(std::sqrt(open_hole_m2), units));
}

std::string low_tees_text(const model::Farm& farm, const std::vector<DrainPoint>& tees) {
  std::vector<std::string> names;
  for (const DrainPoint& point : tees) {
    names.push_back(farm.places[*point.tee].name);
  }
  return fmt::format("Every pipe leaves {} upward: water stays there until it is drained.",
                     fmt::join(names, ", "));
}

}  // namespace leat::solver
