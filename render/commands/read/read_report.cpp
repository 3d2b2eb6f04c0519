#include "render/commands/read/read_report.h"

#include <algorithm>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "model/keys/size_choice.h"
#include "render/commands/read/pipe_reading.h"
#include "render/commands/read/place_reading.h"
#include "render/commands/read/read_columns.h"
#include "render/document/text_table.h"
#include "render/words/number_text.h"
#include "render/words/pumps_and_rams_text.h"

namespace leat::render {

namespace {

using Row = std::vector<std::string>;

std::string temperature_with_unit(Temperature temperature, model::UnitSystem units) {
  return fmt::format("{} {}", temperature_number_text(temperature, units), temperature_unit(units));
}

std::string water_words(const model::Site& site, const ReadOptions& options) {
  if (!site.water.varies || options.month) {
    return temperature_with_unit(site.water.at(options.month), options.units);
  }
  const auto [coldest, warmest] =
      std::minmax_element(site.water.by_month.begin(), site.water.by_month.end());
  return fmt::format("{} to {} {} by month",
                     temperature_number_text(*coldest, options.units),
                     temperature_number_text(*warmest, options.units),
                     temperature_unit(options.units));
}

std::string altitude_text(Length altitude, model::UnitSystem units) {
  const bool is_us = units == model::UnitSystem::Us;
  return decimal_text(is_us ? in_feet(altitude) : in_metres(altitude), 0);
}

std::string heading(const model::Farm& farm, const ReadOptions& options, const Terminal& terminal) {
  const int width = text_width(terminal);
  const model::UnitSystem units = options.units;
  std::string text = styled(cut_to_width(farm.name, width), Style::Heading, terminal.colour) + '\n';
  std::string site = farm.datum ? fmt::format("datum {}; ", *farm.datum) : std::string();
  site += fmt::format("air pressure {} {} ({}); water {}",
                      pressure_number_text(air_pressure_of(farm.site), units),
                      pressure_unit(units),
                      farm.site.air_pressure ? std::string("given")
                                             : fmt::format("standard air at {} {}",
                                                           altitude_text(farm.site.altitude, units),
                                                           length_unit(units)),
                      water_words(farm.site, options));
  if (options.month) {
    site += fmt::format("; month {}", model::name_of(*options.month));
  }
  text += wrapped(site, width, 0);
  return text + wrapped(fmt::format("levels and lengths in {}, flows in {}, pressures in {}",
                                    length_unit(units),
                                    flow_unit(units),
                                    pressure_unit(units)),
                        width,
                        0);
}

std::string roughness_cell(const model::PipeSize& size) {
  if (size.friction_factor) {
    return fmt::format("f {}", decimal_text(*size.friction_factor, 4));
  }
  if (size.hazen_williams_c) {
    return fmt::format("C {}", decimal_text(*size.hazen_williams_c, 0));
  }
  return decimal_text(in_millimetres(size.roughness), 4);
}

std::string rating_cell(const model::PipeSize& size, model::UnitSystem units) {
  if (!size.rating) {
    return "-";
  }
  return pressure_number_text(*size.rating, units) + (size.rating_assumed ? "?" : "");
}

std::string valve_cell(const PipeReading& reading) {
  if (reading.is_shut) {
    return "shut";
  }
  return reading.valve_k ? decimal_text(*reading.valve_k, 2) : "-";
}

std::string pipes_table(const model::Farm& farm, const ReadOptions& options) {
  using Pipe = PipeReadingRow;
  const auto bore_in = [](model::UnitSystem units) {
    return [units](const Pipe& row, model::UnitSystem) {
      return bore_number_text(row.pipe.size.bore, units);
    };
  };
  return table_below(table_of(
      pipe_reading_columns(),
      {{"pipe", "name"},
       {"bore mm", "bore_mm", bore_in(model::UnitSystem::Metric)},
       {"in", "bore_mm", bore_in(model::UnitSystem::Us)},
       {"rough mm",
        "roughness_mm",
        [](const Pipe& row, model::UnitSystem) { return roughness_cell(row.pipe.size); }},
       {"long", "length_m"},
       {"from", "from_level_m"},
       {"to", "to_level_m"},
       {"sum K",
        "forward_k",
        [](const Pipe& row, model::UnitSystem) { return decimal_text(row.reading.forward_k, 2); }},
       {"valve K",
        "valve_k",
        [](const Pipe& row, model::UnitSystem) { return valve_cell(row.reading); }},
       {"rating",
        "rating_kPa",
        [](const Pipe& row, model::UnitSystem units) {
          return rating_cell(row.pipe.size, units);
        }}},
      pipe_reading_rows(farm, options.month),
      options.units));
}

std::string routes(const model::Farm& farm, int width) {
  std::string text = "\n";
  for (const model::Pipe& pipe : farm.pipes) {
    const PipeReading reading = pipe_reading(farm, pipe, std::nullopt);
    text += wrapped(fmt::format("{}: {}, {} to {}{}",
                                pipe.name,
                                pipe.size.text.empty() ? "bore given" : pipe.size.text,
                                farm.places.at(pipe.from).name,
                                farm.places.at(pipe.to).name,
                                reading.is_one_way ? ", one-way" : ""),
                    width,
                    2);
  }
  return text;
}

std::string flow_words(const PlaceFlow& flow, const ReadOptions& options) {
  if (!flow.is_given) {
    return "";
  }
  if (const std::optional<Flow> single = single_flow(flow, options.month)) {
    return fmt::format("{} {}", flow.word, flow_number_text(*single, options.units));
  }
  const auto [least, most] = std::minmax_element(flow.by_month.begin(), flow.by_month.end());
  return fmt::format("{} {} to {}",
                     flow.word,
                     flow_number_text(least->value_or(Flow{}), options.units),
                     flow_number_text(most->value_or(Flow{}), options.units));
}

std::string day_words(const model::Place& place,
                      const PlaceFlow& flow,
                      const ReadOptions& options) {
  if (!model::is_trough(place)) {
    return "";
  }
  if (!flow.is_given) {
    return "no need given";
  }
  const std::optional<Volume> daily = daily_volume(place, single_flow(flow, options.month));
  if (!daily) {
    return "";
  }
  return fmt::format("{} {} in {} h",
                     volume_number_text(*daily, options.units),
                     volume_unit(options.units),
                     fmt::format("{}", in_hours(model::drinking_time_of(place))));
}

std::string places_table(const model::Farm& farm, const ReadOptions& options) {
  return table_below(table_of(place_reading_columns(),
                              {{"place", "name"},
                               {"", "kind"},
                               {"level", "elevation_m"},
                               {"flow",
                                "flow_L_s",
                                [&](const PlaceReadingRow& row, model::UnitSystem) {
                                  return flow_words(row.flow, options);
                                },
                                Align::Left},
                               {"a day",
                                "per_day_L",
                                [&](const PlaceReadingRow& row, model::UnitSystem) {
                                  return day_words(row.place, row.flow, options);
                                },
                                Align::Left}},
                              place_reading_rows(farm, options.month),
                              options.units));
}

/// Each month of what changes with the month: one row a month, one column a place.
std::string months_table(const model::Farm& farm, const ReadOptions& options) {
  std::vector<std::pair<std::string, PlaceFlow>> varying;
  for (const model::Place& place : farm.places) {
    PlaceFlow flow = flow_of(farm, place);
    if (flow.varies && flow.is_given) {
      varying.emplace_back(place.name, std::move(flow));
    }
  }
  if (varying.empty() || options.month) {
    return "";
  }
  std::vector<Heading> columns = {{"by month", Align::Left}};
  for (const std::string_view name : model::month_names) {
    columns.push_back({std::string(name), Align::Right});
  }
  std::vector<Row> rows;
  for (const auto& [name, flow] : varying) {
    Row row = {cut_to_width(name, 16)};
    for (const std::optional<Flow>& month : flow.by_month) {
      row.push_back(month ? flow_number_text(*month, options.units) : "-");
    }
    rows.push_back(std::move(row));
  }
  return '\n' + table_text(columns, rows);
}

std::string closing(const model::Farm& farm, int width) {
  std::string text;
  const bool is_assumed =
      std::any_of(farm.pipes.begin(), farm.pipes.end(), [](const model::Pipe& pipe) {
        return pipe.size.rating.has_value() && pipe.size.rating_assumed;
      });
  if (is_assumed) {
    text +=
        wrapped("?  the lowest rating this size is sold in: write yours after the size", width, 3);
  }
  for (const std::string& note : farm.notes) {
    text += wrapped(fmt::format("assumed: {}", note), width, 9);
  }
  for (const std::string& choice : model::sizes_to_choose(farm)) {
    text +=
        wrapped(fmt::format("no size to solve with: {}; 'leat size' chooses it", choice), width, 2);
  }
  return text.empty() ? "" : '\n' + text;
}

}  // namespace

std::string read_table(const model::Farm& farm,
                       const ReadOptions& options,
                       const Terminal& terminal) {
  const int width = text_width(terminal);
  return heading(farm, options, terminal) + pipes_table(farm, options) + routes(farm, width) +
         places_table(farm, options) + months_table(farm, options) +
         lifters_read_text(farm, options.units, width) + closing(farm, width);
}

}  // namespace leat::render
