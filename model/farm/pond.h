// The shape of a pond, what seeps out of it and what runs off into it.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "model/quantity/quantity.h"
#include "model/text/source_position.h"

namespace leat::model {

/// Area of a pond's surface when it stands at a level.
struct StageArea {
  Elevation level;
  Area area;
};

/// A pond dug with a rectangular top and even slopes.
struct PrismShape {
  Length top_length;
  Length top_width;
  double side_run = 0.0;  // 2 for sides of 2:1 (across : down); 0 is upright
  Length depth;           // from the top to the bottom
};

/// A round pond with even slopes.
struct ConeShape {
  Length diameter;  // at the top
  double side_run = 0.0;
  Length depth;
};

/// A table has at least two levels, which rise, and areas that never fall.
using PondShape = std::variant<std::monostate, std::vector<StageArea>, PrismShape, ConeShape>;

/// Land whose runoff reaches the pond.
struct Catchment {
  Area area;
  double curve_number = 0.0;  // above 0, at most 100
  SourcePosition position = {};
};

/// The soils whose seepage the season knows, as FAO's pond training series names them.
inline constexpr std::array<std::string_view, 6> soil_words = {
    "sand", "sandy loam", "loam", "clay loam", "loamy clay", "clay"};

/// Nothing said, a rate, or a word for the soil (`soil_words`).
using Seepage = std::variant<std::monostate, DepthRate, std::string>;

}  // namespace leat::model
