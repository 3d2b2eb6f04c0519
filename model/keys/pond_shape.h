// The shape of a pond: levels with areas, or a pond dug with even slopes.
#pragma once

#include <optional>
#include <utility>

#include "model/keys/key.h"

namespace leat::model {

/// A pond dug with even slopes, as its keys tell it.
struct DugPond {
  std::optional<std::pair<Length, Length>> top;
  std::optional<Length> diameter;
  double side_run = 0.0;  // upright
  Length depth;
};

[[nodiscard]] const Keys<DugPond>& dug_pond_keys();

/// Reads either kind of shape (codes not-rising, wrong-shape, contradictory, out-of-range).
[[nodiscard]] PondShape read_pond_shape(const YamlNode& node,
                                        const std::string& what,
                                        LoadContext& context);

}  // namespace leat::model
