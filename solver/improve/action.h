// What a keeper does for a change, as values: names of the farm, figures in SI.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "model/farm/farm.h"

namespace leat::solver {

/// A pipe laid anew in a wider size.
struct LayWider {
  std::string pipe;
  std::string size;
  bool operator==(const LayWider&) const = default;
};
/// A second line of the same pipe beside it.
struct LayBeside {
  std::string pipe;
  bool operator==(const LayBeside&) const = default;
};
/// A fitting taken out, or swapped for another; what is to be known of it then.
struct ChangeFitting {
  enum class Consequence { None, NeedsOtherPriming, MayRunBack };
  std::string pipe;
  std::string from;
  std::string to;  // empty: taken out
  Consequence consequence = Consequence::None;
  bool operator==(const ChangeFitting&) const = default;
};
struct OpenValve {
  std::string pipe;
  bool operator==(const OpenValve&) const = default;
};
/// A valve set part shut; a new one stands at the end of its pipe.
struct SetValve {
  std::string pipe;
  model::ValveType type = model::ValveType::Gate;
  double open = 1.0;  // as in the file: share of the stem's travel, or 1 - angle / 90 degrees
  bool is_new = false;
  bool operator==(const SetValve&) const = default;
};
/// A level moved: lower where water is taken, higher where it comes from.
struct MoveLevel {
  enum class What { FreeEnd, Float, Trough, Outlet, CreekIntake, Spring, Tank };
  What what = What::Float;
  std::string where;  // the pipe of a free end, else the place
  double by_m = 0.0;  // above 0: how far, down or up
  bool operator==(const MoveLevel&) const = default;
};
struct ChangeSeat {
  std::string place;
  double seat_mm = 0.0;
  bool is_wider = false;
  bool operator==(const ChangeSeat&) const = default;
};
/// A store at a trough that fills day and night.
struct BuildStore {
  std::string place;
  double volume_m3 = 0.0;
  bool operator==(const BuildStore&) const = default;
};
struct BuildSettlingTank {
  std::string place;
  double depth_m = 0.0;
  bool operator==(const BuildSettlingTank&) const = default;
};
/// Air let out at a tee, or at the high point of a pipe so far along it.
struct BleedAir {
  std::string where;
  std::optional<double> along_m;
  bool operator==(const BleedAir&) const = default;
};
/// One trough drinks alone for `parts` of so many parts of the hours, the others in the rest.
struct TakeTurns {
  std::string place;
  int parts = 0;
  int of_parts = 1;
  std::optional<double> hours;  // that all drink through; none where they differ
  bool operator==(const TakeTurns&) const = default;
};

using Action = std::variant<LayWider,
                            LayBeside,
                            ChangeFitting,
                            OpenValve,
                            SetValve,
                            MoveLevel,
                            ChangeSeat,
                            BuildStore,
                            BuildSettlingTank,
                            BleedAir,
                            TakeTurns>;

}  // namespace leat::solver
