#include "render/commands/map/command.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/commands/command_parts.h"
#include "render/commands/map/map_report.h"
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

CommandHead MapCommand::head() const {
  return {"map",
          "Write places and pipes with their answer as GeoJSON, for map programs.",
          "  leat map my-farm.yaml -o my-farm.geojson\n  leat map my-farm.yaml --month Aug -o -\n"};
}

std::vector<Option> MapCommand::farm_options() {
  return {
      any_case_option(moment),
      broken_option(moment),
      output_option(
          "file to write: name.geojson or .json; - prints it", {"geojson", "json"}, output.file),
      month_option(moment.month),
      units_option(units),
      replace_option(output)};
}

std::optional<UsageProblem> MapCommand::check() const {
  if (auto problem = FarmCommand::check()) {
    return problem;
  }
  if (auto problem = missing_output(output,
                                    "where to write the map is missing",
                                    "write -o farm.geojson, or -o - to print it")) {
    return problem;
  }
  return both_on_stdout(*this, output);
}

CommandResult MapCommand::answer(const model::LoadedFarm& loaded,
                                 const Terminal& /*terminal*/) const {
  const model::Farm& farm = *loaded.farm;
  const std::string ending = ending_of(output.file);
  if (!output.is_stdout() && ending != "geojson" && ending != "json") {
    return failure(*this,
                   {problem_of("unknown-ending",
                               fmt::format("'{}' does not end as a map's file does", output.file),
                               "end it in .geojson or .json")},
                   loaded);
  }
  const model::UnitSystem shown = units_for(farm);
  const MapRemarks remarks = map_remarks(farm, shown);
  if (remarks.places_left_out.size() == farm.places.size()) {
    return failure(*this,
                   {problem_of("not-on-map",
                               "no place of the farm says where it lies on the map",
                               "give places `map: [longitude, latitude]` or `map: [12 m, 40 m]`")},
                   loaded);
  }
  const solver::SteadyAnswer answer = solver::solve_steady(farm, options_of(moment));
  if (!answer.converged) {
    return failure(*this, answer.problems, loaded);
  }
  CommandResult result;
  result.code = exit_code_of(answer);
  result.err = problems_text(loaded.problems, loaded) + remarks_text(farm, remarks);
  const std::string text = map_geojson(farm, answer, remarks, shown);
  if (output.is_stdout()) {
    result.out = text;
    return result;
  }
  if (const auto problem = writing_problem(output, text)) {
    return failure(*this, {*problem}, {});
  }
  if (json) {
    result.out = map_json(farm, answer, remarks, output.file, shown);
  }
  result.err += fmt::format("wrote {}\n", output.file);
  return result;
}

}  // namespace leat::render
