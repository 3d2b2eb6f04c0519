#include "solver/prime/line_names.h"

namespace leat::solver::priming {

LineNames names_of(const model::Farm& farm, const PrimeCourse& course) {
  const LineCourse& line = course.line;
  return {farm.places[line.from].name,
          farm.places[line.to].name,
          farm.pipes[line.pipes.front()].name,
          farm.pipes[line.pipes.back()].name,
          high_point(farm, course, course.summit)};
}

HighPoint high_point(const model::Farm& farm, const PrimeCourse& course, std::size_t point) {
  const LinePoint& where = course.line.points[point];
  HighPoint high{farm.pipes[where.pipe].name, where.at_m, where.elevation_m, std::nullopt};
  if (point == course.summit && course.summit_tee) {
    high.tee = farm.places[*course.summit_tee].name;
  }
  return high;
}

Branch named(const model::Farm& farm, const LineBranch& branch) {
  return {farm.pipes[branch.pipe].name, farm.places[branch.tee].name};
}

}  // namespace leat::solver::priming
