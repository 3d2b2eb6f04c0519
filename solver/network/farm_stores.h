// The waters of a farm whose level a season changes: tanks, ponds of known shape, troughs that hold
// a volume. How much each holds at a level.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/store_note.h"
#include "solver/hydrology/pond_volume.h"
#include "solver/nodal/problem.h"

namespace leat::solver {

/// A trough's water is taken to be so deep: its plan area is the volume it holds over this.
/// Common practice, no source (stock tanks are 0.4 to 0.6 m deep).
inline constexpr double trough_depth_m = 0.5;
/// A trough runs over where its water stands this far above its float. Common practice, no source.
inline constexpr double trough_freeboard_m = 0.05;

/// A store whose water stands no more than this above its lowest mouth counts as empty: no more of
/// it runs. Common practice, no source.
inline constexpr double empty_within_m = 0.02;

/// One store. Upright walls of `area_m2` above `bottom_m`, unless `pond` says otherwise.
struct StoreLaw {
  std::size_t place = 0;
  double bottom_m = 0.0;
  double brim_m = 0.0;   // where it spills
  double start_m = 0.0;  // level at the season's start
  double area_m2 = 0.0;
  std::optional<hydrology::PondVolume> pond;

  /// Water above the bottom and the area of the surface; below the bottom both go on downward.
  [[nodiscard]] nodal::Stored at(double level_m) const;
};

/// The lowest level at which a pipe takes water from a store; none where none does.
[[nodiscard]] std::optional<double> lowest_mouth_m(const model::Farm& farm, const StoreLaw& store);

/// The stores of a farm, found by place.
class FarmStores {
 public:
  FarmStores() = default;
  /// Ponds begin at the surface that `on` has, tanks at their depth (full where they settle),
  /// troughs at their floats. What was taken for granted is said in `notes`.
  FarmStores(const model::Farm& farm, model::Date on, std::vector<StoreNote>& notes);

  [[nodiscard]] const std::vector<StoreLaw>& laws() const { return laws_; }
  /// Index into `laws` of a place, or the greatest index where it is no store.
  [[nodiscard]] std::size_t of_place(std::size_t place) const { return of_place_[place]; }
  [[nodiscard]] const StoreLaw* find(std::size_t place) const;

 private:
  std::vector<StoreLaw> laws_;
  std::vector<std::size_t> of_place_;
};

}  // namespace leat::solver
