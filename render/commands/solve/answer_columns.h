// What every command tells of a place, a pipe, a finding, a problem: the columns of their rows.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"
#include "render/document/columns.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// A place of the farm and what it sees.
struct PlaceRow {
  const model::Place& place;
  const solver::PlaceAnswer& answer;
};

struct PipeRow {
  const model::Farm& farm;
  const model::Pipe& pipe;
  const solver::PipeAnswer& answer;
};

/// A finding; `units` are those of its sentence.
struct FlagRow {
  const solver::Finding& finding;
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// Rows in the farm's order; none for an answer that did not converge.
[[nodiscard]] std::vector<PlaceRow> place_rows(const model::Farm& farm,
                                               const solver::SteadyAnswer& answer);
[[nodiscard]] std::vector<PipeRow> pipe_rows(const model::Farm& farm,
                                             const solver::SteadyAnswer& answer);
[[nodiscard]] std::vector<FlagRow> flag_rows(const std::vector<solver::Finding>& findings,
                                             model::UnitSystem units);

[[nodiscard]] const Columns<PlaceRow>& place_columns();
[[nodiscard]] const Columns<PipeRow>& pipe_columns();
[[nodiscard]] const Columns<solver::SummitAnswer>& summit_columns();
[[nodiscard]] const Columns<FlagRow>& flag_columns();
[[nodiscard]] const Columns<model::Diagnostic>& problem_columns();

}  // namespace leat::render
