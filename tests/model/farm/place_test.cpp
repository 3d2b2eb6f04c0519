// The questions asked of a place, whatever its kind.
#include "model/farm/place.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "model/farm/farm.h"

namespace {

using namespace leat;
using namespace leat::model;

MonthSeries<Elevation> surface_m(double january_m, double other_m) {
  auto series = MonthSeries<Elevation>::constant(elevation_metres(other_m));
  series.by_month[0] = elevation_metres(january_m);
  series.varies = true;
  return series;
}

/// A place of each kind, named by its kind.
std::vector<Place> one_of_each() {
  Spring spring;
  spring.overflow = elevation_metres(100.0);
  spring.intake = elevation_metres(99.5);
  spring.yield = MonthSeries<Flow>::constant(cubic_metres_per_second(0.002));
  spring.yield_record = {{Date{2024, 5, 1}, cubic_metres_per_second(0.003)}};
  Creek creek;
  creek.surface = surface_m(90.0, 89.0);
  creek.intake = elevation_metres(88.5);
  creek.flow = MonthSeries<Flow>::constant(cubic_metres_per_second(0.05));
  creek.spare = MonthSeries<Flow>::constant(cubic_metres_per_second(0.004));
  Pond pond;
  pond.surface = surface_m(80.0, 79.0);
  pond.surface_record = {{Date{2024, 6, 1}, elevation_metres(79.5)}};
  pond.spills = elevation_metres(80.5);
  pond.shape = std::vector<StageArea>{{elevation_metres(78.0), square_metres(40.0)}};
  Tank tank;
  tank.floor = elevation_metres(70.0);
  tank.full = metres(2.0);
  tank.depth = metres(1.5);
  tank.area = square_metres(3.0);
  tank.float_inlet = metres(1.8);
  tank.intake = elevation_metres(70.1);
  Trough trough;
  trough.float_level = elevation_metres(60.0);
  trough.need = RateNeed{MonthSeries<Flow>::constant(cubic_metres_per_second(1e-4))};
  trough.within = hours(16.0);
  trough.holds = cubic_metres(0.4);
  Outlet outlet;
  outlet.level = elevation_metres(50.0);
  outlet.wished = MonthSeries<Flow>::constant(cubic_metres_per_second(2e-4));
  outlet.household = true;
  Tee tee;
  tee.elevation = elevation_metres(65.0);
  const std::vector<PlaceData> kinds = {spring, creek, pond, tank, trough, outlet, tee};
  std::vector<Place> places;
  for (const PlaceData& data : kinds) {
    places.push_back({"", data, {}});
    places.back().name = kind_word(places.back());
  }
  return places;
}

const Place& named(const std::vector<Place>& places, const std::string& name) {
  for (const Place& place : places) {
    if (place.name == name) {
      return place;
    }
  }
  throw std::runtime_error("no place " + name);
}

/// The kinds to which a question is answered by yes, in the order of the file's sections.
std::string kinds_that(const std::function<bool(const Place&)>& question) {
  std::string kinds;
  for (const Place& place : one_of_each()) {
    kinds += question(place) ? (kinds.empty() ? "" : " ") + place.name : "";
  }
  return kinds;
}

}  // namespace

TEST_CASE("A place says what it is to the water") {
  CHECK(kinds_that(is_open_water) == "spring creek pond tank");
  CHECK(kinds_that(is_source) == "spring creek");
  CHECK(kinds_that(is_spring) == "spring");
  CHECK(kinds_that(is_natural_water) == "creek pond");
  CHECK(kinds_that(stores_water) == "pond tank");
  CHECK(kinds_that(is_creek) == "creek");
  CHECK(kinds_that(is_pond) == "pond");
  CHECK(kinds_that(is_tank) == "tank");
  CHECK(kinds_that(takes_from_pipes) == "trough outlet");
  CHECK(kinds_that(is_trough) == "trough");
  CHECK(kinds_that(is_outlet) == "outlet");
  CHECK(kinds_that(is_point_of_use) == "pond trough outlet");
  CHECK(kinds_that(is_tee) == "tee");
  CHECK(kinds_that(serves_household) == "outlet");
  const std::vector<Place> places = one_of_each();
  CHECK(is_same_kind(named(places, "pond"), one_of_each()[2]));
  CHECK_FALSE(is_same_kind(named(places, "pond"), named(places, "tank")));
}

TEST_CASE("A place tells its levels, by month where they change") {
  const std::vector<Place> places = one_of_each();
  const double level_m[] = {100.0, 90.0, 80.0, 70.0, 60.0, 50.0, 65.0};
  for (std::size_t i = 0; i < places.size(); ++i) {
    CHECK(in_metres(level_of(places[i], Month::Jan)) == level_m[i]);
  }
  CHECK(in_metres(level_of(named(places, "creek"), Month::Jul)) == 89.0);
  CHECK(in_metres(level_of(named(places, "pond"), Month::Jul)) == 79.0);

  CHECK(kinds_that([](const Place& place) { return surface_of(place, Month::Jan).has_value(); }) ==
        "spring creek pond tank");
  CHECK(in_metres(*surface_of(named(places, "tank"), std::nullopt)) == 71.5);
  CHECK(in_metres(*surface_of(named(places, "pond"), Month::Feb)) == 79.0);
  CHECK(kinds_that(monthly_surface_of) == "creek pond");
  CHECK(kinds_that([](const Place& place) { return intake_of(place).has_value(); }) ==
        "spring creek tank");
  CHECK(in_metres(*intake_of(named(places, "spring"))) == 99.5);
  CHECK(kinds_that([](const Place& place) { return brim_of(place).has_value(); }) == "pond tank");
  CHECK(in_metres(*brim_of(named(places, "tank"))) == 72.0);
  CHECK(in_metres(*brim_of(named(places, "pond"))) == 80.5);
  CHECK(kinds_that([](const Place& place) { return float_level_of(place).has_value(); }) ==
        "tank trough");
  CHECK(in_metres(*float_level_of(named(places, "tank"))) == 71.8);
}

TEST_CASE("Only a trough's float closes against a pressure, where that is told") {
  Place trough = named(one_of_each(), "trough");
  CHECK_FALSE(float_closes_against(trough));
  std::get<Trough>(trough.data).closes_against = kilopascals(50.0);
  CHECK(in_pascals(*float_closes_against(trough)) == Approx(50e3));
  CHECK_FALSE(float_closes_against(named(one_of_each(), "tank")));
}

TEST_CASE("A tank that settles tells no surface") {
  Place place = named(one_of_each(), "tank");
  CHECK_FALSE(settles(place));
  std::get<Tank>(place.data).settles = true;
  CHECK(settles(place));
  CHECK_FALSE(surface_of(place, std::nullopt));
  CHECK(kinds_that(settles).empty());
}

TEST_CASE("Raising a place moves every level that it tells and nothing else") {
  const std::vector<Place> places = one_of_each();
  for (const Place& from : places) {
    CAPTURE(from.name);
    Place raised = from;
    raise_levels(raised, from, metres(0.25));
    raise_levels(raised, from, metres(0.5));  // from the same place again: it does not add up
    for (const Month month : {Month::Jan, Month::Jul}) {
      CHECK(in_metres(level_of(raised, month) - level_of(from, month)) == Approx(0.5));
    }
    if (surface_of(from, Month::Jan)) {
      CHECK(in_metres(*surface_of(raised, Month::Jan) - *surface_of(from, Month::Jan)) ==
            Approx(0.5));
    }
    if (intake_of(from)) {
      CHECK(in_metres(*intake_of(raised) - *intake_of(from)) == Approx(0.5));
    }
    if (brim_of(from)) {
      CHECK(in_metres(*brim_of(raised) - *brim_of(from)) == Approx(0.5));
    }
    CHECK(intake_of(raised).has_value() == intake_of(from).has_value());
    CHECK(volume_held_by(raised).has_value() == volume_held_by(from).has_value());
  }
  Place pond = named(places, "pond");
  raise_levels(pond, named(places, "pond"), metres(1.0));
  const auto& data = std::get<Pond>(pond.data);
  CHECK(in_metres(std::get<std::vector<StageArea>>(data.shape).front().level) == 79.0);
  CHECK(in_metres(data.surface_record.front().value) == 80.5);
}

TEST_CASE("A place tells what water comes, is wanted and is held there") {
  const std::vector<Place> places = one_of_each();
  CHECK(kinds_that(inflow_of) == "spring creek");
  CHECK(kinds_that(supply_of) == "spring creek");
  CHECK(kinds_that(yield_of) == "spring");
  CHECK(kinds_that(wish_of) == "outlet");
  CHECK(kinds_that(need_of_stock) == "trough");
  CHECK(kinds_that(stock_at_water) == "pond");
  CHECK(in_cubic_metres_per_second(inflow_of(named(places, "creek"))->at(Month::May)) == 0.05);
  CHECK(in_cubic_metres_per_second(supply_of(named(places, "creek"))->at(Month::May)) == 0.004);
  CHECK(in_cubic_metres_per_second(inflow_of(named(places, "spring"))->at(Month::May)) == 0.002);
  CHECK(in_hours(drinking_time_of(named(places, "trough"))) == 16.0);
  CHECK(in_hours(drinking_time_of(named(places, "outlet"))) == 24.0);
  CHECK(kinds_that([](const Place& place) { return volume_held_by(place).has_value(); }) ==
        "tank trough");
  CHECK(in_cubic_metres(*volume_held_by(named(places, "tank"))) == Approx(6.0));
  CHECK(in_cubic_metres(*volume_held_by(named(places, "trough"))) == Approx(0.4));
}

TEST_CASE("A creek of which nothing is told but its surface gives no figure of its water") {
  Place place = named(one_of_each(), "creek");
  std::get<Creek>(place.data).flow.reset();
  std::get<Creek>(place.data).spare.reset();
  CHECK(inflow_of(place) == nullptr);
  CHECK(supply_of(place) == nullptr);
}

TEST_CASE("The records of a place are those that its keys name") {
  const auto days_at = [](const std::string& name) {
    std::size_t records = 0;
    std::size_t days = 0;
    for_each_record(named(one_of_each(), name), [&](const auto& record) {
      ++records;
      days += record.size();
    });
    return std::pair(records, days);
  };
  CHECK(days_at("spring") == std::pair<std::size_t, std::size_t>(1, 1));
  CHECK(days_at("creek") == std::pair<std::size_t, std::size_t>(3, 0));
  CHECK(days_at("pond") == std::pair<std::size_t, std::size_t>(1, 1));
  CHECK(days_at("tee") == std::pair<std::size_t, std::size_t>(0, 0));
}

TEST_CASE("A place is found by its name, to the letter") {
  Farm farm;
  farm.places = one_of_each();
  CHECK(place_named(farm, "tank") == std::optional<std::size_t>(3));
  CHECK_FALSE(place_named(farm, "Tank"));
}
