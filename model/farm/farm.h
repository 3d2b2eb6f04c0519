// Room: the farm as plain values; no file, no water.
//
// The farm as plain values: what stands where, and which pipe joins what. Built by the loader
// (farm_file.h), read by the solver and by what people see. Knows no solver.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/clock_range.h"
#include "model/farm/date.h"
#include "model/farm/map_position.h"
#include "model/farm/month_series.h"
#include "model/farm/place.h"
#include "model/farm/pond.h"
#include "model/farm/pump_and_ram.h"
#include "model/farm/records.h"
#include "model/farm/weather.h"
#include "model/quantity/quantity.h"
#include "model/quantity/unit_system.h"
#include "model/text/source_position.h"

namespace leat::model {

/// Air and water at the farm.
struct Site {
  Length altitude;  // above sea level
  MonthSeries<Temperature> water = MonthSeries<Temperature>::constant(celsius(15.0));
  std::vector<Dated<Temperature>> water_record;  // where `water` names a CSV file; dates rise
  std::optional<Pressure> air_pressure;          // absolute; from the altitude when absent
  std::optional<double> latitude_degrees;
  std::optional<MapDegrees> map_origin;  // of places told as [x, y]
};

/// Where along a pipe a thing sits.
struct Placement {
  enum class Where { Spread, Start, End, AtDistance };
  Where where = Where::Spread;
  Length distance;  // along the path as written; only for AtDistance
};

enum class PipeMaterial { Polyethylene, Pvc, Steel, Hose, SuctionHose, Unknown };

/// What the size text of a pipe says, resolved by the catalogue.
struct PipeSize {
  std::string text;  // as written by the user, or the catalogue's own spelling
  Length bore;
  std::optional<Length> wall;
  std::optional<Length> outside_diameter;
  Length roughness = millimetres(0.0015);
  std::optional<Pressure> rating;  // at 20 C
  bool rating_assumed = false;     // sold in several ratings and the lowest was taken
  std::optional<Pressure> modulus;
  std::optional<double> friction_factor;
  std::optional<double> hazen_williams_c;
  PipeMaterial material = PipeMaterial::Unknown;
  std::optional<SourcePosition>
      choose;  // where the file says `size: choose`: no size to solve with
};

struct PathPoint {
  Length distance;  // horizontal, from the start of the pipe
  Elevation elevation;
  SourcePosition position = {};
};

/// A fitting of the list, resolved: loss coefficient on the pipe's own velocity head.
struct Fitting {
  std::string name;  // catalogue name, or "k"
  int count = 1;
  double loss_coefficient = 0.0;  // of one piece
  bool one_way = false;
  std::optional<Velocity> lifting_velocity;  // below it the loss stays what it is there
  Length opening_head;                       // spring checks; 0 for all others
  Placement place;
  SourcePosition position;
};

enum class ValveType { Gate, Ball };

struct Valve {
  ValveType type = ValveType::Gate;
  double open = 1.0;  // gate: share of the stem's travel; ball: 1 - angle / 90 degrees
  bool shut = false;
  std::optional<Placement> place;
  SourcePosition position;
};

/// A pipe open to the air from above at one point. Without a top it lets air in and no water out.
struct Vent {
  Length distance;
  std::optional<Elevation> top;
};

/// Holds the pressure just below it at or under `set`; makes the pipe one-way.
struct Regulator {
  Placement place;
  Pressure set;  // gauge
};

enum class TankEntry { Rim, Bottom };
enum class Lies { Unsaid, Buried, Grass, Sun };

struct Pipe {
  std::string name;
  std::size_t from = 0;  // index into Farm::places
  std::size_t to = 0;
  PipeSize size;
  Length length;                // along the pipe, slope length
  std::vector<PathPoint> path;  // empty: runs straight between its ends
  std::vector<Fitting> fittings;
  std::optional<Valve> valve;
  bool one_way = false;
  std::vector<Vent> vents;
  std::optional<Regulator> regulator;
  std::optional<Elevation> ends;  // level of the `to` end
  std::optional<TankEntry> enters;
  std::optional<double> entrance_k;
  std::optional<double> exit_k;
  Lies lies = Lies::Unsaid;
  Instrument surveyed_with = Instrument::Unsaid;  // its path; Unsaid: as the farm
  SourcePosition position;
};

/// A float valve that stays open from a day on.
struct FloatBreak {
  std::size_t place = 0;  // index into Farm::places: a trough, or a tank with a float inlet
  Date on;
  SourcePosition position;
};

struct Farm {
  std::string file;  // name of the file it was read from, as the user gave it
  std::string name;
  UnitSystem show = UnitSystem::Metric;
  std::optional<std::string> datum;
  Site site;
  std::optional<MonthSeries<Temperature>> air;  // mean air temperature, from `weather`
  std::optional<Weather> weather;
  std::vector<Place> places;
  std::vector<Pipe> pipes;
  std::vector<Pump> pumps;
  std::vector<Ram> rams;
  std::vector<FloatBreak> breaks;
  std::vector<Measurement> measured;
  std::vector<PipePrice> pipe_prices;
  std::vector<FittingPrice> fitting_prices;
  std::vector<PipeStock> stock;
  Instrument surveyed_with = Instrument::Unsaid;
  std::optional<std::string> surveyed_by;
  std::vector<std::string> notes;  // what was assumed while reading, one sentence each
};

/// The place of that name, by its index.
[[nodiscard]] std::optional<std::size_t> place_named(const Farm& farm, std::string_view name);

/// Level of a pipe's two ends [points on the datum], by FORMAT.md: `ends`, then the path's first or
/// last point, then the place's own level or intake. For a trough or an outlet the place's level.
/// Levels that vary with the month are taken for `month`.
[[nodiscard]] Elevation from_end_level(const Farm& farm,
                                       const Pipe& pipe,
                                       std::optional<Month> month);
[[nodiscard]] Elevation to_end_level(const Farm& farm,
                                     const Pipe& pipe,
                                     std::optional<Month> month);

}  // namespace leat::model
