#include "solver/freezing_words.h"

#include <cmath>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "solver/spoken_amount.h"

namespace leat::solver {

namespace {

constexpr double seconds_per_hour = 3600.0;

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

/// "2 L/min (1 to 4 may be right)".
std::string flow_with_spread(double flow_m3_s, model::UnitSystem units) {
  return fmt::format("about {} ({} to {} may be right)",
                     spoken_flow(flow_m3_s, units),
                     spoken_flow_figure(flow_m3_s / hydrology::freezing_spread, units),
                     spoken_flow(flow_m3_s * hydrology::freezing_spread, units));
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
                                  "it, so drain it, or "
                                  "let water run over at a trough."
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
  text += pipe.lies_untold
              ? ": nothing says how it lies. If it is not buried below the frost, water"
              : " lies open: water";
  text += fmt::format(
      " that stands in it at {} has its first ice after about {} and is solid after about {} (half "
      "or twice that may be right).",
      spoken_temperature(night.air_C, units),
      spoken_time(pipe.still.to_first_ice * seconds_per_hour),
      spoken_time(pipe.still.to_solid * seconds_per_hour));
  text += pipe.least_flow_m3_s ? fmt::format(" A flow of {} keeps it open.",
                                             flow_with_spread(*pipe.least_flow_m3_s, units))
                               : fmt::format(" No flow keeps it open: its water comes at {}.",
                                             spoken_temperature(night.water_C, units));
  text += verdict_text(pipe.verdict, pipe.flow_m3_s, units);
  return text + still_text(pipe) + drains_text(pipe, units);
}

std::string frost_trough_text(const model::Farm& farm,
                              const FrostTrough& trough,
                              const FrostNight& night,
                              model::UnitSystem units) {
  const std::string& name = farm.places[trough.place].name;
  if (!trough.least_inflow_m3_s) {
    return fmt::format("{}: no inflow keeps a hole open, as the water comes at {}.",
                       name,
                       spoken_temperature(night.water_C, units));
  }
  return fmt::format(
      "{}: an inflow of {} that still has {} when it gets there keeps a hole {} "
      "square open; it must have somewhere to run over.{}",
      name,
      flow_with_spread(*trough.least_inflow_m3_s, units),
      spoken_temperature(night.water_C, units),
      spoken_length(std::sqrt(open_hole_m2), units),
      trough.verdict == FrostVerdict::Still ? " Its float lets nothing in once it is full." : "");
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
