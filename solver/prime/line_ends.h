// How the two ends of a line are shut while it is filled: by what the file has there, by hand, or
// by what must be fitted first.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "solver/prime/prime_course.h"

namespace leat::solver {

/// Neither a cap is worked off nor a plug pulled against more than this (common practice, no
/// source) [Pa].
inline constexpr double most_on_a_cap_Pa = 50e3;
/// An end that lies less deep than this is not under water, as far as hands go [m].
inline constexpr double under_water_m = 0.01;

struct InletClosing {
  enum class By {
    OneWay,           // of the file: it opens by itself
    FittedFootValve,  // a plug would have to hold back too much
    Valve,            // of the file
    Plug
  };
  By by = By::Plug;
  std::string one_way;  // the catalogue's name of the file's one-way; empty for a one-way pipe
  model::ValveType valve = model::ValveType::Gate;
  double depth_m = 0.0;      // under the water the line starts from; 0 or less at its surface
  double standing_Pa = 0.0;  // what the full line puts on it, the summit open [gauge]

  /// Whether it holds the water without a hand, and lets it in without one.
  [[nodiscard]] bool holds_by_itself() const {
    return by == By::OneWay || by == By::FittedFootValve;
  }
};

struct OutletClosing {
  enum class By {
    Valve,        // of the file
    FittedValve,  // what the file has there does not hold or cannot be taken off
    Float,        // tied up
    Cap
  };
  By by = By::Cap;
  bool at_float = false;  // the line ends at a trough's float, in front of which a valve may be
  model::ValveType valve = model::ValveType::Gate;
  double opening = 1.0;      // of the file's valve, to run as the file has it; 1 where it is shut
  double depth_m = 0.0;      // under the water the line ends in; 0 or less where it falls out
  double standing_Pa = 0.0;  // what the full line puts on it, the summit open [gauge]
  std::optional<double> closes_against_Pa;  // the most the float closes against, where that is said

  [[nodiscard]] bool is_under_water() const { return depth_m > under_water_m; }
};

[[nodiscard]] InletClosing inlet_closing(const PrimeCourse& course, double density_kg_m3);
[[nodiscard]] OutletClosing outlet_closing(const model::Farm& farm,
                                           const PrimeCourse& course,
                                           double density_kg_m3);

}  // namespace leat::solver
