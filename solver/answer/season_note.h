// What a season took for granted, and what it cannot know: one value a note. Sentences:
// render/words/season_notes.h.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "model/farm/date.h"
#include "model/farm/month_series.h"
#include "solver/answer/frost.h"
#include "solver/answer/store_note.h"

namespace leat::solver {

/// What a map of months or a record tells.
enum class SeriesKind {
  Yield,
  Surface,
  CreekFlow,
  SpareWater,
  Need,
  WishedFlow,
  Heads,
  WaterTemperature,
  LowestAir,
  HighestAir,
  Rain,
  RainDays,
  PanEvaporation,
  Wind,
  Humidity,
  Sunshine
};

/// A series and whose it is.
struct SeriesName {
  SeriesKind kind = SeriesKind::Yield;
  std::string place;   // empty: the site's or the weather's
  std::string animal;  // of heads
};

/// Months of the season that a map did not give, and how they were filled.
struct MonthsFilled {
  SeriesName series;
  std::array<bool, 12> months{};
  model::GapRule rule = model::GapRule::Straight;
};

/// The season reaches beyond a record; its months stand there: the mean or the lowest measured.
struct BeyondRecord {
  SeriesName series;
  model::Date first;
  model::Date last;
  model::GapRule rule = model::GapRule::Straight;
};

/// A long time in which nothing was measured.
struct RecordGap {
  SeriesName series;
  model::Date from;
  model::Date to;
};

/// Some days of a season.
struct DayCount {
  int days = 0;
  int of = 0;  // all days of the season
};

/// How a day's evaporation was found: the best its weather allows.
enum class EvaporationMethod {
  Pan,             // the pan's loss times its coefficient
  PenmanMonteith,  // FAO-56 equation 6: latitude, temperatures, and wind, humidity or sunshine
  Hargreaves,      // FAO-56 equation 52: latitude and temperatures alone
  Nothing,         // nothing tells of it: none is counted
};

struct EvaporationLeftOut {
  bool lacks_latitude_alone = false;
};
struct EvaporationReckoned {
  std::array<int, 4> days_by_method{};  // by EvaporationMethod
  int days = 0;                         // all
  double pan_coefficient = 0.0;
};
struct RainUntold {
  DayCount days;
};
/// Days without a measurement between measured ones.
struct WeatherBridged {
  DayCount days;
  int widest_days = 0;  // the longest gap that is bridged
};
/// The month's rain was laid out over its days with rain.
struct StormsByMonth {
  DayCount days;
};
/// Rain is known, but not on which days it fell.
struct RunoffUncounted {
  DayCount days;
};
/// What stock drink depends on a warmth that nothing tells.
struct WarmthUntold {
  DayCount days;
};
struct PondWithoutShape {
  std::string pond;
};
struct SeepageLeftOut {
  std::string pond;
};
struct SeepageOfSoil {
  std::string pond;
  std::string soil;
  double middle_mm_day = 0.0;
  double low_mm_day = 0.0;
  double high_mm_day = 0.0;
};
/// A pond loses more through its bed than a sound one.
struct BedLoses {
  std::string pond;
  double a_day_m = 0.0;
  bool is_leak = false;
};

/// Of a pump only how many hours a day it runs is known.
struct PumpAroundNoon {
  std::string pump;
};
/// A trough or outlet is short at every yield that was tried.
struct ShortAtAnyYield {
  std::string place;
  std::string spring;
};

/// No lowest temperature is told.
struct FrostUntold {};
struct FrostNights {
  std::vector<FrostMonth> months;
  std::optional<FrostNight> coldest;
};
/// The water's temperature is not told; in frost it is taken for this.
struct ColdSpringTaken {
  double water_C = 0.0;
};
/// How far what is said of frost may be trusted.
struct FrostRules {};
struct FrostAtTroughs {
  std::vector<std::string> troughs;         // at least one
  std::optional<double> least_inflow_m3_s;  // none: the water is too cold for any
  double water_C = 0.0;
  double hole_m2 = 0.0;  // that is to stay open
};
struct VentsInFrost {};
/// Tees that every pipe leaves upward.
struct LowTees {
  std::vector<std::string> tees;
};

using SeasonNote = std::variant<MonthsFilled,
                                BeyondRecord,
                                RecordGap,
                                EvaporationLeftOut,
                                EvaporationReckoned,
                                RainUntold,
                                WeatherBridged,
                                StormsByMonth,
                                RunoffUncounted,
                                WarmthUntold,
                                PondWithoutShape,
                                SeepageLeftOut,
                                SeepageOfSoil,
                                BedLoses,
                                PumpAroundNoon,
                                ShortAtAnyYield,
                                FrostUntold,
                                FrostNights,
                                ColdSpringTaken,
                                FrostRules,
                                FrostAtTroughs,
                                VentsInFrost,
                                LowTees,
                                StoreNote>;

}  // namespace leat::solver
