#include "solver/season/water_account.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/quantity/conversion.h"
#include "solver/day/day_values.h"
#include "solver/findings/states.h"

namespace leat::solver {

namespace {

constexpr double joules_a_kWh = 3.6e6;
/// A pond that stands this near its spill level is full.
constexpr double full_within_m = 1e-3;

/// The lowest level of a tank or pond, and the first day it stood there.
template <class Store>
void put_lowest(Store& store, model::Date day, double level_m) {
  if (level_m < store.lowest_m || store.lowest_on == model::Date{}) {
    store.lowest_m = std::min(store.lowest_m, level_m);
    store.lowest_on = day;
  }
}

}  // namespace

WaterAccount::WaterAccount(const model::Farm& farm,
                           const FarmStores& stores,
                           double step_s,
                           double stored_m3)
    : farm_(farm), stores_(stores), stored_at_start_m3_(stored_m3) {
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    const model::Place& place = farm.places[i];
    if (model::is_trough(place) || model::wish_of(place) != nullptr) {
      TroughSeason trough;
      trough.place = i;
      troughs_.push_back(trough);
      // With a longer step nobody can tell the hours apart.
      tells_hours_.push_back(step_s <= 0.25 * seconds_per_hour * drinking_hours(place));
    }
    const StoreLaw* store = stores.find(i);
    if (store == nullptr) {
      continue;
    }
    if (model::is_tank(place)) {
      TankSeason tank;
      tank.place = i;
      tank.lowest_m = store->start_m;
      tanks_.push_back(tank);
    } else if (model::is_pond(place)) {
      PondSeason pond;
      pond.place = i;
      pond.lowest_m = store->start_m;
      ponds_.push_back(pond);
    }
  }
  for (const model::Pump& pump : farm.pumps) {
    LifterSeason lifter;
    lifter.name = pump.name;
    if (pump.efficiency) {
      lifter.energy_kWh = 0.0;
    }
    lifters_.push_back(std::move(lifter));
  }
  for (const model::Ram& ram : farm.rams) {
    LifterSeason lifter;
    lifter.name = ram.name;
    lifter.is_ram = true;
    lifters_.push_back(std::move(lifter));
  }
  spilled_m3_.assign(farm.places.size(), 0.0);
  exceeded_.resize(farm.places.size());
  hours_.resize(troughs_.size());
  spells_.resize(troughs_.size());
  driest_.resize(troughs_.size());
}

WaterAccount::MonthSum& WaterAccount::month_at(model::Date day) {
  if (months_.empty() || months_.back().year != day.year ||
      months_.back().month != model::month_of(day)) {
    MonthSum sum;
    sum.year = day.year;
    sum.month = model::month_of(day);
    sum.yield_m3.assign(farm_.places.size(), 0.0);
    sum.need_m3.assign(farm_.places.size(), 0.0);
    sum.drawn_m3.assign(farm_.places.size(), 0.0);
    sum.pipe_m3.assign(farm_.pipes.size(), 0.0);
    months_.push_back(std::move(sum));
    for (std::size_t i = 0; i < troughs_.size(); ++i) {
      MonthAtTrough month;
      month.year = day.year;
      month.month = model::month_of(day);
      troughs_[i].months.push_back(month);
      hours_[i].emplace_back();
      driest_[i].emplace_back();
    }
  }
  return months_.back();
}

void WaterAccount::put(const StepTime& time,
                       const StepNeeds& needs,
                       const StepWishes& wishes,
                       const StepWater& water,
                       const SeasonSteps& steps) {
  MonthSum& month = month_at(time.day);
  month.days += time.seconds / seconds_per_day;
  balance_.in_m3 += water.rain_m3;
  balance_.spilled_m3 += water.vents_m3;
  put_lifters(water.lifters);
  for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
    month.pipe_m3[i] += water.pipe_m3[i];
  }
  for (std::size_t i = 0; i < farm_.places.size(); ++i) {
    put_exceeded(i, time, needs.spare_m3_s[i], water.places[i].given_m3 / time.seconds);
    month.need_m3[i] += needs.need_m3[i];
    month.drawn_m3[i] += water.places[i].drawn_m3;
    put_place(i, time, water.places[i], steps.day_farm().places[i], month);
  }
  for (std::size_t i = 0; i < troughs_.size(); ++i) {
    const std::size_t place = troughs_[i].place;
    const double got_m3 = std::max(0.0, water.places[place].taken_m3);
    put_trough(i, time, needs.need_m3[place], needs.need_rate_m3_s[place], got_m3);
    see_driest(i, time, needs.need_m3[place], got_m3, wishes, needs, steps);
  }
  for (TankSeason& tank : tanks_) {
    tank.spilled_m3 += water.places[tank.place].spilled_m3;
    put_lowest(tank, time.day, steps.levels_m()[stores_.of_place(tank.place)]);
  }
  for (PondSeason& pond : ponds_) {
    put_pond(pond, water.places[pond.place], needs.ponds[pond.place]);
    const double level_m = steps.levels_m()[stores_.of_place(pond.place)];
    put_lowest(pond, time.day, level_m);
    const double brim_m = stores_.find(pond.place)->brim_m;
    if (!pond.filled_on && level_m >= brim_m - full_within_m) {
      pond.filled_on = time.day;
    }
  }
}

void WaterAccount::put_lifters(const std::vector<LifterWater>& lifters) {
  for (std::size_t i = 0; i < lifters_.size(); ++i) {
    const LifterWater& here = lifters[i];
    balance_.spilled_m3 += here.wasted_m3;
    lifters_[i].delivered_m3 += here.delivered_m3;
    lifters_[i].wasted_m3 += here.wasted_m3;
    lifters_[i].running_h += here.running_s / seconds_per_hour;
    if (lifters_[i].energy_kWh) {
      *lifters_[i].energy_kWh += here.energy_J / joules_a_kWh;
    }
  }
}

void WaterAccount::put_exceeded(std::size_t place,
                                const StepTime& time,
                                std::optional<double> spare_m3_s,
                                double taken_m3_s) {
  std::optional<SpareExceeded>& worst = exceeded_[place];
  if (spare_m3_s && taken_m3_s > *spare_m3_s * (1.0 + 1e-9) &&
      (!worst || taken_m3_s - *spare_m3_s > worst->taken_m3_s - worst->spare_m3_s)) {
    worst = SpareExceeded{taken_m3_s, *spare_m3_s, time.day};
  }
}

/// What comes into the farm and leaves it at a place.
void WaterAccount::put_place(std::size_t index,
                             const StepTime& time,
                             const PlaceWater& water,
                             const model::Place& today,
                             MonthSum& month) {
  balance_.in_m3 += std::max(0.0, water.given_m3);
  balance_.spilled_m3 += water.spilled_m3 + water.wasted_m3;
  spilled_m3_[index] += water.spilled_m3 + water.wasted_m3;
  if (const model::MonthSeries<Flow>* yield = model::yield_of(today)) {
    // What runs back into a spring box runs over there.
    balance_.spilled_m3 += std::max(0.0, -water.given_m3);
    month.yield_m3[index] += time.seconds * in_cubic_metres_per_second(yield->at(std::nullopt));
    return;
  }
  balance_.out_m3 += std::max(0.0, -water.given_m3);
  if (!model::is_pond(today)) {
    balance_.out_m3 += water.taken_m3;
  }
}

void WaterAccount::put_pond(PondSeason& pond, const PlaceWater& water, const PondShare& day) {
  const double share = day.wanted_m3() > 0.0 ? water.taken_m3 / day.wanted_m3() : 0.0;
  pond.fill_m3 += water.piped_m3;
  pond.rain_m3 += day.rain_m3;
  pond.runoff_m3 += day.runoff_m3;
  pond.evaporation_m3 += share * day.evaporation_m3;
  pond.seepage_m3 += share * day.seepage_m3;
  pond.stock_m3 += share * day.stock_m3;
  pond.spilled_m3 += water.spilled_m3;
  balance_.out_m3 += share * day.stock_m3;
  balance_.lost_m3 += share * (day.evaporation_m3 + day.seepage_m3);
}

void WaterAccount::put_trough(
    std::size_t trough, const StepTime& time, double need_m3, double rate_m3_s, double got_m3) {
  MonthAtTrough& month = troughs_[trough].months.back();
  month.got_m3 += got_m3;
  month.need_m3 += need_m3;
  Spell& spell = spells_[trough];
  if (spell.day != time.day) {
    end_day(trough);
    spell.day = time.day;
  }
  if (need_m3 <= 0.0) {
    spell.waiting_s += spell.running_s > 0.0 ? time.seconds : 0.0;
    return;
  }
  const double unmet_m3 = std::max(0.0, need_m3 - got_m3);
  spell.day_need_m3 += need_m3;
  spell.day_unmet_m3 += unmet_m3;
  month.dry_h += rate_m3_s > 0.0 ? unmet_m3 / rate_m3_s / seconds_per_hour : 0.0;
  if (unmet_m3 > (1.0 - met_limit) * need_m3) {
    spell.running_s += spell.waiting_s + time.seconds;
    spell.longest_s = std::max(spell.longest_s, spell.running_s);
  } else {
    spell.running_s = 0.0;
  }
  spell.waiting_s = 0.0;
  if (tells_hours_[trough]) {
    put_hours(hours_[trough].back(), time, need_m3, got_m3);
  }
}

/// Shares a step out over the hours of the day it lies in.
void WaterAccount::put_hours(Hours& hours,
                             const StepTime& time,
                             double need_m3,
                             double got_m3) const {
  const double end_s = time.from_s + time.seconds;
  double at_s = time.from_s;
  while (at_s < end_s - 1e-6) {
    const auto hour =
        static_cast<std::size_t>(std::min(23.0, std::floor(at_s / seconds_per_hour + 1e-9)));
    const double until_s = std::min(end_s, seconds_per_hour * (static_cast<double>(hour) + 1.0));
    const double share = (until_s - at_s) / time.seconds;
    hours.need_m3[hour] += share * need_m3;
    hours.got_m3[hour] += share * std::min(need_m3, got_m3);
    at_s = until_s > at_s ? until_s : end_s;
  }
}

void WaterAccount::see_driest(std::size_t trough,
                              const StepTime& time,
                              double need_m3,
                              double got_m3,
                              const StepWishes& wishes,
                              const StepNeeds& needs,
                              const SeasonSteps& steps) {
  DriestMoment& driest = driest_[trough].back();
  const double short_m3_s = (need_m3 - got_m3) / time.seconds;
  const bool worse =
      need_m3 - got_m3 > (1.0 - met_limit) * need_m3 && short_m3_s > driest.short_m3_s * 1.001;
  if (!worse) {
    return;
  }
  driest.short_m3_s = short_m3_s;
  driest.day = time.day;
  driest.wanted_m3_s = need_m3 / time.seconds;
  driest.wanted_by_place_m3_s = wishes.taken_m3_s;
  for (std::size_t i = 0; i < driest.wanted_by_place_m3_s.size(); ++i) {
    if (model::takes_from_pipes(farm_.places[i])) {
      driest.wanted_by_place_m3_s[i] = needs.need_m3[i] / time.seconds;
    }
  }
  driest.levels_m = steps.levels_m();
  driest.stopped = steps.stopped().size();
}

void WaterAccount::end_day(std::size_t trough) {
  Spell& spell = spells_[trough];
  const bool short_today = spell.day_unmet_m3 > (1.0 - met_limit) * spell.day_need_m3;
  if (short_today && !troughs_[trough].first_dry) {
    troughs_[trough].first_dry = spell.day;
  }
  spell.day_need_m3 = 0.0;
  spell.day_unmet_m3 = 0.0;
}

void WaterAccount::put_levels(model::Date day, const std::vector<double>& levels_m) {
  for (TankSeason& tank : tanks_) {
    tank.levels.push_back({day, levels_m[stores_.of_place(tank.place)]});
  }
  for (PondSeason& pond : ponds_) {
    pond.levels.push_back({day, levels_m[stores_.of_place(pond.place)]});
  }
}

void WaterAccount::close(double stored_m3, SeasonAnswer& answer) {
  for (std::size_t i = 0; i < troughs_.size(); ++i) {
    end_day(i);
    TroughSeason& trough = troughs_[i];
    trough.longest_dry_h = spells_[i].longest_s / seconds_per_hour;
    for (std::size_t month = 0; month < trough.months.size(); ++month) {
      MonthAtTrough& sum = trough.months[month];
      if (sum.need_m3 > 0.0) {
        sum.met = std::min(1.0, sum.got_m3 / sum.need_m3);
      }
      if (!tells_hours_[i]) {
        continue;
      }
      std::vector<double> met(24, 1.0);
      for (std::size_t hour = 0; hour < met.size(); ++hour) {
        const double need_m3 = hours_[i][month].need_m3[hour];
        met[hour] = need_m3 > 0.0 ? hours_[i][month].got_m3[hour] / need_m3 : 1.0;
      }
      trough.met_by_hour.push_back(std::move(met));
    }
  }
  balance_.stored_m3 = stored_m3 - stored_at_start_m3_;
  balance_.error_m3 = balance_.in_m3 - balance_.out_m3 - balance_.stored_m3 - balance_.spilled_m3 -
                      balance_.lost_m3;
  balance_.moved_m3 = balance_.in_m3 + std::max(0.0, -balance_.stored_m3);
  answer.balance = balance_;
  answer.troughs = std::move(troughs_);
  answer.tanks = std::move(tanks_);
  answer.ponds = std::move(ponds_);
  answer.lifters = std::move(lifters_);
}

}  // namespace leat::solver
