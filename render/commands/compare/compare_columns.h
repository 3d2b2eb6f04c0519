// What is told of one of the farms that are compared.
#pragma once

#include <vector>

#include "render/commands/compare/compare_report.h"
#include "render/document/columns.h"

namespace leat::render {

struct ComparedFarmRow {
  const ComparedFile& file;
  const solver::ComparedFarm& found;
  model::UnitSystem units = model::UnitSystem::Metric;  // of the sentences
};

/// A trough, outlet or pond of one of the farms.
struct ComparedPlaceRow {
  const ComparedFarmRow& farm;
  std::size_t place = 0;

  [[nodiscard]] const model::Place& named() const { return farm.file.farm->places[place]; }
  [[nodiscard]] const solver::PlaceAnswer& water() const { return farm.found.answer.places[place]; }
};

[[nodiscard]] std::vector<ComparedFarmRow> compared_farm_rows(const CompareView& view);

/// The lowest level of a pond over the season; none of other places, or without a season.
[[nodiscard]] std::optional<double> lowest_of_pond_m(const solver::ComparedFarm& found,
                                                     std::size_t place);

[[nodiscard]] const Columns<ComparedFarmRow>& compared_farm_columns();
[[nodiscard]] const Columns<ComparedPlaceRow>& compared_place_columns();
[[nodiscard]] const Columns<solver::StartingEffort>& starting_columns();
[[nodiscard]] const Columns<solver::MovingParts>& moving_parts_columns();

}  // namespace leat::render
