#include <algorithm>
#include <cmath>
#include <optional>

#include "solver/findings/judging.h"
#include "solver/findings/states.h"
#include "solver/hydraulics/intake_cover.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

/// A spring box is known to stand within this of its overflow.
constexpr double written_level_rounding_m = 0.01;

/// Whether the file says how deep the pipe's mouth lies in this water: else it counts as at the
/// surface, and nothing can be said of its cover.
bool mouth_is_known(const model::Place& place, const model::Pipe& pipe, bool at_start) {
  if (!pipe.path.empty() || (!at_start && pipe.ends)) {
    return true;
  }
  if (const auto* creek = std::get_if<model::Creek>(&place.data)) {
    return at_start && creek->intake.has_value();
  }
  if (const auto* pond = std::get_if<model::Pond>(&place.data)) {
    return at_start && pond->intake.has_value();
  }
  return at_start;
}

/// Whether a tank is drawn down to the pipe's mouth: it draws air, as with a spring drawn down.
bool runs_empty(const SolvedCase& solved, std::size_t pipe, bool at_start) {
  const PipeEdges& edges = solved.state.network->pipes[pipe];
  const std::size_t joint = at_start ? edges.from_end_edge : edges.to_end_edge;
  return joint != no_index &&
         solved.state.network->problem.edges[joint].kind == nodal::EdgeKind::Crest &&
         solved.state.is_parted(joint);
}

/// Water over the mouth that the pipe draws from [m]; empty where it draws from none, or where the
/// spring or tank is drawn down and the pipe draws air anyway.
std::optional<double> cover_m(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const double flow = solved.pipes[index].flow_m3_s;
  const bool at_start = flow > 0.0;
  const std::size_t place = at_start ? pipe.from : pipe.to;
  const std::optional<double>& level = solved.places[place].level_m;
  if (std::abs(flow) < still_flow_m3_s || !level || is_drawn_down(on, solved, place) ||
      runs_empty(solved, index, at_start) ||
      !mouth_is_known(on.farm.places[place], pipe, at_start)) {
    return std::nullopt;
  }
  const double mouth_m = in_metres(at_start ? model::from_end_level(on.farm, pipe, on.month())
                                            : model::to_end_level(on.farm, pipe, on.month()));
  return *level - mouth_m;
}

void judge_cover(const Judging& on, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const SolvedCase* worst = nullptr;
  double least_spare_m = -written_level_rounding_m;
  double worst_cover_m = 0.0;
  double worst_need_m = 0.0;
  for (const SolvedCase& solved : on.cases) {
    const std::optional<double> cover = cover_m(on, solved, index);
    if (!cover) {
      continue;
    }
    const double need = hydraulics::intake_cover_needed_m(in_metres(pipe.size.bore),
                                                          solved.pipes[index].velocity_m_s);
    if (*cover - need < least_spare_m) {
      worst = &solved;
      least_spare_m = *cover - need - written_level_rounding_m;
      worst_cover_m = *cover;
      worst_need_m = need;
    }
  }
  if (worst == nullptr) {
    return;
  }
  const std::size_t place = worst->pipes[index].flow_m3_s > 0.0 ? pipe.from : pipe.to;
  on.findings.raise(made_finding(Code::IntakeCover,
                                 Severity::Caution,
                                 pipe.name,
                                 worst->load_case,
                                 {worst_cover_m, worst_need_m, Measure::Length},
                                 ShallowMouth{on.farm.places[place].name,
                                              std::abs(worst->pipes[index].velocity_m_s)}),
                    Worse::Lower);
}

/// The lowest inner point of a course that lies below both its neighbours.
std::optional<CoursePoint> deepest_dip(const PipeCourse& course) {
  std::optional<CoursePoint> deepest;
  for (std::size_t i = 1; i + 1 < course.points.size(); ++i) {
    const CoursePoint& point = course.points[i];
    const bool is_dip = point.elevation_m < course.points[i - 1].elevation_m &&
                        point.elevation_m < course.points[i + 1].elevation_m;
    if (is_dip && (!deepest || point.elevation_m < deepest->elevation_m)) {
      deepest = point;
    }
  }
  return deepest;
}

/// Silt stays in a dip that the water never runs through fast, not even with every float open.
void judge_silt(const Judging& on, std::size_t index) {
  const PipeCourse& course = on.chosen().state.network->pipes[index].cut.course;
  const std::optional<CoursePoint> dip = deepest_dip(course);
  if (!dip) {
    return;
  }
  const SolvedCase* fastest = nullptr;
  double velocity = 0.0;
  for (const SolvedCase& solved : on.cases) {
    const double here = std::abs(solved.pipes[index].velocity_m_s);
    if (here > velocity + 1e-9) {
      fastest = &solved;
      velocity = here;
    }
  }
  if (fastest == nullptr || velocity >= silt_velocity_m_s) {
    return;
  }
  on.findings.raise(made_finding(Code::Silt,
                                 Severity::Note,
                                 on.farm.pipes[index].name,
                                 fastest->load_case,
                                 {velocity, silt_velocity_m_s, Measure::Velocity},
                                 SiltInDip{{dip->at_m, dip->elevation_m}}),
                    Worse::Lower);
}

}  // namespace

void judge_intakes(const Judging& on) {
  for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
    judge_cover(on, i);
    judge_silt(on, i);
  }
}

}  // namespace leat::solver
