#include "tests/support/random_season.h"

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "tests/support/random_farm.h"

namespace leat::tests {

namespace {

using namespace leat::model;

/// The same numbers on every machine.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : random_(seed * 104729 + 5) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11) * 0x1.0p-53;
  }
  bool chance(double share) { return between(0.0, 1.0) < share; }

 private:
  std::mt19937_64 random_;
};

PondShape random_shape(Dice& dice, double surface_m) {
  const double kind = dice.between(0.0, 1.0);
  const Length depth = metres(dice.between(0.5, 2.5));
  const double run = dice.chance(0.3) ? 0.0 : dice.between(0.0, 1.0);
  if (kind < 0.4) {
    return PrismShape{metres(dice.between(5.0, 35.0)), metres(dice.between(5.0, 15.0)), run, depth};
  }
  if (kind < 0.7) {
    return ConeShape{metres(dice.between(6.0, 26.0)), run, depth};
  }
  const double bottom_m2 = dice.chance(0.3) ? 0.0 : dice.between(0.0, 50.0);
  return std::vector<StageArea>{
      {elevation_metres(surface_m - 2.0), square_metres(bottom_m2)},
      {elevation_metres(surface_m - 1.0), square_metres(60.0)},
      {elevation_metres(surface_m + 0.5), square_metres(dice.between(60.0, 460.0))}};
}

void dress_trough(Dice& dice, Trough& trough) {
  if (dice.chance(0.6)) {
    trough.holds = cubic_metres(std::pow(10.0, dice.between(-1.3, 0.3)));
  }
  if (dice.chance(0.4)) {
    trough.drinks.push_back({hours(dice.between(0.0, 24.0)), hours(dice.between(0.0, 24.0))});
  } else if (dice.chance(0.5)) {
    trough.within = hours(dice.between(1.0, 24.0));
  }
}

void dress_pond(Dice& dice, Pond& pond) {
  if (!dice.chance(0.6)) {
    return;
  }
  const double surface_m = in_metres(pond.surface.by_month[0]);
  pond.shape = random_shape(dice, surface_m);
  if (dice.chance(0.6)) {
    pond.spills = elevation_metres(surface_m + dice.between(0.0, 0.3));
  }
  if (dice.chance(0.5)) {
    pond.seepage = DepthRate::from_si(std::pow(10.0, dice.between(-3.0, -1.0)) / 86400.0);
  }
  if (dice.chance(0.3)) {
    pond.stock.herd.push_back({"ewe", MonthSeries<Heads>::constant(Heads::from_si(20.0))});
  }
}

void dress_spring(Spring& spring) {
  const Flow yield = spring.yield.by_month[0];
  spring.yield.varies = true;
  for (std::size_t month = 0; month < spring.yield.by_month.size(); ++month) {
    const double share = month == 7 ? 0.05 : 1.0 / static_cast<double>(1 + month % 5);
    spring.yield.by_month[month] = yield * share;
  }
}

}  // namespace

Farm random_season_farm(std::uint64_t seed) {
  Farm farm = random_farm(seed, FarmKind::Everything);
  Dice dice(seed);
  for (std::size_t i = 0; i < farm.places.size(); ++i) {
    PlaceData& data = farm.places[i].data;
    if (auto* tank = std::get_if<Tank>(&data)) {
      if (dice.chance(0.8)) {
        tank->area = square_metres(std::pow(10.0, dice.between(-0.5, 1.5)));
      }
    } else if (auto* trough = std::get_if<Trough>(&data)) {
      dress_trough(dice, *trough);
      if (dice.chance(0.1)) {
        farm.breaks.push_back({i, Date{2026, 8, 10}, {}});
      }
    } else if (auto* pond = std::get_if<Pond>(&data)) {
      dress_pond(dice, *pond);
    } else if (auto* spring = std::get_if<Spring>(&data)) {
      dress_spring(*spring);
    }
  }
  if (dice.chance(0.5)) {
    Weather weather;
    weather.rain = MonthSeries<DepthRate>::constant(DepthRate::from_si(0.002 / 86400.0));
    weather.pan_evaporation = MonthSeries<DepthRate>::constant(DepthRate::from_si(0.006 / 86400.0));
    farm.weather = weather;
  }
  return farm;
}

Farm random_tree_farm(std::uint64_t seed) {
  Dice dice(seed);
  Farm farm;
  farm.name = "tree";
  const auto add = [&farm](std::string name, PlaceData data) {
    Place place;
    place.name = std::move(name);
    place.data = std::move(data);
    farm.places.push_back(std::move(place));
    return farm.places.size() - 1;
  };
  const auto join = [&](std::size_t from, std::size_t to) {
    Pipe pipe;
    pipe.name = "pipe " + std::to_string(farm.pipes.size());
    pipe.from = from;
    pipe.to = to;
    pipe.size.bore = millimetres(dice.chance(0.5) ? 20.9 : 26.6);
    pipe.length = metres(dice.between(60.0, 400.0));
    farm.pipes.push_back(pipe);
  };
  Spring spring;
  spring.overflow = elevation_metres(50.0);
  spring.intake = elevation_metres(49.7);
  double wanted_m3_s = 0.0;
  std::vector<std::size_t> tees;
  const std::size_t source = add("spring", spring);
  const int count = 2 + static_cast<int>(dice.between(0.0, 4.0));
  for (int i = 0; i < count; ++i) {
    const std::size_t tee =
        add("tee " + std::to_string(i), Tee{elevation_metres(dice.between(5.0, 9.0)), false});
    join(i == 0 ? source : tees.back(), tee);
    tees.push_back(tee);
    Trough trough;
    trough.float_level = elevation_metres(dice.between(10.0, 35.0));
    const double need_m3_s = std::pow(10.0, dice.between(-5.0, -4.0));
    trough.need = DailyNeed{MonthSeries<Volume>::constant(cubic_metres(86400.0 * need_m3_s))};
    wanted_m3_s += need_m3_s;
    dress_trough(dice, trough);
    // Hours that a step of an hour can tell apart.
    trough.drinks.clear();
    trough.within = hours(dice.between(4.0, 24.0));
    trough.seat = millimetres(dice.between(4.0, 10.0));
    join(tee, add("trough " + std::to_string(i), trough));
  }
  std::get<Spring>(farm.places[source].data).yield =
      MonthSeries<Flow>::constant(cubic_metres_per_second(dice.between(0.4, 1.3) * wanted_m3_s));
  return farm;
}

}  // namespace leat::tests
