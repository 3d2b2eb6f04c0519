#include "solver/network/pipe_reaches.h"

#include <algorithm>
#include <cmath>

#include "model/catalogue/fitting_catalogue.h"

namespace leat::solver {

namespace {

using model::Placement;

hydraulics::FrictionLaw friction_of(const model::PipeSize& size,
                                    double length_m,
                                    const hydraulics::Water& water) {
  const double bore_m = in_metres(size.bore);
  if (size.friction_factor) {
    return hydraulics::fixed_factor(bore_m, length_m, *size.friction_factor);
  }
  if (size.hazen_williams_c) {
    return hydraulics::hazen_williams(bore_m, length_m, *size.hazen_williams_c);
  }
  return hydraulics::darcy_weisbach(
      bore_m, length_m, in_metres(size.roughness), water.kinematic_viscosity_m2_s);
}

double valve_k(const model::Pipe& pipe) {
  if (!pipe.valve || pipe.valve->shut) {
    return 0.0;
  }
  return model::valve_loss_coefficient(pipe.valve->type, pipe.valve->open, pipe.size.bore);
}

std::vector<Break> breaks_of(const model::Pipe& pipe,
                             const PipeCourse& course,
                             const hydraulics::Water& water) {
  std::vector<Break> breaks;
  for (const std::size_t index : course.summits()) {
    breaks.push_back({Break::Kind::Summit, course.points[index], true, std::nullopt, 0.0});
  }
  for (const model::Vent& vent : pipe.vents) {
    const CoursePoint point = course.at(in_metres(vent.distance));
    Break made{Break::Kind::Vent, point, false, std::nullopt, 0.0};
    if (vent.top) {
      made.vent_top_m = in_metres(*vent.top);
    }
    const auto same = std::find_if(breaks.begin(), breaks.end(), [&](const Break& other) {
      return std::abs(other.point.at_m - point.at_m) < 1e-6;
    });
    if (same != breaks.end()) {
      made.is_summit = same->is_summit;
      *same = made;
    } else {
      breaks.push_back(made);
    }
  }
  if (pipe.regulator) {
    const CoursePoint point = course.at(distance_of(pipe.regulator->place, course));
    const double head =
        point.elevation_m + in_pascals(pipe.regulator->set) / (water.density_kg_m3 * gravity_m_s2);
    breaks.push_back({Break::Kind::Regulator, point, false, std::nullopt, head});
  }
  if (pipe.valve && pipe.valve->shut) {
    const Placement place = pipe.valve->place.value_or(Placement{Placement::Where::Start, {}});
    breaks.push_back(
        {Break::Kind::ShutValve, course.at(distance_of(place, course)), false, std::nullopt, 0.0});
  }
  std::stable_sort(breaks.begin(), breaks.end(), [](const Break& a, const Break& b) {
    return a.point.along_m < b.point.along_m;
  });
  return breaks;
}

/// The stretch that holds a thing at a distance: the first whose end is not before it, so that a
/// fitting at a summit stands on the upstream side, where it lowers the summit's pressure.
Stretch& stretch_at(PipeStretches& cut, double at_m) {
  for (Stretch& stretch : cut.stretches) {
    if (at_m <= stretch.end.at_m) {
      return stretch;
    }
  }
  return cut.stretches.back();
}

void add_fitting(PipeStretches& cut, const model::Fitting& fitting, double bore_m) {
  const double k = fitting.count * fitting.loss_coefficient;
  const bool is_spread = fitting.place.where == Placement::Where::Spread && !fitting.one_way;
  if (is_spread) {
    for (Stretch& stretch : cut.stretches) {
      const double length_m = stretch.end.along_m - stretch.start.along_m;
      stretch.spread_k += k * length_m / cut.course.length_m;
    }
    return;
  }
  const double at_m = distance_of(fitting.place, cut.course);
  Stretch& stretch = stretch_at(cut, at_m);
  PlacedLoss placed{at_m, k, k, 0.0, fitting.count * in_metres(fitting.opening_head)};
  if (fitting.one_way) {
    stretch.one_way = true;
    stretch.one_way_at_m = std::min(stretch.one_way_at_m.value_or(at_m), at_m);
  }
  stretch.opening_head_m += placed.opening_head_m;
  if (fitting.lifting_velocity) {
    const double area_m2 = in_square_metres(bore_area(metres(bore_m)));
    const hydraulics::LiftingLoss lifting{
        k, in_metres_per_second(*fitting.lifting_velocity) * area_m2};
    stretch.law.lifting.push_back(lifting);
    stretch.opening_head_m += hydraulics::lifting_opening_head_m(bore_m, lifting);
    placed.least_velocity_head_m = hydraulics::velocity_head_m(bore_m, lifting.lifting_flow_m3_s);
  }
  stretch.placed.push_back(placed);
}

void close_law(Stretch& stretch, double bore_m) {
  std::stable_sort(stretch.placed.begin(),
                   stretch.placed.end(),
                   [](const PlacedLoss& a, const PlacedLoss& b) { return a.at_m < b.at_m; });
  stretch.law.friction = stretch.friction;
  stretch.law.bore_m = bore_m;
  stretch.law.forward_k = stretch.spread_k;
  stretch.law.backward_k = stretch.spread_k;
  for (const PlacedLoss& loss : stretch.placed) {
    stretch.law.forward_k += loss.forward_k;
    stretch.law.backward_k += loss.backward_k;
  }
  // What a foot valve costs is in `lifting` and the opening head, not in the plain K.
  for (const hydraulics::LiftingLoss& lifting : stretch.law.lifting) {
    stretch.law.forward_k -= lifting.loss_coefficient;
  }
  stretch.law.forward_k = std::max(0.0, stretch.law.forward_k);
}

}  // namespace

PipeStretches cut_pipe(const model::Farm& farm,
                       const model::Pipe& pipe,
                       std::optional<model::Month> month,
                       const hydraulics::Water& water,
                       const EndLosses& ends) {
  PipeStretches cut;
  cut.course = course_of(farm, pipe, month);
  cut.breaks = breaks_of(pipe, cut.course, water);
  CoursePoint start = cut.course.points.front();
  for (std::size_t i = 0; i <= cut.breaks.size(); ++i) {
    Stretch stretch;
    stretch.start = start;
    stretch.end = i < cut.breaks.size() ? cut.breaks[i].point : cut.course.points.back();
    stretch.friction = friction_of(pipe.size, stretch.end.along_m - stretch.start.along_m, water);
    start = stretch.end;
    cut.stretches.push_back(stretch);
  }
  const double bore_m = in_metres(pipe.size.bore);
  for (const model::Fitting& fitting : pipe.fittings) {
    add_fitting(cut, fitting, bore_m);
  }
  if (const double k = valve_k(pipe); k > 0.0) {
    const Placement spread;
    const Placement place = pipe.valve->place.value_or(spread);
    if (place.where == Placement::Where::Spread) {
      cut.stretches.front().spread_k += k;
    } else {
      const double at_m = distance_of(place, cut.course);
      stretch_at(cut, at_m).placed.push_back({at_m, k, k, 0.0, 0.0});
    }
  }
  if (pipe.one_way || pipe.regulator) {
    cut.stretches.front().one_way = true;
  }
  const double first_m = cut.course.points.front().at_m;
  const double last_m = cut.course.points.back().at_m;
  cut.stretches.front().placed.push_back(
      {first_m, ends.from_forward_k, ends.from_backward_k, 0.0, 0.0});
  cut.stretches.back().placed.push_back({last_m, ends.to_forward_k, ends.to_backward_k, 0.0, 0.0});
  for (Stretch& stretch : cut.stretches) {
    close_law(stretch, bore_m);
  }
  return cut;
}

bool has_shut_valve(const PipeStretches& cut) {
  return std::any_of(cut.breaks.begin(), cut.breaks.end(), [](const Break& found) {
    return found.kind == Break::Kind::ShutValve;
  });
}

bool is_one_way(const PipeStretches& cut) {
  return std::any_of(cut.stretches.begin(), cut.stretches.end(), [](const Stretch& stretch) {
    return stretch.one_way;
  });
}

double summed_fitting_k(const model::Pipe& pipe) {
  double sum = valve_k(pipe);
  for (const model::Fitting& fitting : pipe.fittings) {
    sum += fitting.count * fitting.loss_coefficient;
  }
  return sum;
}

}  // namespace leat::solver
