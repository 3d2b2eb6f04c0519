// A place of the farm: what its file says of each kind, and what the rest of the program asks of a
// place whatever its kind. Who needs more than these questions visits `Place::data` with a function
// for every kind (overload.h) and none for "the others", so that the compiler names what a new kind
// needs.
#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "model/farm/clock_range.h"
#include "model/farm/date.h"
#include "model/farm/map_position.h"
#include "model/farm/month_series.h"
#include "model/farm/overload.h"
#include "model/farm/pond.h"
#include "model/farm/records.h"
#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// Some head of one kind of stock.
struct HerdEntry {
  std::string animal;  // catalogue name (herd_catalogue.h)
  MonthSeries<Heads> heads;
};

/// Nothing was said about what stock drink here.
struct NoNeed {};
/// A rate while stock drink.
struct RateNeed {
  MonthSeries<Flow> rate;
};
/// An amount a day, taken within the trough's hours.
struct DailyNeed {
  MonthSeries<Volume> per_day;
};
/// So many head of stock; the amount a day comes from the catalogue.
struct HerdNeed {
  std::vector<HerdEntry> herd;
};
using Need = std::variant<NoNeed, RateNeed, DailyNeed, HerdNeed>;

/// A spring box: holds its overflow level while the pipe takes less than the yield.
struct Spring {
  Elevation overflow;
  Elevation intake;
  MonthSeries<Flow> yield;
  std::vector<Dated<Flow>> yield_record;  // where `yield` came from a CSV file; dates rise
  bool intake_assumed = false;  // not given: the paths of the spring's pipes say where they start
};

/// A creek or a pool in it: a surface whose level the farm does not change.
struct Creek {
  MonthSeries<Elevation> surface;
  std::optional<Elevation> intake;
  std::optional<MonthSeries<Flow>> flow;   // what the creek carries
  std::optional<MonthSeries<Flow>> spare;  // what may be taken
  // Where a key names a CSV file: what was measured, dates rising. The month maps above follow.
  std::vector<Dated<Elevation>> surface_record;
  std::vector<Dated<Flow>> yield_record;  // of `flow`
  std::vector<Dated<Flow>> spare_record;
};

/// A pond: for one moment of steady flow, a surface; over a season, a store.
struct Pond {
  MonthSeries<Elevation> surface;
  std::vector<Dated<Elevation>> surface_record;  // where `surface` names a CSV file; dates rise
  std::optional<Elevation> intake;
  PondShape shape;
  std::optional<Elevation> spills;
  Seepage seepage;
  std::optional<Catchment> catchment;
  HerdNeed stock;  // what drinks from the pond itself; empty: none
};

/// A tank. Its level is given, or `settles` and is found by the solver.
struct Tank {
  Elevation floor;
  Length full;   // depth when full, above the floor
  Length depth;  // depth now; equals `full` unless given; meaningless when `settles`
  bool settles = false;
  std::optional<Area> area;           // plan area, from diameter, area or volume / full
  std::optional<Length> float_inlet;  // depth at which the float inlet shuts
  std::optional<Elevation> intake;
};

enum class TroughEntry { AboveWater, UnderWater };

struct Trough {
  Elevation float_level;  // level of the float valve's outlet
  Need need;
  Duration within = hours(24.0);
  std::vector<ClockRange> drinks;                   // hours of the day; empty: unsaid
  std::optional<Length> seat;                       // bore of the float valve's seat
  std::optional<std::pair<Flow, Pressure>> passes;  // instead of a seat: flow at a pressure
  double discharge_coefficient = 0.60;
  std::optional<Pressure> closes_against;
  Duration closes_in = seconds(5.0);
  std::optional<Volume> holds;
  TroughEntry enters = TroughEntry::AboveWater;
};

struct Outlet {
  Elevation level;
  std::optional<MonthSeries<Flow>> wished;
  std::optional<Length> opening;  // bore of an orifice at the end; the pipe's own bore when absent
  double discharge_coefficient = 0.61;
  bool household = false;
};

struct Tee {
  Elevation elevation;
  bool leaks = false;
};

using PlaceData = std::variant<Spring, Creek, Pond, Tank, Trough, Outlet, Tee>;

/// A place by name; the order of `Farm::places` is that of the file.
struct Place {
  std::string name;
  PlaceData data;
  SourcePosition position;  // of the name in the file
  std::optional<MapPosition> map = {};
  Instrument surveyed_with = Instrument::Unsaid;  // its level; Unsaid: as the farm
};

/// One of the kinds listed: for the function of a visit that several kinds share.
template <class Kind, class... Kinds>
concept AnyOf = (std::same_as<Kind, Kinds> || ...);

/// The word for the kind of a place: "spring", "creek", "pond", "tank", "trough", "outlet", "tee".
[[nodiscard]] const char* kind_word(const Place& place);
[[nodiscard]] bool is_same_kind(const Place& one, const Place& other);

// --- What the place is to the water

/// A body of open water: spring box, creek, pond or tank.
[[nodiscard]] bool is_open_water(const Place& place);
/// Water comes from outside the farm there: spring or creek.
[[nodiscard]] bool is_source(const Place& place);
/// A spring box: it gives its yield at most and its level sinks where more is asked.
[[nodiscard]] bool is_spring(const Place& place);
/// Open water as nature keeps it: creek or pond.
[[nodiscard]] bool is_natural_water(const Place& place);
/// It keeps water for later: pond or tank.
[[nodiscard]] bool stores_water(const Place& place);
[[nodiscard]] bool is_creek(const Place& place);
[[nodiscard]] bool is_pond(const Place& place);
[[nodiscard]] bool is_tank(const Place& place);
/// A pipe ends there and the water is used: trough or outlet.
[[nodiscard]] bool takes_from_pipes(const Place& place);
/// Stock drink there behind a float valve.
[[nodiscard]] bool is_trough(const Place& place);
/// An open end.
[[nodiscard]] bool is_outlet(const Place& place);
/// Water is used there: trough, outlet, or a pond, from which stock may drink.
[[nodiscard]] bool is_point_of_use(const Place& place);
/// Pipes join there and nothing else happens.
[[nodiscard]] bool is_tee(const Place& place);

// --- Its levels [points on the datum]

/// The level at which water stands, or is left standing, there: spring's overflow, surface of creek
/// and pond, floor of a tank, float of a trough, end of an outlet, the tee itself.
[[nodiscard]] Elevation level_of(const Place& place, std::optional<Month> month);
/// The surface of open water; empty for all other places and for a tank that settles.
[[nodiscard]] std::optional<Elevation> surface_of(const Place& place, std::optional<Month> month);
/// The surface of natural water month by month; nullptr at all other places.
[[nodiscard]] const MonthSeries<Elevation>* monthly_surface_of(const Place& place);
/// The mouth of the pipes that leave open water, where the file tells it.
[[nodiscard]] std::optional<Elevation> intake_of(const Place& place);
/// The level over which a pond's or a tank's water runs away, where one is known.
[[nodiscard]] std::optional<Elevation> brim_of(const Place& place);
/// The level at which a float shuts what comes in: a trough's, and a tank's that has a float inlet.
[[nodiscard]] std::optional<Elevation> float_level_of(const Place& place);
/// The most pressure a trough's float closes against, where that is told.
[[nodiscard]] std::optional<Pressure> float_closes_against(const Place& place);
/// Puts every level of `place` to that of `from`, a place of the same kind, `by` higher.
void raise_levels(Place& place, const Place& from, Length by);

// --- Its water

/// What comes to a source: a spring's yield, what a creek carries where that is told; else nullptr.
[[nodiscard]] const MonthSeries<Flow>* inflow_of(const Place& place);
/// What may be taken from a source: a spring's yield, a creek's spare where told; else nullptr.
[[nodiscard]] const MonthSeries<Flow>* supply_of(const Place& place);
/// A spring's yield; nullptr at all other places.
[[nodiscard]] const MonthSeries<Flow>* yield_of(const Place& place);
/// The flow wished at an outlet, where told; else nullptr.
[[nodiscard]] const MonthSeries<Flow>* wish_of(const Place& place);
/// What is said of the stock at a trough; nullptr at all other places.
[[nodiscard]] const Need* need_of_stock(const Place& place);
/// The stock that drink from the water itself, a pond's; nullptr at all other places.
[[nodiscard]] const HerdNeed* stock_at_water(const Place& place);
/// The time within a day in which the water is taken there: a trough's `within`, else the whole
/// day.
[[nodiscard]] Duration drinking_time_of(const Place& place);
/// What a trough or tank is said to hold when full; empty where that is unsaid, and for a pond.
[[nodiscard]] std::optional<Volume> volume_held_by(const Place& place);
/// A tank whose level the solver finds.
[[nodiscard]] bool settles(const Place& place);
/// An outlet that people of a house drink from.
[[nodiscard]] bool serves_household(const Place& place);

/// Calls `visit` with each record of dated values that the place's file names, empty ones too.
template <class Visit>
void for_each_record(const Place& place, Visit visit) {
  std::visit(Overload{[&](const Spring& spring) { visit(spring.yield_record); },
                      [&](const Creek& creek) {
                        visit(creek.surface_record);
                        visit(creek.yield_record);
                        visit(creek.spare_record);
                      },
                      [&](const Pond& pond) { visit(pond.surface_record); },
                      [](const AnyOf<Tank, Trough, Outlet, Tee> auto&) {}},
             place.data);
}

}  // namespace leat::model
