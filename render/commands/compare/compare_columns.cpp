#include "render/commands/compare/compare_columns.h"

#include <string>
#include <variant>

#include "render/commands/solve/answer_columns.h"

namespace leat::render {

namespace {

using solver::MovingParts;
using solver::StartingEffort;

std::vector<ComparedPlaceRow> place_rows_of(const ComparedFarmRow& row) {
  std::vector<ComparedPlaceRow> rows;
  for (std::size_t i = 0; i < row.found.answer.places.size(); ++i) {
    if (model::is_point_of_use(row.file.farm->places[i])) {
      rows.push_back({row, i});
    }
  }
  return rows;
}

const char* word_of(solver::PrimeNeed need) {
  switch (need) {
    case solver::PrimeNeed::FillsItself:
      return "fills itself";
    case solver::PrimeNeed::ByHand:
      return "by hand";
    case solver::PrimeNeed::CannotHold:
      return "cannot hold";
  }
  return "";
}

Columns<ComparedFarmRow> figure_columns() {
  using Farm = Column<ComparedFarmRow>;
  constexpr int hour_decimals = 2;
  constexpr int amount_decimals = 3;
  return {
      Farm::value(
          "file", [](const ComparedFarmRow& row) { return row.file.file; }, "as given"),
      Farm::value(
          "farm", [](const ComparedFarmRow& row) { return row.file.farm->name; }, "its name"),
      Farm::number(
          "flow_L_s",
          scale::flow,
          [](const ComparedFarmRow& row) { return row.found.flow_m3_s; },
          "what troughs, outlets and ponds get from their pipes, case `needs`, in the common "
          "month: `--month`, else the driest month of the first farm that has one"),
      Farm::number(
          "met",
          scale::share,
          [](const ComparedFarmRow& row) { return row.found.met; },
          "all that is got of all that is needed, at most 1, a trough's plenty filling no "
          "other; null where nothing is needed"),
      Farm::number(
          "dry_h",
          scale::hours.with_decimals(hour_decimals),
          [](const ComparedFarmRow& row) { return row.found.dry_h; },
          "hours dry over the season, summed over troughs and outlets; null without a "
          "season's answer"),
      Farm::number(
          "energy_kWh",
          scale::ratio.with_decimals(amount_decimals),
          [](const ComparedFarmRow& row) { return row.found.energy_kWh; },
          "of pumps: 0 without one, null where a pump's efficiency is not given"),
      Farm::number(
          "wasted_m3",
          scale::volume.with_decimals(amount_decimals),
          [](const ComparedFarmRow& row) { return row.found.wasted_m3; },
          "by rams: 0 without one"),
  };
}

Columns<ComparedFarmRow> list_columns() {
  using Farm = Column<ComparedFarmRow>;
  return {
      Farm::list(
          "flags",
          flag_columns(),
          [](const ComparedFarmRow& row) { return flag_rows(row.found.flags, row.units); },
          "of the steady answer, and those of the season whose code and place it has not"),
      Farm::list(
          "places", compared_place_columns(), place_rows_of, "troughs, outlets and ponds: {keys}"),
      Farm::object(
          "starting",
          starting_columns(),
          [](const ComparedFarmRow& row) { return row.found.starting; },
          "what it takes to start the line `leat prime` takes by itself, null where none can be "
          "planned: {keys}")
          .only_in_json(),
      Farm::object(
          "parts",
          moving_parts_columns(),
          [](const ComparedFarmRow& row) { return std::optional(row.found.parts); },
          "what moves and wears: {keys}")
          .only_in_json(),
  };
}

}  // namespace

std::vector<ComparedFarmRow> compared_farm_rows(const CompareView& view) {
  std::vector<ComparedFarmRow> rows;
  for (std::size_t i = 0; i < view.files.size(); ++i) {
    rows.push_back({view.files[i], view.comparison->farms[i], view.units});
  }
  return rows;
}

std::optional<double> lowest_of_pond_m(const solver::ComparedFarm& found, std::size_t place) {
  if (found.season) {
    for (const solver::PondSeason& pond : found.season->ponds) {
      if (pond.place == place) {
        return pond.lowest_m;
      }
    }
  }
  return std::nullopt;
}

const Columns<ComparedPlaceRow>& compared_place_columns() {
  using Place = Column<ComparedPlaceRow>;
  static const Columns<ComparedPlaceRow> columns = {
      Place::value(
          "name", [](const ComparedPlaceRow& row) { return row.named().name; }, "as in the file"),
      Place::number(
          "got_L_s",
          scale::flow,
          [](const ComparedPlaceRow& row) {
            return solver::water_got_m3_s(row.named(), row.water());
          },
          "from its pipes"),
      Place::number(
          "met",
          scale::share,
          [](const ComparedPlaceRow& row) { return row.water().met; },
          "null without a need"),
      Place::text_or_null(
          "first_dry",
          [](const ComparedPlaceRow& row) {
            const auto first = solver::first_dry_of(row.farm.found, row.place);
            return first ? model::date_text(*first) : std::string();
          },
          "the season's first day short, or null"),
      Place::number(
          "lowest_m",
          scale::level,
          [](const ComparedPlaceRow& row) { return lowest_of_pond_m(row.farm.found, row.place); },
          "a pond's level over the season, else null"),
  };
  return columns;
}

const Columns<StartingEffort>& starting_columns() {
  static const Columns<StartingEffort> columns = {
      Column<StartingEffort>::value(
          "need",
          [](const StartingEffort& effort) { return word_of(effort.need); },
          "fills itself, by hand or cannot hold"),
      Column<StartingEffort>::number(
          "water_m3", scale::volume, &StartingEffort::water_m3, "to have ready"),
  };
  return columns;
}

const Columns<MovingParts>& moving_parts_columns() {
  using Part = Column<MovingParts>;
  static const Columns<MovingParts> columns = {
      Part::value("floats", &MovingParts::floats),
      Part::value("foot_valves", &MovingParts::foot_valves),
      Part::value("checks", &MovingParts::checks),
      Part::value("regulators", &MovingParts::regulators),
      Part::value("rams", &MovingParts::rams),
      Part::value("pumps", &MovingParts::pumps, "how many"),
  };
  return columns;
}

const Columns<ComparedFarmRow>& compared_farm_columns() {
  static const Columns<ComparedFarmRow> columns = joined(figure_columns(), list_columns());
  return columns;
}

}  // namespace leat::render
