#include "solver/hydrology/pond_volume.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <stdexcept>

namespace leat::hydrology {
namespace {

void require(bool holds, const char* sentence) {
  if (!holds) {
    throw std::invalid_argument(sentence);
  }
}

bool is_size(double value) {
  return std::isfinite(value) && value > 0.0;
}

}  // namespace

void PondVolume::add_layer(Layer layer) {
  if (!layers_.empty()) {
    const Layer& below = layers_.back();
    layer.volume_below_m3 = below.volume_below_m3 + volume_in(below, layer.level_m - below.level_m);
  }
  layers_.push_back(layer);
}

void PondVolume::finish(double top_level_m) {
  const Layer& last = layers_.back();
  top_level_m_ = top_level_m;
  full_volume_m3_ = last.volume_below_m3 + volume_in(last, top_level_m - last.level_m);
  top_area_m2_ = area_in(last, top_level_m - last.level_m);
}

PondVolume PondVolume::from_table(std::span<const LevelAndArea> rows) {
  require(rows.size() >= 2, "a stage-area table has two rows or more");
  for (std::size_t i = 0; i < rows.size(); ++i) {
    require(std::isfinite(rows[i].level_m), "a stage-area table's levels are numbers");
    require(i == 0 || rows[i - 1].level_m < rows[i].level_m,
            "a stage-area table's levels rise from row to row");
    require(std::isfinite(rows[i].area_m2) && rows[i].area_m2 >= 0.0,
            "a stage-area table's areas are numbers and not negative");
  }
  PondVolume pond;
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const double low_m2 = std::max(rows[i].area_m2, least_area_m2);
    const double high_m2 = std::max(rows[i + 1].area_m2, least_area_m2);
    Layer layer;
    layer.level_m = rows[i].level_m;
    layer.constant_m2 = low_m2;
    layer.linear_m = (high_m2 - low_m2) / (rows[i + 1].level_m - rows[i].level_m);
    pond.add_layer(layer);
  }
  pond.finish(rows.back().level_m);
  return pond;
}

PondVolume PondVolume::prism(
    double top_level_m, double top_length_m, double top_width_m, double side_run, double depth_m) {
  require(std::isfinite(top_level_m), "a pond's top level is a number");
  require(is_size(top_length_m) && is_size(top_width_m) && is_size(depth_m),
          "a pond's length, width and depth are above nothing");
  require(std::isfinite(side_run) && side_run >= 0.0, "a pond's sides do not overhang");
  const double reach_m = 0.5 * std::min(top_length_m, top_width_m);  // half the way across
  const double depth = side_run * depth_m > reach_m ? reach_m / side_run : depth_m;
  const double bottom_length_m = std::max(top_length_m - 2.0 * side_run * depth, 0.0);
  const double bottom_width_m = std::max(top_width_m - 2.0 * side_run * depth, 0.0);
  // (l + 2 s z)(w + 2 s z)
  Layer layer;
  layer.constant_m2 = bottom_length_m * bottom_width_m;
  layer.linear_m = 2.0 * side_run * (bottom_length_m + bottom_width_m);
  layer.square = 4.0 * side_run * side_run;
  return sloped(top_level_m, depth, layer);
}

PondVolume PondVolume::cone(double top_level_m,
                            double top_diameter_m,
                            double side_run,
                            double depth_m) {
  require(std::isfinite(top_level_m), "a pond's top level is a number");
  require(is_size(top_diameter_m) && is_size(depth_m),
          "a pond's diameter and depth are above nothing");
  require(std::isfinite(side_run) && side_run >= 0.0, "a pond's sides do not overhang");
  const double reach_m = 0.5 * top_diameter_m;
  const double depth = side_run * depth_m > reach_m ? reach_m / side_run : depth_m;
  const double bottom_radius_m = std::max(reach_m - side_run * depth, 0.0);
  // pi (r + s z)^2
  Layer layer;
  layer.constant_m2 = std::numbers::pi * bottom_radius_m * bottom_radius_m;
  layer.linear_m = 2.0 * std::numbers::pi * bottom_radius_m * side_run;
  layer.square = std::numbers::pi * side_run * side_run;
  return sloped(top_level_m, depth, layer);
}

PondVolume PondVolume::sloped(double top_level_m, double depth_m, Layer from_bottom) {
  PondVolume pond;
  from_bottom.level_m = top_level_m - depth_m;
  const double lacking_m2 = least_area_m2 - from_bottom.constant_m2;
  if (lacking_m2 > 0.0) {
    // The sides meet: a shaft up to the height z where linear z + square z^2 = lacking.
    const double discriminant =
        from_bottom.linear_m * from_bottom.linear_m + 4.0 * from_bottom.square * lacking_m2;
    const double divisor = from_bottom.linear_m + std::sqrt(discriminant);
    const double height_m = divisor > 0.0 ? 2.0 * lacking_m2 / divisor : depth_m;
    Layer shaft;
    shaft.level_m = from_bottom.level_m;
    shaft.constant_m2 = least_area_m2;
    pond.add_layer(shaft);
    if (height_m < depth_m) {
      from_bottom.level_m += height_m;
      from_bottom.constant_m2 = least_area_m2;
      from_bottom.linear_m += 2.0 * from_bottom.square * height_m;
      pond.add_layer(from_bottom);
    }
  } else {
    pond.add_layer(from_bottom);
  }
  pond.finish(top_level_m);
  return pond;
}

const PondVolume::Layer& PondVolume::layer_at(double level_m) const {
  const auto above = std::upper_bound(
      layers_.begin() + 1, layers_.end(), level_m, [](double level, const Layer& layer) {
        return level < layer.level_m;
      });
  return *(above - 1);
}

double PondVolume::area_in(const Layer& layer, double height_m) {
  return layer.constant_m2 + height_m * (layer.linear_m + height_m * layer.square);
}

double PondVolume::volume_in(const Layer& layer, double height_m) {
  return height_m *
         (layer.constant_m2 + height_m * (layer.linear_m / 2.0 + height_m * layer.square / 3.0));
}

double PondVolume::volume_m3(double level_m) const {
  if (level_m < bottom_level_m()) {
    return least_area_m2 * (level_m - bottom_level_m());
  }
  if (level_m >= top_level_m_) {
    return full_volume_m3_ + top_area_m2_ * (level_m - top_level_m_);
  }
  const Layer& layer = layer_at(level_m);
  return layer.volume_below_m3 + volume_in(layer, level_m - layer.level_m);
}

double PondVolume::area_m2(double level_m) const {
  if (level_m < bottom_level_m()) {
    return least_area_m2;
  }
  if (level_m >= top_level_m_) {
    return top_area_m2_;
  }
  const Layer& layer = layer_at(level_m);
  return area_in(layer, level_m - layer.level_m);
}

double PondVolume::level_m(double volume_m3) const {
  if (volume_m3 < 0.0) {
    return bottom_level_m() + volume_m3 / least_area_m2;
  }
  if (volume_m3 >= full_volume_m3_) {
    return top_level_m_ + (volume_m3 - full_volume_m3_) / top_area_m2_;
  }
  const auto above = std::upper_bound(
      layers_.begin() + 1, layers_.end(), volume_m3, [](double volume, const Layer& layer) {
        return volume < layer.volume_below_m3;
      });
  const Layer& layer = *(above - 1);
  const double wanted_m3 = volume_m3 - layer.volume_below_m3;
  double low_m = 0.0;
  double high_m = (above == layers_.end() ? top_level_m_ : above->level_m) - layer.level_m;
  // Newton's method held between bounds that close in; each turn at worst halves them.
  double height_m = 0.5 * high_m;
  for (int turn = 0; turn < 100; ++turn) {
    const double excess_m3 = volume_in(layer, height_m) - wanted_m3;
    (excess_m3 > 0.0 ? high_m : low_m) = height_m;
    const double newton_m = height_m - excess_m3 / area_in(layer, height_m);
    const double next_m =
        newton_m >= low_m && newton_m <= high_m ? newton_m : 0.5 * (low_m + high_m);
    const bool is_settled = std::abs(next_m - height_m) <= 1e-15 * (high_m + std::abs(next_m));
    height_m = next_m;
    if (is_settled) {
      break;
    }
  }
  return layer.level_m + height_m;
}

}  // namespace leat::hydrology
