// What differs between farms that stand beside each other, as values.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "solver/compare/compare.h"

namespace leat::solver {

/// Flows that differ by less than this share of the greater one are told as the same.
inline constexpr double same_flow_share = 0.01;

// Each is a difference of one farm (`here`) from the first one (`there`).

/// What reaches troughs, outlets and ponds in all [m3/s].
struct WaterDiffers {
  double here_m3_s = 0.0;
  double there_m3_s = 0.0;
};
/// The share of all needs that is met, by whole per cent.
struct MetDiffers {
  double here = 0.0;
  double there = 0.0;
};
/// Hours dry, all troughs together.
struct DryHoursDiffer {
  double here_h = 0.0;
  double there_h = 0.0;
};
/// What one place gets, and the share of its need that is here, where it has one.
struct PlaceGets {
  std::string place;
  double here_m3_s = 0.0;
  double there_m3_s = 0.0;
  std::optional<double> met;
};
/// The first day on which a place goes short; none where it never does.
struct FirstDryDay {
  std::string place;
  std::optional<model::Date> here;
  std::optional<model::Date> there;
};
/// A place that the first farm has not.
struct PlaceAdded {
  std::string place;
  double here_m3_s = 0.0;
  std::optional<double> met;
};
/// A place that this farm has not.
struct PlaceMissing {
  std::string place;
};
/// So many more places are not compared.
struct PlacesLeftOut {
  std::size_t count = 0;
};
/// The lowest a pond stands [m, the farm's datum].
struct LowestLevel {
  std::string pond;
  double here_m = 0.0;
  double there_m = 0.0;
};
struct EnergyDiffers {
  double here_kWh = 0.0;
  double there_kWh = 0.0;
};
/// What rams let run off.
struct WasteDiffers {
  double here_m3 = 0.0;
  double there_m3 = 0.0;
};
struct StartingDiffers {
  StartingEffort here;
  StartingEffort there;
};
struct PartsDiffer {
  MovingParts here;
  MovingParts there;
};
/// Lengths of pipe that this farm has more of (below 0: less), by size.
struct PipeDiffers {
  struct Size {
    std::string size;
    double more_m = 0.0;
  };
  std::vector<Size> sizes;
};
/// Something differs, and the pipe does not.
struct SamePipe {};
/// A danger or caution of one of the two alone.
struct FlagDiffers {
  bool is_here = false;
  Severity severity = Severity::Caution;
  Code code = Code::Starved;
  std::string where;
};
struct NothingDiffers {};

using DifferingThing = std::variant<WaterDiffers,
                                    MetDiffers,
                                    DryHoursDiffer,
                                    PlaceGets,
                                    FirstDryDay,
                                    PlaceAdded,
                                    PlaceMissing,
                                    PlacesLeftOut,
                                    LowestLevel,
                                    EnergyDiffers,
                                    WasteDiffers,
                                    StartingDiffers,
                                    PartsDiffer,
                                    PipeDiffers,
                                    SamePipe,
                                    FlagDiffers,
                                    NothingDiffers>;

/// One difference of a farm from the first one.
struct Difference {
  std::size_t farm = 0;  // index into Comparison::farms, 1 or more
  DifferingThing what;
};

/// How each farm differs from the first: flows, dry days, pond levels, energy, waste, starting,
/// moving parts, pipe, flags. Every farm has at least one; farms without an answer, and all where
/// the first has none, have none.
[[nodiscard]] std::vector<Difference> differences(const std::vector<const model::Farm*>& farms,
                                                  const Comparison& comparison);

}  // namespace leat::solver
