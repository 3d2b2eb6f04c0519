#include "render/words/frost.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "model/quantity/quantity.h"
#include "model/quantity/spoken_amount.h"
#include "solver/hydrology/freezing.h"
#include "solver/season/freezing_season.h"

namespace leat::render {

namespace {

using solver::DrainPoint;
using solver::FrostMonth;
using solver::FrostPipe;
using solver::FrostVerdict;
using solver::night_spread_C;
using solver::spoken_flow;
using solver::spoken_flow_figure;
using solver::spoken_length;
using solver::spoken_level;

/// Holds the given flow against the least one; empty where none was given.
std::string enough_text(FrostVerdict verdict,
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

std::string still_pipe_text(const FrostPipe& pipe) {
  if (!pipe.feeds_floats_only && pipe.verdict != FrostVerdict::Still) {
    return "";
  }
  return pipe.feeds_floats_only ? " It feeds floats alone: once they shut at night nothing runs in "
                                  "it. Drain it, or let a "
                                  "trough run over."
                                : " Nothing runs in it: drain it.";
}

/// "-12 C" or "10 F".
std::string spoken_temperature(double temperature_C, model::UnitSystem units) {
  const bool us = units == model::UnitSystem::Us;
  const double shown = std::round(us ? in_fahrenheit(celsius(temperature_C)) : temperature_C);
  return fmt::format("{:.0f} {}", shown == 0.0 ? 0.0 : shown, us ? "F" : "C");
}

}  // namespace

std::string note_text(const solver::FrostUntold&, model::UnitSystem) {
  return "Frost is not reckoned: weather tells no lowest temperature (tmin) for these dates.";
}

std::string note_text(const solver::FrostNights& frost, model::UnitSystem units) {
  std::vector<std::string> months;
  bool expected = false;
  for (const FrostMonth& month : frost.months) {
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
  if (frost.coldest) {
    text += fmt::format(
        " The coldest night to reckon with: {}{}, {}, with water that starts out at {}.",
        frost.coldest->measured ? "" : "about ",
        spoken_temperature(frost.coldest->air_C, units),
        frost.coldest->measured
            ? model::date_text(frost.coldest->on)
            : fmt::format("in {}", model::name_of(model::month_of(frost.coldest->on))),
        spoken_temperature(frost.coldest->water_C, units));
  }
  return text;
}

std::string note_text(const solver::ColdSpringTaken& taken, model::UnitSystem units) {
  return "The site's water is not told by month: in frost it is taken as the cool end of spring "
         "water, " +
         spoken_temperature(taken.water_C, units) + ".";
}

std::string note_text(const solver::FrostRules&, model::UnitSystem) {
  return "Every flow and time told of frost may be half or twice what is said. Buried pipes are "
         "taken "
         "to lie "
         "below the frost, and the cold to last until pipes and water have settled to it.";
}

std::string note_text(const solver::FrostAtTroughs& troughs, model::UnitSystem units) {
  const std::string all = fmt::format("{}", fmt::join(troughs.troughs, ", "));
  if (!troughs.least_inflow_m3_s) {
    return fmt::format("At {}: no inflow keeps a hole open, as the water comes at {}.",
                       all,
                       spoken_temperature(troughs.water_C, units));
  }
  return fmt::format(
      "At {}: an inflow of {} that still has {} when it gets there keeps a hole {} square open. A "
      "float lets nothing in once its trough is full: that takes an overflow, led well away from "
      "where stock stand.",
      all,
      flow_with_spread(*troughs.least_inflow_m3_s, units),
      spoken_temperature(troughs.water_C, units),
      spoken_length(std::sqrt(troughs.hole_m2), units));
}

std::string note_text(const solver::VentsInFrost&, model::UnitSystem) {
  return "Look at vents in frost: one that ices shut lets no air in, and a siphon it should break "
         "runs on.";
}

std::string note_text(const solver::LowTees& low, model::UnitSystem) {
  return fmt::format("Every pipe leaves {} upward: water stays there until it is drained.",
                     fmt::join(low.tees, ", "));
}

std::string frost_pipe_text(const std::string& name,
                            const FrostPipe& pipe,
                            model::UnitSystem units) {
  std::string text = name;
  text += pipe.lies_untold ? ", if it is not buried (the file does not say)" : " lies open";
  text +=
      fmt::format(": standing water has its first ice after about {} and is solid after about {}.",
                  rough_time(pipe.first_ice_h),
                  rough_time(pipe.solid_h));
  text += pipe.least_flow_m3_s ? fmt::format(" A flow of {} keeps it open.",
                                             flow_with_spread(*pipe.least_flow_m3_s, units))
                               : fmt::format(" No flow keeps it open: its water comes at {}.",
                                             spoken_temperature(pipe.water_C, units));
  text += enough_text(pipe.verdict, pipe.flow_m3_s, units);
  return text + still_pipe_text(pipe) + drains_text(pipe, units);
}

}  // namespace leat::render
