#include "render/commands/season/season_water_report.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/season/season_answer_columns.h"
#include "render/document/text_table.h"
#include "render/words/number_text.h"
#include "render/words/table_cells.h"
#include "render/words/volume_scale.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

constexpr double days_a_week = 7.0;
constexpr double days_a_year = 365.25;
constexpr double days_a_month = days_a_year / 12.0;

double days_of(const solver::SeasonAnswer& answer) {
  return std::max(1, model::day_number(answer.to) - model::day_number(answer.from) + 1);
}

std::string filled_cell(const solver::PondSeason& pond) {
  return pond.filled_on ? model::date_text(*pond.filled_on) : "never";
}

std::string days_to_fill(const solver::SeasonAnswer& answer, const solver::PondSeason& pond) {
  if (!pond.filled_on) {
    return "-";
  }
  const int days = model::day_number(*pond.filled_on) - model::day_number(answer.from);
  return fmt::format("{} day{}", std::max(0, days), days == 1 ? "" : "s");
}

TextTable pond_rates(const model::Farm& farm,
                     const solver::PondSeason& pond,
                     double days,
                     model::UnitSystem units) {
  const std::vector<PondCause> causes = pond_causes(pond);
  double greatest_m3 = 0.0;
  for (const PondCause& cause : causes) {
    greatest_m3 = std::max(greatest_m3, cause.volume_m3);
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  std::vector<Row> rows;
  for (const PondCause& cause : causes) {
    const double a_day_m3 = cause.volume_m3 / days;
    rows.push_back({cause.name,
                    volume_text(a_day_m3, scale),
                    volume_text(a_day_m3 * days_a_week, scale),
                    volume_text(a_day_m3 * days_a_month, scale),
                    volume_text(a_day_m3 * days_a_year, scale),
                    volume_text(cause.volume_m3, scale)});
  }
  return {{{fmt::format("{}, {}", cut_to_width(farm.places.at(pond.place).name, 16), scale.unit),
            Align::Left},
           {"a day", Align::Right},
           {"a week", Align::Right},
           {"a month", Align::Right},
           {"a year", Align::Right},
           {"this season", Align::Right}},
          rows};
}

}  // namespace

std::vector<PondCause> pond_causes(const solver::PondSeason& pond) {
  const bool gains = pond.fill_m3 >= 0.0;
  return {{gains ? "pipes bring" : "pipes draw", std::abs(pond.fill_m3), gains},
          {"rain brings", pond.rain_m3, true},
          {"runoff brings", pond.runoff_m3, true},
          {"sun takes", pond.evaporation_m3, false},
          {"seepage takes", pond.seepage_m3, false},
          {"stock drink", pond.stock_m3, false},
          {"runs over", pond.spilled_m3, false}};
}

TextTable tanks_table(const model::Farm& farm,
                      const solver::SeasonAnswer& answer,
                      model::UnitSystem units) {
  if (answer.tanks.empty()) {
    return {};
  }
  double greatest_m3 = 0.0;
  for (const solver::TankSeason& tank : answer.tanks) {
    greatest_m3 = std::max(greatest_m3, tank.spilled_m3);
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  return table_of(tank_season_columns(),
                  {{"tanks", "name"},
                   {"lowest", "lowest_m"},
                   {"on", "lowest_on", {}, Align::Right},
                   {"full, carries alone",
                    "days_alone",
                    [](const TankSeasonRow& row, model::UnitSystem) {
                      const std::optional<double>& days = row.answer.days_alone;
                      return days ? significant_text(*days) + " days" : "-";
                    }},
                   {fmt::format("runs over, {}", scale.unit),
                    "spilled_m3",
                    [&](const TankSeasonRow& row, model::UnitSystem) {
                      return volume_text(row.answer.spilled_m3, scale);
                    }}},
                  season_rows(farm, answer.tanks),
                  units);
}

std::vector<TextTable> pond_tables(const model::Farm& farm,
                                   const solver::SeasonAnswer& answer,
                                   model::UnitSystem units) {
  if (answer.ponds.empty()) {
    return {};
  }
  const auto level_at =
      [](const std::vector<solver::DatedLevel>& levels, bool at_first, model::UnitSystem read_in) {
        if (levels.empty()) {
          return std::string("-");
        }
        return level_cell((at_first ? levels.front() : levels.back()).level_m, read_in);
      };
  std::vector<TextTable> tables{table_of(
      pond_season_columns(),
      {{"ponds", "name"},
       {"at first",
        "levels",
        [&](const PondSeasonRow& row, model::UnitSystem read_in) {
          return level_at(row.answer.levels, true, read_in);
        },
        Align::Right},
       {"lowest", "lowest_m"},
       {"on", "lowest_on", {}, Align::Right},
       {"at last",
        "levels",
        [&](const PondSeasonRow& row, model::UnitSystem read_in) {
          return level_at(row.answer.levels, false, read_in);
        },
        Align::Right},
       {"full on",
        "filled_on",
        [](const PondSeasonRow& row, model::UnitSystem) { return filled_cell(row.answer); },
        Align::Right},
       {"after",
        "filled_on",
        [&](const PondSeasonRow& row, model::UnitSystem) {
          return days_to_fill(answer, row.answer);
        },
        Align::Right}},
      season_rows(farm, answer.ponds),
      units)};
  for (const solver::PondSeason& pond : answer.ponds) {
    tables.push_back(pond_rates(farm, pond, days_of(answer), units));
  }
  return tables;
}

std::string pond_remark(const solver::SeasonAnswer& answer) {
  return answer.ponds.empty() || days_of(answer) >= 365.0
             ? ""
             : "A day, week, month and year are what this season comes to on the average; other "
               "seasons bring and take other amounts.";
}

TextTable lifted_table(const solver::SeasonAnswer& answer, model::UnitSystem units) {
  if (answer.lifters.empty()) {
    return {};
  }
  double greatest_m3 = 0.0;
  for (const solver::LifterSeason& lifter : answer.lifters) {
    greatest_m3 = std::max({greatest_m3, lifter.delivered_m3, lifter.wasted_m3});
  }
  const VolumeScale scale = volume_scale(greatest_m3, units);
  std::vector<Row> rows;
  for (const solver::LifterSeason& lifter : answer.lifters) {
    rows.push_back({lifter.name,
                    lifter.is_ram ? "ram" : "pump",
                    volume_text(lifter.delivered_m3, scale),
                    lifter.is_ram ? volume_text(lifter.wasted_m3, scale) : "-",
                    decimal_text(lifter.running_h, 0) + " h",
                    lifter.energy_kWh ? significant_text(*lifter.energy_kWh) + " kWh" : "-"});
  }
  return {{{fmt::format("lifted, {}", scale.unit), Align::Left},
           {"", Align::Left},
           {"delivers", Align::Right},
           {"wastes", Align::Right},
           {"runs", Align::Right},
           {"energy", Align::Right}},
          rows};
}

std::string balance_sentence(const solver::SeasonAnswer& answer, model::UnitSystem units) {
  const solver::WaterBalance& balance = answer.balance;
  constexpr double a_drop_m3 = 1e-4;
  const auto said = [units](double volume_m3) {
    return std::abs(volume_m3) < a_drop_m3 ? std::string("nothing")
                                           : solver::spoken_volume(volume_m3, units);
  };
  constexpr double worth_a_word = 1e-6;  // of what moved: what the balance is to close within
  const bool gains = balance.stored_m3 >= 0.0;
  std::string text = fmt::format(
      "Where the water went: {} came in; {} was drunk or delivered, {} ran over or to waste, sun "
      "and seepage took {}; tanks, troughs and ponds hold {}.",
      said(balance.in_m3),
      said(balance.out_m3),
      said(balance.spilled_m3),
      said(balance.lost_m3),
      std::abs(balance.stored_m3) < worth_a_word * balance.moved_m3
          ? std::string("as much as at the start")
          : fmt::format("{} {} than at the start",
                        said(std::abs(balance.stored_m3)),
                        gains ? "more" : "less"));
  if (std::abs(balance.error_m3) >= a_drop_m3 &&
      std::abs(balance.error_m3) > worth_a_word * balance.moved_m3) {
    text += fmt::format(" {} of it does not add up.", said(std::abs(balance.error_m3)));
  }
  return text;
}

}  // namespace leat::render
