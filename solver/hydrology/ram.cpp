#include "solver/hydrology/ram.h"

#include <algorithm>
#include <array>

#include "solver/hydrology/straight_table.h"

namespace leat::hydrology {
namespace {

constexpr std::array<TablePoint, 12> efficiency_by_ratio = {{{4.0, 0.72},
                                                             {6.0, 0.61},
                                                             {8.0, 0.52},
                                                             {10.0, 0.44},
                                                             {12.0, 0.37},
                                                             {14.0, 0.31},
                                                             {16.0, 0.25},
                                                             {18.0, 0.19},
                                                             {20.0, 0.14},
                                                             {22.0, 0.09},
                                                             {24.0, 0.04},
                                                             {26.0, 0.0}}};

TableValue table_efficiency(double lift_ratio) {
  if (lift_ratio < efficiency_by_ratio.front().x) {
    return {.value = efficiency_by_ratio.front().y, .slope = 0.0};
  }
  if (lift_ratio >= efficiency_by_ratio.back().x) {
    return {};
  }
  return straight_table_at(efficiency_by_ratio, lift_ratio);
}

}  // namespace

double daubuisson_efficiency(double drive_m3_s,
                             double fall_m,
                             double delivery_m3_s,
                             double lift_m) {
  return delivery_m3_s * lift_m / (drive_m3_s * fall_m);
}

double rankine_efficiency(double drive_m3_s, double fall_m, double delivery_m3_s, double lift_m) {
  return delivery_m3_s * (lift_m - fall_m) / ((drive_m3_s - delivery_m3_s) * fall_m);
}

double ram_efficiency(double lift_ratio) {
  return table_efficiency(lift_ratio).value;
}

RamShare ram_share(double lift_ratio, std::optional<double> efficiency) {
  const double ratio = std::max(lift_ratio, 1.0);
  const TableValue working =
      efficiency ? TableValue{.value = std::clamp(*efficiency, 0.0, 1.0), .slope = 0.0}
                 : table_efficiency(ratio);
  const double share = working.value / ratio;
  const double slope = lift_ratio < 1.0 ? 0.0 : (working.slope - share) / ratio;
  return {.share = share, .slope_per_ratio = slope};
}

RamShare ram_share_until_stall(double lift_ratio, std::optional<double> efficiency) {
  constexpr double fading_from = 24.0;
  RamShare made = ram_share(lift_ratio, efficiency);
  if (!efficiency || lift_ratio <= fading_from) {
    return made;
  }
  if (lift_ratio >= stall_lift_ratio) {
    return {};
  }
  const double left = (stall_lift_ratio - lift_ratio) / (stall_lift_ratio - fading_from);
  made.slope_per_ratio =
      made.slope_per_ratio * left - made.share / (stall_lift_ratio - fading_from);
  made.share *= left;
  return made;
}

}  // namespace leat::hydrology
