#include "render/commands/profile/profile_columns.h"

#include "render/words/profile_words.h"

namespace leat::render {

std::vector<ProfilePointRow> profile_point_rows(const model::Farm& farm,
                                                const solver::Profile& profile) {
  std::vector<ProfilePointRow> rows;
  for (const solver::ProfilePoint& point : profile.points) {
    rows.push_back({farm, point});
  }
  return rows;
}

const Columns<ProfilePointRow>& profile_point_columns() {
  using Point = Column<ProfilePointRow>;
  static const Columns<ProfilePointRow> columns = {
      Point::value(
          "pipe",
          [](const ProfilePointRow& row) { return row.farm.pipes[row.point.pipe].name; },
          "the pipe's name; where two pipes meet, the point is there once for each"),
      Point::number(
          "distance_m",
          scale::length,
          [](const ProfilePointRow& row) { return row.point.distance_m; },
          "from the start of the run, measured as the pipes' paths are: level distance "
          "along a path, length of pipe where there is none"),
      Point::number(
          "elevation_m",
          scale::level,
          [](const ProfilePointRow& row) { return row.point.elevation_m; },
          "the pipe's"),
      Point::number(
          "running_head_m",
          scale::level,
          [](const ProfilePointRow& row) { return row.point.running_head_m; },
          "running grade line, velocity head included. Where the pipe is not full: its own "
          "level, less the suction that stands above the water (none under air, the "
          "vapour's beyond a parted summit). Null where not known"),
      Point::number(
          "static_head_m",
          scale::level,
          [](const ProfilePointRow& row) { return row.point.static_head_m; },
          "how high the water stands with every end shut, whatever breaks when it runs; "
          "null where no open water reaches"),
      Point::number("pressure_kPa",
                    scale::pressure,
                    [](const ProfilePointRow& row) { return row.point.pressure_Pa; }),
      Point::number(
          "absolute_head_m",
          scale::level,
          [](const ProfilePointRow& row) { return row.point.absolute_head_m; },
          "gauge; absolute, in metres of water; velocity head taken off both"),
      Point::text_or_null(
          "mark",
          [](const ProfilePointRow& row) { return mark_word(row.farm, row.point); },
          "what sits there, or null"),
  };
  return columns;
}

const Columns<solver::PartFullReach>& part_full_columns() {
  using solver::PartFullReach;
  using Reach = Column<PartFullReach>;
  static const Columns<PartFullReach> columns = {
      Reach::number("from_m", scale::length, &PartFullReach::from_m),
      Reach::number("to_m", scale::length, &PartFullReach::to_m, "distances"),
      Reach::number("length_m", scale::length, &PartFullReach::length_m, "of pipe"),
      Reach::value("running", &PartFullReach::running, "else standing, the reach empty"),
      Reach::value(
          "under",
          [](const PartFullReach& reach) { return reach.under_vapour ? "vapour" : "air"; },
          "air or vapour"),
      Reach::value(
          "full_again", &PartFullReach::full_again, "further along the flow the run is full"),
  };
  return columns;
}

}  // namespace leat::render
