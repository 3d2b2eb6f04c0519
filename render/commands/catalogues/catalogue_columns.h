// What is told of a row of the catalogues: pipe sizes, fittings, what stock drink.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/catalogue/fitting_catalogue.h"
#include "model/catalogue/herd_catalogue.h"
#include "model/catalogue/pipe_catalogue.h"
#include "render/document/columns.h"

namespace leat::render {

/// One of the rows of a kind of stock.
struct HerdCatalogueRow {
  const model::CatalogueAnimal& animal;
  std::size_t index = 0;

  [[nodiscard]] const model::HerdRow& row() const { return animal.rows[index]; }
  /// Whether the amount depends on the air.
  [[nodiscard]] bool is_by_air() const { return animal.rows.size() > 1; }
  [[nodiscard]] Volume per_day() const { return row().per_head_per_day * animal.heads_per_unit; }
};

[[nodiscard]] std::vector<HerdCatalogueRow> herd_catalogue_rows();

/// The bore lifting velocities and K are shown at: 1 in schedule 40, the C1 row nearest 1 in.
inline constexpr Length shown_bore = millimetres(26.6);
/// K of one piece there; none for a change of bore, whose K needs both bores.
[[nodiscard]] std::optional<double> k_at_shown_bore(const model::CatalogueFitting& fitting);

[[nodiscard]] const Columns<model::CataloguePipe>& catalogue_pipe_columns();
[[nodiscard]] const Columns<model::CatalogueFitting>& catalogue_fitting_columns();
[[nodiscard]] const Columns<HerdCatalogueRow>& catalogue_herd_columns();

}  // namespace leat::render
