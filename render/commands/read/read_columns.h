// What is told of a place and of a pipe as they were understood, before any water runs.
#pragma once

#include <optional>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/read/pipe_reading.h"
#include "render/commands/read/place_reading.h"
#include "render/document/columns.h"

namespace leat::render {

struct PlaceReadingRow {
  const model::Place& place;
  std::optional<model::Month> month;
  PlaceFlow flow;
  std::optional<Flow> single;  // the flow of the month, or of any where it does not vary
};

struct PipeReadingRow {
  const model::Farm& farm;
  const model::Pipe& pipe;
  PipeReading reading;
};

[[nodiscard]] std::vector<PlaceReadingRow> place_reading_rows(const model::Farm& farm,
                                                              std::optional<model::Month> month);
[[nodiscard]] std::vector<PipeReadingRow> pipe_reading_rows(const model::Farm& farm,
                                                            std::optional<model::Month> month);

[[nodiscard]] const Columns<PlaceReadingRow>& place_reading_columns();
[[nodiscard]] const Columns<PipeReadingRow>& pipe_reading_columns();

}  // namespace leat::render
