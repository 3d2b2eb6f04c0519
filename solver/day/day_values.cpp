#include "solver/day/day_values.h"

#include <stdexcept>
#include <utility>
#include <variant>

#include "model/quantity/conversion.h"
#include "solver/day/mid_months.h"
#include "solver/hydrology/curve_number.h"
#include "solver/hydrology/seepage.h"

namespace leat::solver {

namespace {}  // namespace

double seepage_a_day_m(const model::Seepage& seepage) {
  if (const auto* rate = std::get_if<DepthRate>(&seepage)) {
    return rate->in_si() * seconds_per_day;
  }
  const auto* soil = std::get_if<std::string>(&seepage);
  if (soil == nullptr) {
    return 0.0;
  }
  const auto row = hydrology::seepage_of_soil(*soil);
  if (!row) {
    throw std::logic_error("soil '" + *soil + "' was not checked");
  }
  return hydrology::middle_mm_per_day(*row) / mm_per_m;
}

/// A day as the places are read.
struct FarmDays::Moment {
  int day = 0;
  hydrology::MonthPair months;
  std::optional<Temperature> air;
  DayWeather weather;
};

template <class Value>
FarmDays::Course FarmDays::course(const model::MonthSeries<Value>& months,
                                  const std::vector<model::Dated<Value>>& record) {
  return {mid_months(months), DatedLine(record)};
}

std::vector<FarmDays::Drinkers> FarmDays::drinkers(const model::HerdNeed& herd) {
  std::vector<Drinkers> all;
  for (const model::HerdEntry& entry : herd.herd) {
    const model::CatalogueAnimal* const animal = model::find_animal(entry.animal);
    if (animal == nullptr) {
      throw std::logic_error("herd entry '" + entry.animal + "' was not checked");
    }
    all.push_back({animal, mid_months(entry.heads)});
  }
  return all;
}

void FarmDays::make_ready(const model::Creek& creek, ReadyPlace& ready) {
  ready.surface_m = course(creek.surface, creek.surface_record);
  if (creek.flow) {
    ready.flow_m3_s = course(*creek.flow, creek.yield_record);
  }
  if (creek.spare) {
    ready.spare_m3_s = course(*creek.spare, creek.spare_record);
  }
}

void FarmDays::make_ready(const model::Pond& pond, ReadyPlace& ready) {
  if (std::holds_alternative<std::monostate>(pond.shape)) {
    ready.surface_m = course(pond.surface, pond.surface_record);
    return;
  }
  Ground ground;
  ground.seepage_m = seepage_a_day_m(pond.seepage);
  if (pond.catchment) {
    ground.catchment_m2 = in_square_metres(pond.catchment->area);
    ground.curve_number = pond.catchment->curve_number;
  }
  ready.ground = ground;
  ready.herd = drinkers(pond.stock);
}

void FarmDays::make_ready(const model::Trough& trough, ReadyPlace& ready) {
  if (const auto* rate = std::get_if<model::RateNeed>(&trough.need)) {
    ready.need_m3 = course(rate->rate);
    for (double& month : ready.need_m3->months) {
      month *= drinking_hours(trough) * seconds_per_hour;
    }
  } else if (const auto* daily = std::get_if<model::DailyNeed>(&trough.need)) {
    ready.need_m3 = course(daily->per_day);
  } else if (const auto* herd = std::get_if<model::HerdNeed>(&trough.need)) {
    ready.herd = drinkers(*herd);
  }
}

FarmDays::ReadyPlace FarmDays::ready(const model::Place& place) {
  ReadyPlace ready;
  std::visit(Overload{[&](const model::Spring& spring) {
                        ready.yield_m3_s = course(spring.yield, spring.yield_record);
                      },
                      [&](const model::AnyOf<model::Creek, model::Pond, model::Trough> auto& data) {
                        make_ready(data, ready);
                      },
                      [&](const model::Outlet& outlet) {
                        if (outlet.wished) {
                          ready.wished_m3_s = course(*outlet.wished);
                        }
                      },
                      [](const model::AnyOf<model::Tank, model::Tee> auto&) {}},
             place.data);
  return ready;
}

FarmDays::FarmDays(const model::Farm& farm)
    : weather_(farm), water_C_(course(farm.site.water, farm.site.water_record)) {
  places_.reserve(farm.places.size());
  for (const model::Place& place : farm.places) {
    places_.push_back(ready(place));
  }
}

double FarmDays::value(const Course& course, const Moment& moment) {
  if (const auto measured = course.record.at(moment.day)) {
    return *measured;
  }
  return hydrology::between_months(course.months, moment.months);
}

std::optional<double> FarmDays::value(const std::optional<Course>& course, const Moment& moment) {
  return course ? std::optional(value(*course, moment)) : std::nullopt;
}

double FarmDays::drunk_m3(const std::vector<Drinkers>& herd, const Moment& moment) {
  double sum_m3 = 0.0;
  for (const Drinkers& kind : herd) {
    sum_m3 += in_cubic_metres(model::daily_water(*kind.animal, moment.air)) *
              hydrology::between_months(kind.heads, moment.months);
  }
  return sum_m3;
}

PlaceDay FarmDays::day_of(const ReadyPlace& place, const Moment& moment) {
  PlaceDay day;
  day.yield_m3_s = value(place.yield_m3_s, moment);
  day.surface_m = value(place.surface_m, moment);
  day.flow_m3_s = value(place.flow_m3_s, moment);
  day.spare_m3_s = value(place.spare_m3_s, moment);
  day.need_m3 = value(place.need_m3, moment);
  day.wished_m3_s = value(place.wished_m3_s, moment);
  const double drunk = place.herd ? drunk_m3(*place.herd, moment) : 0.0;
  if (!place.ground) {
    if (place.herd) {
      day.need_m3 = drunk;
    }
    return day;
  }
  const double storm_mm = moment.weather.storm_m.value_or(0.0) * mm_per_m;
  PondDay pond;
  pond.rain_m = moment.weather.rain_m.value_or(0.0);
  pond.evaporation_m = moment.weather.evaporation_m;
  pond.seepage_m = place.ground->seepage_m;
  pond.runoff_m3 = hydrology::day_runoff_mm(storm_mm, place.ground->curve_number) / mm_per_m *
                   place.ground->catchment_m2;
  pond.stock_m3 = drunk;
  day.pond = pond;
  return day;
}

void FarmDays::read(model::Date date, DayValues& values) const {
  Moment moment;
  moment.day = model::day_number(date);
  moment.months = noon_pair(date);
  moment.weather = weather_.on(date);
  values.water_C = value(water_C_, moment);
  values.lowest_air_C = moment.weather.lowest_C;
  values.mean_air_C = moment.weather.mean_C();
  if (values.mean_air_C) {
    moment.air = celsius(*values.mean_air_C);
  }
  values.places.resize(places_.size());
  for (std::size_t i = 0; i < places_.size(); ++i) {
    values.places[i] = day_of(places_[i], moment);
  }
}

DayValues FarmDays::on(model::Date date) const {
  DayValues values;
  read(date, values);
  return values;
}

DayValues day_values(const model::Farm& farm, model::Date date) {
  return FarmDays(farm).on(date);
}

}  // namespace leat::solver
