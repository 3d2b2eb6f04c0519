#include "solver/prime/line_ends.h"

#include "model/quantity/quantity.h"

namespace leat::solver {

namespace {

/// What the full line puts on a point of it with the summit open [Pa gauge].
double standing_pressure_Pa(const PrimeCourse& course,
                            const LinePoint& point,
                            double density_kg_m3) {
  return (course.top().elevation_m - point.elevation_m) * density_kg_m3 * gravity_m_s2;
}

InletClosing::By inlet_shut_by(EndClosure::Kind kind, double standing_Pa) {
  switch (kind) {
    case EndClosure::Kind::OneWay:
      return InletClosing::By::OneWay;
    case EndClosure::Kind::Valve:
      return InletClosing::By::Valve;
    case EndClosure::Kind::Float:
    case EndClosure::Kind::Cap:
      break;
  }
  return standing_Pa > most_on_a_cap_Pa ? InletClosing::By::FittedFootValve
                                        : InletClosing::By::Plug;
}

OutletClosing::By outlet_shut_by(EndClosure::Kind kind, const OutletClosing& outlet) {
  switch (kind) {
    case EndClosure::Kind::Valve:
      return OutletClosing::By::Valve;
    case EndClosure::Kind::Float:
      return outlet.closes_against_Pa && *outlet.closes_against_Pa < outlet.standing_Pa
                 ? OutletClosing::By::FittedValve
                 : OutletClosing::By::Float;
    case EndClosure::Kind::Cap:
      return outlet.standing_Pa > most_on_a_cap_Pa || outlet.is_under_water()
                 ? OutletClosing::By::FittedValve
                 : OutletClosing::By::Cap;
    case EndClosure::Kind::OneWay:
      break;
  }
  return OutletClosing::By::Cap;
}

}  // namespace

InletClosing inlet_closing(const PrimeCourse& course, double density_kg_m3) {
  const LinePoint& start = course.line.points.front();
  InletClosing inlet;
  inlet.one_way = course.inlet.one_way;
  inlet.valve = course.inlet.valve;
  inlet.depth_m = course.source_m - start.elevation_m;
  inlet.standing_Pa = standing_pressure_Pa(course, start, density_kg_m3);
  inlet.by = inlet_shut_by(course.inlet.kind, inlet.standing_Pa);
  return inlet;
}

OutletClosing outlet_closing(const model::Farm& farm,
                             const PrimeCourse& course,
                             double density_kg_m3) {
  const LinePoint& end = course.line.points.back();
  OutletClosing outlet;
  outlet.at_float = course.outlet.kind == EndClosure::Kind::Float;
  outlet.valve = course.outlet.valve;
  if (course.outlet.kind == EndClosure::Kind::Valve) {
    const model::Valve& valve = *farm.pipes[course.outlet.pipe].valve;
    outlet.opening = valve.shut ? 1.0 : valve.open;
  }
  if (const auto most = model::float_closes_against(farm.places[course.line.to])) {
    outlet.closes_against_Pa = in_pascals(*most);
  }
  outlet.depth_m = course.end_m - end.elevation_m;
  outlet.standing_Pa = standing_pressure_Pa(course, end, density_kg_m3);
  outlet.by = outlet_shut_by(course.outlet.kind, outlet);
  return outlet;
}

}  // namespace leat::solver
