#include "render/commands/season/season_answer_columns.h"

#include <string>

#include "render/words/why_short.h"

namespace leat::render {

namespace {

using solver::DatedLevel;
using solver::LifterSeason;
using solver::MonthAtTrough;
using solver::WaterBalance;

/// "2026-08-14", or nothing.
std::string date_or_empty(const std::optional<model::Date>& date) {
  return date ? model::date_text(*date) : std::string();
}

/// Why a month is short, or nothing.
std::string reason_words(const MonthRow& row) {
  return row.answer.reason ? why_short_text(*row.answer.reason, row.units) : std::string();
}

std::vector<LifterSeason> lifters_of(const solver::SeasonAnswer& answer, bool rams) {
  std::vector<LifterSeason> found;
  for (const LifterSeason& lifter : answer.lifters) {
    if (lifter.is_ram == rams) {
      found.push_back(lifter);
    }
  }
  return found;
}

Columns<PondSeasonRow> pond_water_columns() {
  using Pond = Column<PondSeasonRow>;
  return {
      Pond::value(
          "name",
          [](const PondSeasonRow& row) { return row.farm.places.at(row.answer.place).name; },
          "as in the file"),
      Pond::text_or_null(
          "filled_on",
          [](const PondSeasonRow& row) { return date_or_empty(row.answer.filled_on); },
          "or null"),
      Pond::number("lowest_m", scale::level, in_answer(&solver::PondSeason::lowest_m), "level"),
      Pond::number("fill_m3",
                   scale::volume,
                   in_answer(&solver::PondSeason::fill_m3),
                   "by pipes, net: negative where they draw"),
      Pond::number("rain_m3", scale::volume, in_answer(&solver::PondSeason::rain_m3)),
      Pond::number("runoff_m3", scale::volume, in_answer(&solver::PondSeason::runoff_m3)),
      Pond::number("evaporation_m3", scale::volume, in_answer(&solver::PondSeason::evaporation_m3)),
      Pond::number("seepage_m3", scale::volume, in_answer(&solver::PondSeason::seepage_m3)),
      Pond::number("stock_m3", scale::volume, in_answer(&solver::PondSeason::stock_m3)),
      Pond::number("spilled_m3",
                   scale::volume,
                   in_answer(&solver::PondSeason::spilled_m3),
                   "what rain and runoff bring, sun and seepage take, stock drink, runs over"),
  };
}

Columns<PondSeasonRow> pond_level_columns() {
  using Pond = Column<PondSeasonRow>;
  return {
      Pond::list(
          "levels", dated_level_columns(), in_answer(&solver::PondSeason::levels), "as a tank's"),
      Pond::value(
          "lowest_on",
          [](const PondSeasonRow& row) { return model::date_text(row.answer.lowest_on); },
          "the day of lowest_m")
          .only_in_json(),
      Pond::value("ran_empty", in_answer(&solver::PondSeason::ran_empty), "as a tank's")
          .only_in_json(),
  };
}

}  // namespace

std::vector<TroughSeasonRow> trough_season_rows(const model::Farm& farm,
                                                const solver::SeasonAnswer& answer,
                                                model::UnitSystem units) {
  std::vector<TroughSeasonRow> rows;
  for (const solver::TroughSeason& trough : answer.troughs) {
    rows.push_back({farm, trough, cell_of(trough), units});
  }
  return rows;
}

std::vector<MonthRow> month_rows(const TroughSeasonRow& trough) {
  std::vector<MonthRow> rows;
  for (const MonthAtTrough& month : trough.trough.months) {
    rows.push_back({month, trough.units});
  }
  return rows;
}

std::vector<LifterSeason> season_pumps(const solver::SeasonAnswer& answer) {
  return lifters_of(answer, false);
}

std::vector<LifterSeason> season_rams(const solver::SeasonAnswer& answer) {
  return lifters_of(answer, true);
}

const Columns<WaterBalance>& balance_columns() {
  constexpr int error_decimals = 9;
  using Balance = Column<WaterBalance>;
  static const Columns<WaterBalance> columns = {
      Balance::number("in_m3", scale::volume, &WaterBalance::in_m3),
      Balance::number("out_m3", scale::volume, &WaterBalance::out_m3),
      Balance::number("stored_m3", scale::volume, &WaterBalance::stored_m3),
      Balance::number("spilled_m3", scale::volume, &WaterBalance::spilled_m3),
      Balance::number("lost_m3", scale::volume, &WaterBalance::lost_m3),
      Balance::number(
          "error_m3",
          scale::volume.with_decimals(error_decimals),
          &WaterBalance::error_m3,
          "in = out + stored + spilled + lost + error: taken from springs, creeks, rain and "
          "runoff; drunk and delivered; more in stores than at the start; run over or to waste; "
          "sun and seepage; what does not add up"),
  };
  return columns;
}

const Columns<MonthRow>& month_columns() {
  using Month = Column<MonthRow>;
  static const Columns<MonthRow> columns = {
      Month::value(
          "month",
          [](const MonthRow& row) { return model::name_of(row.answer.month); },
          "\"Aug\"; in the order of time, over several years too"),
      Month::number("got_m3", scale::volume, in_answer(&MonthAtTrough::got_m3)),
      Month::number("need_m3", scale::volume, in_answer(&MonthAtTrough::need_m3)),
      Month::number("met", scale::share, in_answer(&MonthAtTrough::met), "null without a need"),
      Month::number("dry_h",
                    scale::hours,
                    in_answer(&MonthAtTrough::dry_h),
                    "unmet volume over the need's rate"),
      Month::text_or_null("reason", reason_words, "a sentence, null where met"),
      Month::value("year", in_answer(&MonthAtTrough::year), "its year"),
  };
  return columns;
}

const Columns<TroughSeasonRow>& trough_season_columns() {
  using Trough = Column<TroughSeasonRow>;
  static const Columns<TroughSeasonRow> columns = {
      Trough::value(
          "name",
          [](const TroughSeasonRow& row) { return row.farm.places.at(row.trough.place).name; },
          "as in the file"),
      Trough::text_or_null(
          "first_dry",
          [](const TroughSeasonRow& row) { return date_or_empty(row.trough.first_dry); },
          "first day short, or null"),
      Trough::number(
          "longest_dry_h",
          scale::hours,
          [](const TroughSeasonRow& row) { return row.trough.longest_dry_h; },
          "the longest spell without enough"),
      Trough::list("months", month_columns(), month_rows, "{keys}"),
      Trough::number(
          "got_m3", scale::volume, [](const TroughSeasonRow& row) { return row.whole.got_m3; })
          .only_in_json(),
      Trough::number(
          "need_m3", scale::volume, [](const TroughSeasonRow& row) { return row.whole.need_m3; })
          .only_in_json(),
      Trough::number("met", scale::share, [](const TroughSeasonRow& row) { return row.whole.met; })
          .only_in_json(),
      Trough::number(
          "dry_h",
          scale::hours,
          [](const TroughSeasonRow& row) { return row.whole.dry_h; },
          "of all its months")
          .only_in_json(),
  };
  return columns;
}

const Columns<DatedLevel>& dated_level_columns() {
  static const Columns<DatedLevel> columns = {
      Column<DatedLevel>::value("on",
                                [](const DatedLevel& level) { return model::date_text(level.on); }),
      Column<DatedLevel>::number("level_m", scale::level, &DatedLevel::level_m, "at midnight"),
  };
  return columns;
}

const Columns<TankSeasonRow>& tank_season_columns() {
  using Tank = Column<TankSeasonRow>;
  static const Columns<TankSeasonRow> columns = {
      Tank::value(
          "name",
          [](const TankSeasonRow& row) { return row.farm.places.at(row.answer.place).name; },
          "as in the file"),
      Tank::number("lowest_m", scale::level, in_answer(&solver::TankSeason::lowest_m), "level"),
      Tank::value(
          "lowest_on",
          [](const TankSeasonRow& row) { return model::date_text(row.answer.lowest_on); },
          "its day"),
      Tank::number("days_alone",
                   scale::days,
                   in_answer(&solver::TankSeason::days_alone),
                   "how long, full, it carries what is drawn in the driest month; null where "
                   "nothing is"),
      Tank::number(
          "spilled_m3", scale::volume, in_answer(&solver::TankSeason::spilled_m3), "what runs over")
          .only_in_json(),
      Tank::value("ran_empty",
                  in_answer(&solver::TankSeason::ran_empty),
                  "whether it came down to its lowest mouth, without one to its bottom")
          .only_in_json(),
      Tank::list("levels", dated_level_columns(), in_answer(&solver::TankSeason::levels), "{keys}"),
  };
  return columns;
}

const Columns<PondSeasonRow>& pond_season_columns() {
  static const Columns<PondSeasonRow> columns = joined(pond_water_columns(), pond_level_columns());
  return columns;
}

const Columns<LifterSeason>& season_pump_columns() {
  using Pump = Column<LifterSeason>;
  static const Columns<LifterSeason> columns = {
      Pump::value("name", &LifterSeason::name, "as in the file"),
      Pump::number("delivered_m3", scale::volume, &LifterSeason::delivered_m3),
      Pump::number("running_h",
                   scale::hours,
                   &LifterSeason::running_h,
                   "what it lifted, and for how long it ran"),
      Pump::number("energy_kWh",
                   scale::ratio,
                   &LifterSeason::energy_kWh,
                   "null where its efficiency is not given"),
  };
  return columns;
}

const Columns<LifterSeason>& season_ram_columns() {
  using Ram = Column<LifterSeason>;
  static const Columns<LifterSeason> columns = {
      Ram::value("name", &LifterSeason::name, "as in the file"),
      Ram::number("delivered_m3", scale::volume, &LifterSeason::delivered_m3),
      Ram::number("wasted_m3", scale::volume, &LifterSeason::wasted_m3),
      Ram::number("running_h",
                  scale::hours,
                  &LifterSeason::running_h,
                  "what it lifted, what ran to waste, for how long it ran"),
  };
  return columns;
}

const Columns<BrokenSiphonRow>& broken_siphon_columns() {
  using Broken = Column<BrokenSiphonRow>;
  static const Columns<BrokenSiphonRow> columns = {
      Broken::value(
          "spring",
          [](const BrokenSiphonRow& row) { return row.farm.places.at(row.answer.spring).name; },
          "the place its pipe leaves"),
      Broken::value(
          "on",
          [](const BrokenSiphonRow& row) { return model::date_text(row.answer.on); },
          "the day"),
      Broken::value(
          "pipe",
          [](const BrokenSiphonRow& row) { return row.farm.pipes.at(row.answer.pipe).name; },
          "shut from then on"),
      Broken::value("parted",
                    in_answer(&solver::SiphonBroken::parted),
                    "true where it parted at a summit, else it drew air at its spring"),
      Broken::value(
          "high_pipe",
          [](const BrokenSiphonRow& row) { return row.farm.pipes.at(row.answer.high_pipe).name; }),
      Broken::number("high_at_m",
                     scale::length,
                     in_answer(&solver::SiphonBroken::high_at_m),
                     "where that summit, or the high point beyond the spring, is"),
  };
  return columns;
}

const Columns<FirstShortRow>& first_short_columns() {
  using First = Column<FirstShortRow>;
  static const Columns<FirstShortRow> columns = {
      First::value(
          "name",
          [](const FirstShortRow& row) { return row.farm.places.at(row.answer.place).name; },
          "as in the file"),
      First::number("yield_L_s",
                    scale::flow,
                    in_answer(&solver::FirstShort::yield_m3_s),
                    "below which it goes short"),
  };
  return columns;
}

}  // namespace leat::render
