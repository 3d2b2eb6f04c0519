// The line that is to be primed, as whoever fills it meets it: its summit, its other high points,
// its dips, what can be shut at its two ends, and how much water goes where.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/flow/line_course.h"

namespace leat::solver {

/// A line that climbs less above its water fills by itself [m].
inline constexpr double least_climb_m = 1e-6;

/// What keeps the water in one end of the line while it is filled.
struct EndClosure {
  enum class Kind {
    OneWay,  // a foot valve or another one-way at the inlet, under the source's level
    Valve,   // a valve of the file
    Float,   // a trough's float valve, tied up
    Cap      // nothing in the file: a cap or plug put on by hand
  };
  Kind kind = Kind::Cap;
  std::size_t pipe = 0;
  std::string
      one_way;  // the catalogue's name of that piece; empty where the pipe itself is one-way
  model::ValveType valve = model::ValveType::Gate;
};

/// A reach between two turning points of the line, within one pipe.
struct PrimeLeg {
  std::size_t pipe = 0;
  double from_m = 0.0;  // distances as the file writes them
  double to_m = 0.0;
  double from_elevation_m = 0.0;
  double to_elevation_m = 0.0;
  double volume_m3 = 0.0;
};

/// A lower high point where air gathers while the line is filled; the lower end is one where the
/// line rises to it.
struct BleedPoint {
  std::size_t point = 0;       // index into the line's points
  bool on_inlet_side = false;  // between the source and the summit
  double volume_m3 = 0.0;      // goes in until water stands there, after the one before
};

struct PrimeCourse {
  LineCourse line;
  double source_m = 0.0;   // level of the water it starts from
  double end_m = 0.0;      // level it ends in or falls out at
  std::size_t summit = 0;  // index into the line's points: its highest, the first of several
  std::optional<std::size_t> summit_tee;  // the place, where that is a tee
  std::vector<BleedPoint> bleeds;         // in the order in which they are capped while it fills
  std::vector<PrimeLeg> legs;
  double volume_m3 = 0.0;       // of the whole line
  double inlet_side_m3 = 0.0;   // up to the summit
  double outlet_side_m3 = 0.0;  // from there on
  double already_in_m3 = 0.0;   // stands in the inlet leg by itself, up to the source's level
  double narrowest_area_m2 = 0.0;
  EndClosure inlet;
  EndClosure outlet;

  [[nodiscard]] const LinePoint& top() const { return line.points[summit]; }
  /// How far the summit stands above the source's level [m].
  [[nodiscard]] double climb_m() const { return top().elevation_m - source_m; }
  [[nodiscard]] bool fills_itself() const { return climb_m() <= least_climb_m; }
  [[nodiscard]] bool is_lower_end(const BleedPoint& bleed) const {
    return bleed.point + 1 == line.points.size();
  }
  /// Whether the lower end must stay open until water has pushed the air out of it.
  [[nodiscard]] bool bleeds_at_lower_end() const {
    return std::any_of(bleeds.begin(), bleeds.end(), [this](const BleedPoint& bleed) {
      return is_lower_end(bleed);
    });
  }
};

[[nodiscard]] PrimeCourse prime_course(const model::Farm& farm,
                                       const SteadyAnswer& answer,
                                       const LineCourse& line);

}  // namespace leat::solver
