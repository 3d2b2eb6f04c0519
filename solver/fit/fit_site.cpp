#include "solver/fit/fit_site.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/catalogue/fitting_catalogue.h"
#include "solver/network/pipe_geometry.h"
#include "solver/uncertainty/measurement_error.h"

namespace leat::solver {

namespace {

// How likely each cause is at one place against the others, and how big it usually is: common
// practice, no source (trade-needs ranks screens, air and a failing spring first).
constexpr double screen_weight = 3.0;
constexpr double kink_weight = 1.0;
constexpr double silt_weight = 1.0;
constexpr double air_weight = 3.0;
constexpr double valve_weight = 2.0;
constexpr double level_weight = 1.0;
constexpr double colder_weight = 0.3;
constexpr double spring_weight = 3.0;
constexpr double leak_weight = 1.0;
/// A level misread by a foot, beside what the instrument itself may be off.
constexpr double misread_m = metres_per_foot;
constexpr double least_rise_m = 1e-6;

class SiteList {
 public:
  SiteList(const model::Farm& farm, std::optional<model::Month> month)
      : farm_(farm), month_(month) {}

  std::vector<FitSite> find() {
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      add_pipe(i);
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      add_place(i);
    }
    const double water_C = in_celsius(farm_.site.water.at(month_));
    if (water_C > 2.0) {
      add({CauseKind::WaterColder,
           false,
           0,
           0.0,
           0.5,
           std::min(15.0, water_C - 0.5),
           SizeScale::Logarithmic,
           std::min(4.0, water_C - 0.5),
           0.7,
           colder_weight});
    }
    return std::move(sites_);
  }

 private:
  void add(const FitSite& site) {
    if (site.least < site.most) {
      sites_.push_back(site);
    }
  }

  static bool has_screen(const model::Pipe& pipe) {
    return std::any_of(pipe.fittings.begin(), pipe.fittings.end(), [](const model::Fitting& one) {
      return one.name == "strainer" || model::is_foot_valve(one);
    });
  }

  void add_pipe(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    if (pipe.valve && pipe.valve->shut) {
      return;
    }
    if (model::is_open_water(farm_.places[pipe.from]) || has_screen(pipe)) {
      add({CauseKind::BlockedScreen,
           true,
           index,
           0.0,
           0.3,
           1e5,
           SizeScale::Logarithmic,
           40.0,
           1.7,
           screen_weight});
    }
    add({CauseKind::KinkedPipe,
         true,
         index,
         0.0,
         0.3,
         1e5,
         SizeScale::Logarithmic,
         40.0,
         1.7,
         kink_weight});
    add({CauseKind::SiltedPipe,
         true,
         index,
         0.0,
         0.003,
         0.85,
         SizeScale::Logarithmic,
         0.15,
         0.8,
         silt_weight});
    if (pipe.valve && pipe.valve->open > model::least_opening(pipe.valve->type)) {
      const double least = model::least_opening(pipe.valve->type);
      const double open = pipe.valve->open;
      add({CauseKind::ValveNotOpen,
           true,
           index,
           0.0,
           least,
           open,
           SizeScale::Linear,
           (least + open) / 2.0,
           (open - least) / 2.0,
           valve_weight});
    }
    add_air(index);
    if (pipe.ends) {
      add_level(CauseKind::PipeEndWrong, true, index, pipe.surveyed_with, in_metres(pipe.length));
    }
  }

  /// A pocket behind each local high point, as high at most as the pipe falls behind it.
  void add_air(std::size_t index) {
    const model::Pipe& pipe = farm_.pipes[index];
    const PipeCourse course = course_of(farm_, pipe, month_);
    for (std::size_t i = 1; i + 1 < course.points.size(); ++i) {
      const CoursePoint& high = course.points[i];
      const bool rises_to = course.points[i - 1].elevation_m <= high.elevation_m + least_rise_m;
      const bool vented =
          std::any_of(pipe.vents.begin(), pipe.vents.end(), [&](const model::Vent& vent) {
            return std::abs(in_metres(vent.distance) - high.at_m) < 0.5;
          });
      double low_m = high.elevation_m;
      for (std::size_t k = i + 1; k < course.points.size() && course.points[k].elevation_m < low_m;
           ++k) {
        low_m = course.points[k].elevation_m;
      }
      const double fall_m = high.elevation_m - low_m;
      if (rises_to && !vented && fall_m > 0.02) {
        add({CauseKind::TrappedAir,
             true,
             index,
             high.at_m,
             std::min(0.01, fall_m / 4.0),
             fall_m,
             SizeScale::Logarithmic,
             fall_m / 3.0,
             1.0,
             air_weight});
      }
    }
  }

  void add_level(
      CauseKind kind, bool at_pipe, std::size_t index, model::Instrument with, double distance_m) {
    const model::Instrument instrument =
        with == model::Instrument::Unsaid ? farm_.surveyed_with : with;
    const double spread =
        std::hypot(level_deviation_m(level_error_of(instrument), distance_m), misread_m);
    add({kind,
         at_pipe,
         index,
         0.0,
         -5.0 * spread,
         5.0 * spread,
         SizeScale::Linear,
         0.0,
         spread,
         level_weight});
  }

  void add_place(std::size_t index) {
    const model::Place& place = farm_.places[index];
    if (!model::settles(place)) {
      add_level(
          CauseKind::LevelWrong, false, index, place.surveyed_with, sight_distance_m(farm_, index));
    }
    if (const auto* const yield = model::yield_of(place)) {
      if (in_cubic_metres_per_second(yield->at(month_)) > 0.0) {
        add({CauseKind::SpringWeaker,
             false,
             index,
             0.0,
             0.01,
             0.99,
             SizeScale::Logarithmic,
             0.3,
             0.8,
             spring_weight});
      }
    }
    if (model::is_tee(place)) {
      add({CauseKind::LeakAtTee,
           false,
           index,
           0.0,
           3e-4,
           0.05,
           SizeScale::Logarithmic,
           4e-3,
           0.8,
           leak_weight});
    }
  }

  const model::Farm& farm_;
  std::optional<model::Month> month_;
  std::vector<FitSite> sites_;
};

void raise(model::MonthSeries<Elevation>& levels, Length rise) {
  for (Elevation& level : levels.by_month) {
    level = level + rise;
  }
}

/// Raises the level that the file gives of a place; intakes of open water stay.
void raise(model::Place& place, Length rise) {
  std::visit(
      Overload{[&](model::Spring& spring) {
                 spring.overflow = spring.overflow + rise;
                 spring.intake = spring.intake + rise;
               },
               [&](model::Creek& creek) { raise(creek.surface, rise); },
               [&](model::Pond& pond) { raise(pond.surface, rise); },
               [&](model::Tank& tank) { tank.floor = tank.floor + rise; },
               [&](model::Trough& trough) { trough.float_level = trough.float_level + rise; },
               [&](model::Outlet& outlet) { outlet.level = outlet.level + rise; },
               [&](model::Tee& tee) { tee.elevation = tee.elevation + rise; }},
      place.data);
}

/// Takes a share of its yield from a spring.
void lessen_yield(model::Place& place, double missing) {
  std::visit(Overload{[&](model::Spring& spring) {
                        for (Flow& yield : spring.yield.by_month) {
                          yield = yield * (1.0 - missing);
                        }
                      },
                      [](model::AnyOf<model::Creek,
                                      model::Pond,
                                      model::Tank,
                                      model::Trough,
                                      model::Outlet,
                                      model::Tee> auto&) {}},
             place.data);
}

/// A path's end stands where its place stands.
void raise_path_ends(model::Farm& farm, std::size_t place, Length rise) {
  for (model::Pipe& pipe : farm.pipes) {
    if (pipe.path.empty()) {
      continue;
    }
    if (pipe.from == place) {
      pipe.path.front().elevation = pipe.path.front().elevation + rise;
    }
    if (pipe.to == place) {
      pipe.path.back().elevation = pipe.path.back().elevation + rise;
    }
  }
}

void add_k(model::Pipe& pipe, double k, model::Placement::Where where) {
  model::Fitting fitting;
  fitting.name = "k";
  fitting.loss_coefficient = k;
  fitting.place.where = where;
  pipe.fittings.push_back(fitting);
}

}  // namespace

std::vector<FitSite> fit_sites(const model::Farm& farm, std::optional<model::Month> month) {
  return SiteList(farm, month).find();
}

double sight_distance_m(const model::Farm& farm, std::size_t place) {
  double shortest_m = 1e9;
  for (const model::Pipe& pipe : farm.pipes) {
    if (pipe.from == place || pipe.to == place) {
      shortest_m = std::min(shortest_m, in_metres(pipe.length));
    }
  }
  return shortest_m < 1e9 ? shortest_m : 1.0;
}

void put_in(const FitSite& site, double size, model::Farm& farm) {
  switch (site.kind) {
    case CauseKind::BlockedScreen:
      add_k(farm.pipes[site.index], size, model::Placement::Where::Start);
      break;
    case CauseKind::KinkedPipe:
      add_k(farm.pipes[site.index], size, model::Placement::Where::Spread);
      break;
    case CauseKind::SiltedPipe:
      farm.pipes[site.index].size.bore = farm.pipes[site.index].size.bore * (1.0 - size);
      break;
    case CauseKind::ValveNotOpen:
      farm.pipes[site.index].valve->open = size;
      break;
    case CauseKind::LevelWrong:
      raise(farm.places[site.index], metres(size));
      raise_path_ends(farm, site.index, metres(size));
      break;
    case CauseKind::PipeEndWrong:
      farm.pipes[site.index].ends = *farm.pipes[site.index].ends + metres(size);
      if (!farm.pipes[site.index].path.empty()) {
        model::PathPoint& last = farm.pipes[site.index].path.back();
        last.elevation = last.elevation + metres(size);
      }
      break;
    case CauseKind::WaterColder:
      for (Temperature& water : farm.site.water.by_month) {
        water = celsius(std::max(0.0, in_celsius(water) - size));
      }
      break;
    case CauseKind::SpringWeaker:
      lessen_yield(farm.places[site.index], size);
      break;
    case CauseKind::TrappedAir:
    case CauseKind::LeakAtTee:
      break;
  }
}

void take_out(const FitSite& site, const model::Farm& filed, model::Farm& farm) {
  if (site.kind == CauseKind::WaterColder) {
    farm.site.water = filed.site.water;
  } else if (site.at_pipe) {
    model::Pipe& pipe = farm.pipes[site.index];
    const model::Pipe& before = filed.pipes[site.index];
    pipe.fittings.resize(before.fittings.size());
    pipe.size.bore = before.size.bore;
    pipe.valve = before.valve;
    pipe.ends = before.ends;
    pipe.path = before.path;
  } else if (site.kind != CauseKind::LeakAtTee) {
    farm.places[site.index].data = filed.places[site.index].data;
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      if (farm.pipes[i].from == site.index || farm.pipes[i].to == site.index) {
        farm.pipes[i].path = filed.pipes[i].path;
      }
    }
  }
}

double on_scale(const FitSite& site, double size) {
  return site.scale == SizeScale::Logarithmic ? std::log(size) : size;
}

double off_scale(const FitSite& site, double scaled) {
  return site.scale == SizeScale::Logarithmic ? std::exp(scaled) : scaled;
}

double chance_between(const FitSite& site, double low, double high) {
  const auto below = [&](double size) {
    const double z = (on_scale(site, size) - on_scale(site, site.usual)) / site.usual_spread;
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
  };
  // `usual` of a linear scale may be 0, of a logarithmic one never is.
  return std::max(0.0, below(high) - below(low));
}

}  // namespace leat::solver
