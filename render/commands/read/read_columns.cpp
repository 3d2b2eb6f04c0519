#include "render/commands/read/read_columns.h"

namespace leat::render {

namespace {

/// Figures of the file are kept finer than an answer's.
constexpr int decimals = usual_csv_decimals;

Json months_json(const PlaceFlow& flow) {
  if (!flow.varies || !flow.is_given) {
    return nullptr;
  }
  Json months = Json::array();
  for (const std::optional<Flow>& month : flow.by_month) {
    months.push_back(month ? json_number(scale::flow.printed(month->in_si())) : Json(nullptr));
  }
  return months;
}

std::optional<double> drinking_time_s(const model::Place& place) {
  return model::is_trough(place) ? std::optional(in_seconds(model::drinking_time_of(place)))
                                 : std::nullopt;
}

Columns<PipeReadingRow> size_columns() {
  using Pipe = Column<PipeReadingRow>;
  return {
      Pipe::value("name", [](const PipeReadingRow& row) { return row.pipe.name; }),
      Pipe::value("from",
                  [](const PipeReadingRow& row) { return row.farm.places.at(row.pipe.from).name; }),
      Pipe::value("to",
                  [](const PipeReadingRow& row) { return row.farm.places.at(row.pipe.to).name; }),
      Pipe::value(
          "size", [](const PipeReadingRow& row) { return row.pipe.size.text; }, "as in the file"),
      Pipe::number("bore_mm",
                   scale::bore,
                   [](const PipeReadingRow& row) { return row.pipe.size.bore.in_si(); }),
      Pipe::number("wall_mm",
                   scale::bore,
                   [](const PipeReadingRow& row) { return si_of(row.pipe.size.wall); }),
      Pipe::number(
          "roughness_mm",
          scale::bore,
          [](const PipeReadingRow& row) { return row.pipe.size.roughness.in_si(); },
          "true ones; wall null where not known"),
      Pipe::number("friction_factor",
                   scale::ratio.with_decimals(decimals),
                   [](const PipeReadingRow& row) { return row.pipe.size.friction_factor; }),
      Pipe::number(
          "hazen_williams_c",
          scale::ratio.with_decimals(decimals),
          [](const PipeReadingRow& row) { return row.pipe.size.hazen_williams_c; },
          "null unless the file asks for that law"),
  };
}

Columns<PipeReadingRow> laid_columns() {
  using Pipe = Column<PipeReadingRow>;
  return {
      Pipe::number("length_m",
                   scale::length.with_decimals(decimals),
                   [](const PipeReadingRow& row) { return in_metres(row.pipe.length); }),
      Pipe::number("from_level_m",
                   scale::level.with_decimals(decimals),
                   [](const PipeReadingRow& row) { return in_metres(row.reading.from_level); }),
      Pipe::number(
          "to_level_m",
          scale::level.with_decimals(decimals),
          [](const PipeReadingRow& row) { return in_metres(row.reading.to_level); },
          "of the pipe; where its ends lie"),
      Pipe::number(
          "forward_k",
          scale::ratio.with_decimals(decimals),
          [](const PipeReadingRow& row) { return row.reading.forward_k; },
          "the sum for water that runs from `from` to `to`, foot valves fully lifted; where "
          "water leaves through a seat or an opening, the orifice law stands in place of "
          "the exit loss and is not in it"),
      Pipe::number("valve_k",
                   scale::ratio.with_decimals(decimals),
                   [](const PipeReadingRow& row) { return row.reading.valve_k; }),
      Pipe::value("shut", [](const PipeReadingRow& row) { return row.reading.is_shut; }),
      Pipe::value(
          "one_way",
          [](const PipeReadingRow& row) { return row.reading.is_one_way; },
          "of its valve, or null; true or false"),
      Pipe::number("rating_kPa",
                   scale::pressure.with_decimals(decimals),
                   [](const PipeReadingRow& row) { return si_of(row.pipe.size.rating); }),
      Pipe::value(
          "rating_assumed",
          [](const PipeReadingRow& row) { return row.pipe.size.rating_assumed; },
          "null where there is none; whether the lowest that is sold was taken"),
  };
}

}  // namespace

std::vector<PlaceReadingRow> place_reading_rows(const model::Farm& farm,
                                                std::optional<model::Month> month) {
  std::vector<PlaceReadingRow> rows;
  for (const model::Place& place : farm.places) {
    const PlaceFlow flow = flow_of(farm, place);
    rows.push_back({place, month, flow, single_flow(flow, month)});
  }
  return rows;
}

std::vector<PipeReadingRow> pipe_reading_rows(const model::Farm& farm,
                                              std::optional<model::Month> month) {
  std::vector<PipeReadingRow> rows;
  for (const model::Pipe& pipe : farm.pipes) {
    rows.push_back({farm, pipe, pipe_reading(farm, pipe, month)});
  }
  return rows;
}

const Columns<PlaceReadingRow>& place_reading_columns() {
  using Place = Column<PlaceReadingRow>;
  static const Columns<PlaceReadingRow> columns = {
      Place::value("name", [](const PlaceReadingRow& row) { return row.place.name; }),
      Place::value(
          "kind",
          [](const PlaceReadingRow& row) { return model::kind_word(row.place); },
          "as for `solve`"),
      Place::number(
          "elevation_m",
          scale::level,
          [](const PlaceReadingRow& row) {
            return in_metres(model::level_of(row.place, row.month));
          },
          "overflow, surface, tank floor, float level, outlet level, tee"),
      Place::text_or_null(
          "flow_word",
          [](const PlaceReadingRow& row) { return row.flow.is_given ? row.flow.word : ""; },
          "\"needs\", \"yields\", \"may give\", \"wished\" or null"),
      Place::number(
          "flow_L_s",
          scale::flow,
          [](const PlaceReadingRow& row) { return si_of(row.single); },
          "null where it varies and no month is asked for"),
      Place::value(
          "flow_by_month_L_s",
          [](const PlaceReadingRow& row) { return months_json(row.flow); },
          "twelve from January, or null"),
      Place::number(
          "per_day_L",
          scale::litres,
          [](const PlaceReadingRow& row) { return si_of(daily_volume(row.place, row.single)); }),
      Place::number(
          "within_h",
          scale::seconds_as_hours,
          [](const PlaceReadingRow& row) { return drinking_time_s(row.place); },
          "of a need written per day, or of a herd; else null"),
  };
  return columns;
}

const Columns<PipeReadingRow>& pipe_reading_columns() {
  static const Columns<PipeReadingRow> columns = joined(size_columns(), laid_columns());
  return columns;
}

}  // namespace leat::render
