#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "solver/findings/judging.h"
#include "solver/findings/states.h"
#include "solver/network/pipe_geometry.h"

namespace leat::solver {

namespace {

void raise_vapour(const Judging& on,
                  const SolvedCase& solved,
                  const std::string& place,
                  const PlaceSight& sight) {
  const bool below = sight.is_below_vapour();
  on.findings.raise(
      made_finding(below ? Code::BelowVapour : Code::NearVapour,
                   Severity::Danger,
                   place,
                   solved.load_case,
                   {sight.margin_m, below ? 0.0 : near_vapour_margin_m, Measure::Length},
                   PlaceNearVapour{}),
      Worse::Lower);
}

void raise_suction(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Place& place = on.farm.places[index];
  const PlaceAnswer& water = solved.places[index];
  const bool leaks = std::get<model::Tee>(place.data).leaks;
  on.findings.raise(made_finding(leaks ? Code::AirLeak : Code::SuctionAtTee,
                                 Severity::Caution,
                                 place.name,
                                 solved.load_case,
                                 {*water.pressure_Pa, -suction_limit_Pa, Measure::Pressure},
                                 TeeInSuction{water.elevation_m - *water.head_m}),
                    Worse::Lower);
}

/// The lowest pressure at a written distance of a pipe's course.
std::optional<double> pressure_at_Pa(const std::vector<PipePoint>& points, double at_m) {
  std::optional<double> lowest;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const PipePoint& a = points[i - 1];
    const PipePoint& b = points[i];
    if (at_m < a.at_m || at_m > b.at_m) {
      continue;
    }
    const double share = b.at_m > a.at_m ? (at_m - a.at_m) / (b.at_m - a.at_m) : 0.0;
    double pressure_Pa = a.pressure_Pa + share * (b.pressure_Pa - a.pressure_Pa);
    if (b.at_m <= a.at_m) {
      pressure_Pa = std::min(a.pressure_Pa, b.pressure_Pa);
    }
    lowest = std::min(lowest.value_or(pressure_Pa), pressure_Pa);
  }
  return lowest;
}

/// A joint with a place, not under the open water at an end.
struct Joint {
  std::optional<std::string> fitting;  // none: the valve
  double at_m = 0.0;
};

std::vector<Joint> placed_joints(const Judging& on,
                                 const model::Pipe& pipe,
                                 const PipeCourse& course) {
  std::vector<Joint> joints;
  const auto add = [&](std::optional<std::string> fitting, const model::Placement& place) {
    const double at_m = distance_of(place, course);
    const bool under_start =
        at_m <= course.points.front().at_m && model::is_open_water(on.farm.places[pipe.from]);
    const bool under_end =
        at_m >= course.points.back().at_m && model::is_open_water(on.farm.places[pipe.to]);
    if (!under_start && !under_end) {
      joints.push_back({std::move(fitting), at_m});
    }
  };
  for (const model::Fitting& fitting : pipe.fittings) {
    if (fitting.place.where != model::Placement::Where::Spread) {
      add(fitting.name, fitting.place);
    }
  }
  if (pipe.valve && pipe.valve->place) {
    add(std::nullopt, *pipe.valve->place);
  }
  return joints;
}

struct Reach {
  double from_m = 0.0;
  double to_m = 0.0;
};

/// From the first to the last point of a pipe in suction, as written distances; empty where none
/// is, or only a pipe's very end.
std::optional<Reach> suction_reach(const std::vector<PipePoint>& points) {
  std::optional<Reach> reach;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double before = points[i - 1].pressure_Pa + suction_limit_Pa;
    const double after = points[i].pressure_Pa + suction_limit_Pa;
    if (before >= 0.0 && after >= 0.0) {
      continue;
    }
    const double span_m = points[i].at_m - points[i - 1].at_m;
    const bool crosses = (before < 0.0) != (after < 0.0);
    const double crossing_m =
        crosses ? points[i - 1].at_m + span_m * before / (before - after) : points[i].at_m;
    const double from_m = before < 0.0 ? points[i - 1].at_m : crossing_m;
    const double to_m = after < 0.0 ? points[i].at_m : crossing_m;
    reach = Reach{reach ? reach->from_m : from_m, to_m};
  }
  return reach && reach->to_m > reach->from_m ? reach : std::nullopt;
}

/// Fittings whose place is not said, in a pipe part of which is under suction: a note, as they may
/// all sit elsewhere.
void note_unplaced_joints(const Judging& on,
                          const SolvedCase& solved,
                          std::size_t index,
                          const PipeWater& water) {
  const model::Pipe& pipe = on.farm.pipes[index];
  int unplaced = 0;
  for (const model::Fitting& fitting : pipe.fittings) {
    const bool is_piece = fitting.name != "k";
    if (is_piece && fitting.place.where == model::Placement::Where::Spread) {
      unplaced += fitting.count;
    }
  }
  const std::optional<Reach> reach = suction_reach(water.points);
  if (unplaced == 0 || !reach) {
    return;
  }
  on.findings.raise(
      made_finding(Code::AirLeak,
                   Severity::Note,
                   pipe.name,
                   solved.load_case,
                   {*solved.pipes[index].lowest_pressure_Pa, -suction_limit_Pa, Measure::Pressure},
                   JointsUnplaced{reach->from_m, reach->to_m, unplaced}),
      Worse::Lower);
}

void judge_joints(const Judging& on, const SolvedCase& solved, std::size_t index) {
  const model::Pipe& pipe = on.farm.pipes[index];
  const PipeAnswer& answer = solved.pipes[index];
  if (!answer.lowest_pressure_Pa || *answer.lowest_pressure_Pa >= -suction_limit_Pa) {
    return;
  }
  const PipeWater water = water_along(solved.state, index);
  for (const Joint& joint :
       placed_joints(on, pipe, solved.state.network->pipes[index].cut.course)) {
    const std::optional<double> pressure_Pa = pressure_at_Pa(water.points, joint.at_m);
    if (pressure_Pa && *pressure_Pa < -suction_limit_Pa) {
      on.findings.raise(made_finding(Code::AirLeak,
                                     Severity::Caution,
                                     pipe.name,
                                     solved.load_case,
                                     {*pressure_Pa, -suction_limit_Pa, Measure::Pressure},
                                     JointInSuction{joint.fitting, joint.at_m}),
                        Worse::Lower);
    }
  }
  note_unplaced_joints(on, solved, index, water);
}

/// A place in the load case that leaves it the least above vapour: one finding for all cases.
void judge_place(const Judging& on, std::size_t index) {
  const SolvedCase* worst = nullptr;
  PlaceSight sight;
  for (const SolvedCase& solved : on.cases) {
    const PlaceSight here = sight_of(on, solved, index);
    if (here.margin_m < sight.margin_m - 1e-6) {
      sight = here;
      worst = &solved;
    }
  }
  if (worst == nullptr) {
    return;
  }
  if (sight.is_below_vapour() || sight.is_near_vapour()) {
    raise_vapour(on, *worst, on.farm.places[index].name, sight);
  } else if (sight.is_in_suction) {
    raise_suction(on, *worst, index);
  }
}

}  // namespace

void judge_suction(const Judging& on) {
  for (std::size_t i = 0; i < on.farm.places.size(); ++i) {
    judge_place(on, i);
  }
  for (const SolvedCase& solved : on.cases) {
    for (std::size_t i = 0; i < on.farm.pipes.size(); ++i) {
      judge_joints(on, solved, i);
    }
  }
}

}  // namespace leat::solver
