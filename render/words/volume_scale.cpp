#include "render/words/volume_scale.h"

#include <cmath>

#include "model/quantity/quantity.h"
#include "render/words/number_text.h"

namespace leat::render {

VolumeScale volume_scale(double greatest_m3, model::UnitSystem units) {
  const double size_m3 = std::abs(greatest_m3);
  if (units == model::UnitSystem::Metric) {
    constexpr double litres_below_m3 = 10.0;
    return size_m3 < litres_below_m3 ? VolumeScale{1e3, "L"} : VolumeScale{1.0, "m3"};
  }
  constexpr double gallons_below = 1e5;
  const double gallons_per_m3 = in_us_gallons(cubic_metres(1.0));
  return size_m3 * gallons_per_m3 < gallons_below ? VolumeScale{gallons_per_m3, "gal"}
                                                  : VolumeScale{gallons_per_m3 / 1e3, "1000 gal"};
}

std::string volume_text(double volume_m3, const VolumeScale& scale) {
  return significant_text(volume_m3 * scale.per_m3);
}

}  // namespace leat::render
