#include "render/commands/season/season_csv.h"

#include <optional>
#include <vector>

#include <fmt/format.h>

#include "render/commands/solve/csv_report.h"
#include "render/words/number_text.h"
#include "render/words/why_short.h"

namespace leat::render {

namespace {

constexpr int volume_decimals = 4;  // of m3: a tenth of a litre
constexpr int error_decimals = 9;
constexpr int length_decimals = 4;
constexpr int share_decimals = 4;
constexpr int hour_decimals = 3;
constexpr int day_decimals = 3;

std::string volume_cell(double volume_m3) {
  return cell_text(volume_m3, volume_decimals);
}

std::string date_cell(const std::optional<model::Date>& date) {
  return date ? model::date_text(*date) : std::string();
}

std::string levels_of(const std::string& name, const std::vector<solver::DatedLevel>& levels) {
  std::string text;
  for (const solver::DatedLevel& level : levels) {
    text += csv_line({name, model::date_text(level.on), cell_text(level.level_m, length_decimals)});
  }
  return text;
}

}  // namespace

std::string season_troughs_csv(const model::Farm& farm,
                               const solver::SeasonAnswer& answer,
                               model::UnitSystem units) {
  std::string text = csv_line({"name",
                               "first_dry",
                               "longest_dry_h",
                               "month",
                               "got_m3",
                               "need_m3",
                               "met",
                               "dry_h",
                               "reason",
                               "year"});
  for (const solver::TroughSeason& trough : answer.troughs) {
    for (const solver::MonthAtTrough& month : trough.months) {
      text += csv_line({farm.places.at(trough.place).name,
                        date_cell(trough.first_dry),
                        cell_text(trough.longest_dry_h, hour_decimals),
                        std::string(model::name_of(month.month)),
                        volume_cell(month.got_m3),
                        volume_cell(month.need_m3),
                        cell_text(month.met, share_decimals),
                        cell_text(month.dry_h, hour_decimals),
                        month.reason ? why_short_text(*month.reason, units) : std::string(),
                        fmt::format("{}", month.year)});
    }
  }
  return text;
}

std::string season_tanks_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  std::string text = csv_line({"name", "lowest_m", "lowest_on", "days_alone"});
  for (const solver::TankSeason& tank : answer.tanks) {
    text += csv_line({farm.places.at(tank.place).name,
                      cell_text(tank.lowest_m, length_decimals),
                      model::date_text(tank.lowest_on),
                      cell_text(tank.days_alone, day_decimals)});
  }
  return text;
}

std::string season_ponds_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  std::string text = csv_line({"name",
                               "filled_on",
                               "lowest_m",
                               "fill_m3",
                               "rain_m3",
                               "runoff_m3",
                               "evaporation_m3",
                               "seepage_m3",
                               "stock_m3",
                               "spilled_m3"});
  for (const solver::PondSeason& pond : answer.ponds) {
    text += csv_line({farm.places.at(pond.place).name,
                      date_cell(pond.filled_on),
                      cell_text(pond.lowest_m, length_decimals),
                      volume_cell(pond.fill_m3),
                      volume_cell(pond.rain_m3),
                      volume_cell(pond.runoff_m3),
                      volume_cell(pond.evaporation_m3),
                      volume_cell(pond.seepage_m3),
                      volume_cell(pond.stock_m3),
                      volume_cell(pond.spilled_m3)});
  }
  return text;
}

std::string season_levels_csv(const model::Farm& farm, const solver::SeasonAnswer& answer) {
  std::string text = csv_line({"name", "on", "level_m"});
  for (const solver::TankSeason& tank : answer.tanks) {
    text += levels_of(farm.places.at(tank.place).name, tank.levels);
  }
  for (const solver::PondSeason& pond : answer.ponds) {
    text += levels_of(farm.places.at(pond.place).name, pond.levels);
  }
  return text;
}

std::string season_balance_csv(const solver::SeasonAnswer& answer) {
  return csv_line({"in_m3", "out_m3", "stored_m3", "spilled_m3", "lost_m3", "error_m3"}) +
         csv_line({volume_cell(answer.balance.in_m3),
                   volume_cell(answer.balance.out_m3),
                   volume_cell(answer.balance.stored_m3),
                   volume_cell(answer.balance.spilled_m3),
                   volume_cell(answer.balance.lost_m3),
                   cell_text(answer.balance.error_m3, error_decimals)});
}

}  // namespace leat::render
