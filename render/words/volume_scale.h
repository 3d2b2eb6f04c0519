// The unit a table or picture of volumes is written in: the one its largest figure reads best in.
#pragma once

#include <string>
#include <string_view>

#include "model/farm/farm.h"

namespace leat::render {

struct VolumeScale {
  double per_m3 = 1.0;
  std::string_view unit = "m3";
};

/// Litres below 10 m3, else cubic metres; gallons below 100 000 gal, else thousands of them.
[[nodiscard]] VolumeScale volume_scale(double greatest_m3, model::UnitSystem units);

/// The figure alone, two or three significant digits, no digit before the point lost.
[[nodiscard]] std::string volume_text(double volume_m3, const VolumeScale& scale);

}  // namespace leat::render
