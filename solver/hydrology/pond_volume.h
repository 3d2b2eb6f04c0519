// How much water a pond holds at a level, and how wide it lies there.
#pragma once

#include <span>
#include <vector>

namespace leat::hydrology {

/// One row of a stage-area table.
struct LevelAndArea {
  double level_m = 0.0;
  double area_m2 = 0.0;
};

/// A pond's area and volume by level. The volume is the exact integral of the area and rises
/// strictly with the level everywhere, so that either gives the other and no solver divides by
/// nothing:
/// - below the bottom a shaft of `least_area_m2` goes on down (volumes there are negative), and no
///   area inside the pond is smaller than that;
/// - above the top the walls are upright: what is not known is not counted as room.
class PondVolume {
 public:
  /// A square of 1 cm. It adds less than 1 mL a metre.
  static constexpr double least_area_m2 = 1e-4;

  /// Areas straight between the rows. Throws std::invalid_argument with fewer than two rows, levels
  /// that do not rise, or an area that is negative or not a number.
  [[nodiscard]] static PondVolume from_table(std::span<const LevelAndArea> rows);

  /// A rectangle with equal slopes on all sides, `side_run` across for 1 down (0: upright). Sides
  /// that meet before `depth_m` end the pond there. Throws std::invalid_argument where a size is
  /// not above nothing, or the run is negative.
  [[nodiscard]] static PondVolume prism(
      double top_level_m, double top_length_m, double top_width_m, double side_run, double depth_m);

  /// A round pond with one slope all around; as `prism` else.
  [[nodiscard]] static PondVolume cone(double top_level_m,
                                       double top_diameter_m,
                                       double side_run,
                                       double depth_m);

  /// Volume above the bottom [m3]; negative below it.
  [[nodiscard]] double volume_m3(double level_m) const;
  /// Surface area [m2]: the derivative of the volume by the level (at a jump, from above).
  [[nodiscard]] double area_m2(double level_m) const;
  /// The level at which the pond holds that volume [m].
  [[nodiscard]] double level_m(double volume_m3) const;

  [[nodiscard]] double bottom_level_m() const { return layers_.front().level_m; }
  [[nodiscard]] double top_level_m() const { return top_level_m_; }
  [[nodiscard]] double full_volume_m3() const { return full_volume_m3_; }

 private:
  // Between its level and the next the area is constant + linear z + square z^2 at the height z
  // above its level.
  struct Layer {
    double level_m = 0.0;
    double volume_below_m3 = 0.0;
    double constant_m2 = 0.0;
    double linear_m = 0.0;
    double square = 0.0;
  };

  PondVolume() = default;
  void add_layer(Layer layer);
  void finish(double top_level_m);
  [[nodiscard]] static PondVolume sloped(double top_level_m, double depth_m, Layer from_bottom);
  [[nodiscard]] const Layer& layer_at(double level_m) const;
  [[nodiscard]] static double area_in(const Layer& layer, double height_m);
  [[nodiscard]] static double volume_in(const Layer& layer, double height_m);

  std::vector<Layer> layers_;
  double top_level_m_ = 0.0;
  double full_volume_m3_ = 0.0;
  double top_area_m2_ = 0.0;
};

}  // namespace leat::hydrology
