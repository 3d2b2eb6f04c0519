// What is told of a season: its troughs and their months, stores, pumps and rams, broken siphons,
// who goes short first, where the water went.
#pragma once

#include <vector>

#include "model/farm/farm.h"
#include "render/commands/season/season_columns.h"
#include "render/document/columns.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

struct TroughSeasonRow {
  const model::Farm& farm;
  const solver::TroughSeason& trough;
  SeasonCell whole;                                     // of all its months
  model::UnitSystem units = model::UnitSystem::Metric;  // of its sentences
};

struct MonthRow {
  const solver::MonthAtTrough& answer;
  model::UnitSystem units = model::UnitSystem::Metric;  // of its reason
};

/// Something of a farm that a season tells of.
template <class Answer>
struct SeasonRow {
  const model::Farm& farm;
  const Answer& answer;
};

using TankSeasonRow = SeasonRow<solver::TankSeason>;
using PondSeasonRow = SeasonRow<solver::PondSeason>;
using BrokenSiphonRow = SeasonRow<solver::SiphonBroken>;
using FirstShortRow = SeasonRow<solver::FirstShort>;

template <class Answer>
std::vector<SeasonRow<Answer>> season_rows(const model::Farm& farm,
                                           const std::vector<Answer>& answers) {
  std::vector<SeasonRow<Answer>> rows;
  for (const Answer& answer : answers) {
    rows.push_back({farm, answer});
  }
  return rows;
}

[[nodiscard]] std::vector<TroughSeasonRow> trough_season_rows(const model::Farm& farm,
                                                              const solver::SeasonAnswer& answer,
                                                              model::UnitSystem units);
[[nodiscard]] std::vector<MonthRow> month_rows(const TroughSeasonRow& trough);
/// The pumps, or the rams, of a season in the farm's order.
[[nodiscard]] std::vector<solver::LifterSeason> season_pumps(const solver::SeasonAnswer& answer);
[[nodiscard]] std::vector<solver::LifterSeason> season_rams(const solver::SeasonAnswer& answer);

[[nodiscard]] const Columns<solver::WaterBalance>& balance_columns();
[[nodiscard]] const Columns<MonthRow>& month_columns();
[[nodiscard]] const Columns<TroughSeasonRow>& trough_season_columns();
[[nodiscard]] const Columns<solver::DatedLevel>& dated_level_columns();
[[nodiscard]] const Columns<TankSeasonRow>& tank_season_columns();
[[nodiscard]] const Columns<PondSeasonRow>& pond_season_columns();
[[nodiscard]] const Columns<solver::LifterSeason>& season_pump_columns();
[[nodiscard]] const Columns<solver::LifterSeason>& season_ram_columns();
[[nodiscard]] const Columns<BrokenSiphonRow>& broken_siphon_columns();
[[nodiscard]] const Columns<FirstShortRow>& first_short_columns();

}  // namespace leat::render
