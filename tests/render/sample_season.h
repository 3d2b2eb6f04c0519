// A farm's summer and the answer to it, set by hand: reports are tested on values, not on the
// solver.
#pragma once

#include <cmath>
#include <limits>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

/// Spring -> tank -> two troughs and a pond.
inline model::Farm season_farm() {
  model::Farm farm;
  farm.file = "sample.yaml";
  farm.name = "Alder Hollow";
  farm.datum = "barn slab corner = 30 m";
  model::Spring spring;
  spring.overflow = elevation_metres(40.0);
  spring.intake = elevation_metres(39.5);
  spring.yield = model::MonthSeries<Flow>::constant(litres_per_second(0.2));
  farm.places.push_back({"upper", spring, {3, 3}});
  model::Tank tank;
  tank.floor = elevation_metres(36.0);
  tank.full = metres(1.5);
  tank.depth = tank.full;
  tank.area = square_metres(4.0);
  farm.places.push_back({"hill tank", tank, {5, 3}});
  model::Trough north;
  north.float_level = elevation_metres(33.0);
  north.need = model::DailyNeed{model::MonthSeries<Volume>::constant(litres(1200.0))};
  north.drinks = {{hours(6.0), hours(20.0)}};
  farm.places.push_back({"north", north, {7, 3}});
  model::Trough south = north;
  south.float_level = elevation_metres(28.0);
  farm.places.push_back({"south", south, {8, 3}});
  model::Pond pond;
  pond.surface = model::MonthSeries<Elevation>::constant(elevation_metres(30.0));
  pond.shape = model::ConeShape{metres(30.0), 3.0, metres(2.4)};
  pond.spills = elevation_metres(30.2);
  farm.places.push_back({"house pond", pond, {9, 3}});
  return farm;
}

inline std::vector<solver::DatedLevel> daily_levels(model::Date from,
                                                    model::Date to,
                                                    double mean_m,
                                                    double swing_m) {
  std::vector<solver::DatedLevel> levels;
  const int first = model::day_number(from);
  const int last = model::day_number(to);
  for (int day = first; day <= last; ++day) {
    const double share = static_cast<double>(day - first) / (last - first + 1);
    levels.push_back(
        {model::date_of_day(day), mean_m + swing_m * std::cos(2.0 * 3.14159265 * share)});
  }
  return levels;
}

/// May to October: the north trough goes short from August on, dry in the afternoons.
inline solver::SeasonAnswer season_answer() {
  solver::SeasonAnswer answer;
  answer.from = {2026, 5, 1};
  answer.to = {2026, 10, 31};
  answer.converged = true;
  answer.steps = 4416;
  answer.balance = {1080.5, 420.25, -18.0, 500.25, 178.0, 0.0, 1098.5};
  solver::TroughSeason north;
  north.place = 2;
  north.first_dry = model::Date{2026, 8, 12};
  north.longest_dry_h = 62.5;
  solver::TroughSeason south;
  south.place = 3;
  const double days[] = {31.0, 30.0, 31.0, 31.0, 30.0, 31.0};
  const double met_north[] = {1.0, 1.0, 1.0, 0.612, 0.998, 1.0};
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  for (int i = 0; i < 6; ++i) {
    const double need_m3 = 1.2 * days[i];
    solver::MonthAtTrough month{2026,
                                static_cast<model::Month>(4 + i),
                                need_m3 * met_north[i],
                                need_m3,
                                met_north[i],
                                (1.0 - met_north[i]) * 14.0 * days[i],
                                std::nullopt};
    if (i == 3) {
      month.reason.emplace().moment = solver::AboveRunningWater{.end = solver::WaterEnd::Float,
                                                                .above_m = 1.2,
                                                                .at = "hill tank",
                                                                .at_tee = true,
                                                                .springs = {}};
    }
    north.months.push_back(month);
    month.got_m3 = need_m3;
    month.met = 1.0;
    month.dry_h = 0.0;
    month.reason.reset();
    south.months.push_back(month);
    std::vector<double> hours(24, nothing);
    for (int hour = 6; hour < 20; ++hour) {
      const double afternoon = hour < 13 ? 1.0 : hour == 13 ? 0.7 : hour == 14 ? 0.3 : 0.04;
      hours[static_cast<std::size_t>(hour)] = i == 3 ? afternoon : 1.0;
    }
    north.met_by_hour.push_back(hours);
  }
  answer.troughs = {north, south};
  solver::TankSeason tank;
  tank.place = 1;
  tank.lowest_m = 36.12;
  tank.lowest_on = {2026, 8, 21};
  tank.days_alone = 2.5;
  tank.spilled_m3 = 500.25;
  tank.levels = daily_levels(answer.from, answer.to, 36.8, 0.68);
  answer.tanks = {tank};
  solver::PondSeason pond;
  pond.place = 4;
  pond.filled_on = model::Date{2026, 6, 3};
  pond.lowest_m = 29.6;
  pond.lowest_on = {2026, 8, 30};
  pond.fill_m3 = 276.0;
  pond.rain_m3 = 90.0;
  pond.runoff_m3 = 40.0;
  pond.evaporation_m3 = 138.0;
  pond.seepage_m3 = 40.0;
  pond.stock_m3 = 24.0;
  pond.spilled_m3 = 200.0;
  pond.levels = daily_levels(answer.from, answer.to, 29.9, 0.3);
  answer.ponds = {pond};
  solver::Finding flag;
  flag.code = solver::Code::Starved;
  flag.severity = solver::Severity::Caution;
  flag.where = "north";
  solver::ShortInMonth month;
  month.year = answer.from.year;
  month.month = model::Month::Aug;
  month.reason.moment = solver::NoHeadLeft{};
  flag.detail = month;
  flag.value = 0.612;
  flag.limit = 0.995;
  answer.flags = {flag};
  solver::MonthsFilled rain{{solver::SeriesKind::Rain, {}, {}}, {}, model::GapRule::Lower};
  rain.months.at(8) = true;
  answer.notes = {rain};
  return answer;
}

}  // namespace leat::render
