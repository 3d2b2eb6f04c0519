#include "solver/hydrology/curve_number.h"

#include <algorithm>

namespace leat::hydrology {

double day_runoff_mm(double rain_mm, double curve_number) {
  if (!(curve_number > 0.0) || !(rain_mm > 0.0)) {
    return 0.0;
  }
  const double storage_mm = 25400.0 / std::min(curve_number, 100.0) - 254.0;
  const double excess_mm = rain_mm - 0.2 * storage_mm;
  if (excess_mm <= 0.0) {
    return 0.0;
  }
  return excess_mm * excess_mm / (rain_mm + 0.8 * storage_mm);
}

double month_runoff_mm(double rain_mm, double rain_days, double curve_number) {
  if (!(rain_days > 0.0)) {
    return 0.0;
  }
  return rain_days * day_runoff_mm(rain_mm / rain_days, curve_number);
}

}  // namespace leat::hydrology
