#include "render/commands/map/map_command.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/commands/command_parts.h"
#include "render/commands/map/map_report.h"
#include "render/io/output_file.h"
#include "render/words/diagnostic_text.h"
#include "solver/steady/steady.h"

namespace leat::render {

namespace {

std::string remarks_text(const model::Farm& farm, const MapRemarks& remarks) {
  std::string text;
  if (!remarks.places_left_out.empty()) {
    text += fmt::format("left out, no place on the map (key `map`): {}\n",
                        fmt::join(remarks.places_left_out, ", "));
  }
  if (!remarks.pipes_left_out.empty()) {
    text +=
        fmt::format("left out with them, the pipes: {}\n", fmt::join(remarks.pipes_left_out, ", "));
  }
  for (const std::string& doubt : remarks.doubts) {
    text += fmt::format("doubtful: {}\n", doubt);
  }
  const bool is_local =
      std::any_of(farm.places.begin(), farm.places.end(), [](const model::Place& place) {
        return place.map && !place.map->is_in_degrees();
      });
  if (is_local && !farm.site.map_origin) {
    text += "the map is in the farm's own metres; `map origin` in the site makes it degrees\n";
  }
  return text;
}

}  // namespace

CommandResult map_command(const CommandLine& line, const model::LoadedFarm& loaded) {
  const model::Farm& farm = *loaded.farm;
  const std::string ending = ending_of(line.output);
  if (line.output != "-" && ending != "geojson" && ending != "json") {
    return failure(line,
                   {problem_of("unknown-ending",
                               fmt::format("'{}' does not end as a map's file does", line.output),
                               "end it in .geojson or .json")},
                   loaded);
  }
  const model::UnitSystem units = line.units.value_or(farm.show);
  const MapRemarks remarks = map_remarks(farm, units);
  if (remarks.places_left_out.size() == farm.places.size()) {
    return failure(line,
                   {problem_of("not-on-map",
                               "no place of the farm says where it lies on the map",
                               "give places `map: [longitude, latitude]` or `map: [12 m, 40 m]`")},
                   loaded);
  }
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options_of(line));
  if (!answer.converged) {
    return failure(line, answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded) + remarks_text(farm, remarks);
  const std::string text = map_geojson(farm, answer, remarks, units);
  if (line.output == "-") {
    result.out = text;
    return result;
  }
  if (const auto problem = write_output_file(line.output, text, line.existing)) {
    return failure(line, {problem_of(problem->code, problem->text, problem->hint)}, {});
  }
  if (line.form == OutputForm::Json) {
    result.out = map_json(farm, answer, remarks, line.output, units);
  }
  result.err += fmt::format("wrote {}\n", line.output);
  return result;
}

}  // namespace leat::render
