#include "render/page/page_profile.h"

#include <vector>

#include <fmt/format.h>

#include "render/pictures/chart/profile_chart.h"
#include "render/words/number_text.h"
#include "render/words/profile_problems.h"
#include "render/words/profile_words.h"
#include "solver/profile/profile.h"

namespace leat::render {
namespace {

std::string level_cell(const std::optional<double>& level_m, model::UnitSystem units) {
  return level_m ? level_number_text(elevation_metres(*level_m), units) : "-";
}

Json rows_of(const model::Farm& farm, const solver::Profile& profile, model::UnitSystem units) {
  Json rows = Json::array();
  for (const solver::ProfilePoint& point : profile.points) {
    Json row = {length_number_text(metres(point.distance_m), units),
                level_cell(point.elevation_m, units),
                level_cell(point.running_head_m, units),
                level_cell(point.static_head_m, units),
                point.pressure_Pa ? pressure_number_text(pascals(*point.pressure_Pa), units) : "-",
                mark_words(farm, point)};
    if (rows.empty() || rows.back() != row) {
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

}  // namespace

Json page_profile(const FarmMoment& moment, const PageView& view, const std::string& pipe) {
  const model::Farm& farm = *moment.tried.farm;
  const model::UnitSystem units = view.units.value_or(farm.show);
  const solver::Profile profile = solver::profile_of(farm, pipe, options_of(view));
  Json object;
  object["version"] = moment.version;
  object["words"] = "";
  object["svg"] = Json();
  object["problem"] = Json();
  object["columns"] = Json::array();
  object["rows"] = Json::array();
  object["sentences"] = Json::array();
  if (!profile.is_made()) {
    object["problem"] = solver_problems_text(profile_problems(farm, profile), moment.tried);
    return object;
  }
  object["words"] = run_words(farm, profile);
  const std::string length(length_unit(units));
  object["columns"] = {"at, " + length,
                       "pipe's level, " + length,
                       "running water, " + length,
                       "standing water, " + length,
                       fmt::format("pressure, {}", pressure_unit(units)),
                       "what is there"};
  object["rows"] = rows_of(farm, profile, units);
  for (const solver::ProfileSummit& summit : profile.summits) {
    object["sentences"].push_back(
        fmt::format("{}: {}", summit_word(summit), summit_words(summit.summit, units)));
  }
  for (const solver::PartFullReach& reach : profile.reaches) {
    object["sentences"].push_back(reach_words(reach, units));
  }
  const ChartResult drawn = draw_profile(farm, profile, {ChartFormat::Svg, units});
  if (drawn.problem.empty()) {
    object["svg"] = drawn.bytes;
  } else {
    object["problem"] =
        drawn.hint.empty() ? drawn.problem : fmt::format("{}; {}", drawn.problem, drawn.hint);
  }
  return object;
}

}  // namespace leat::render
