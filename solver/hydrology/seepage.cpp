#include "solver/hydrology/seepage.h"

#include <array>
#include <cmath>

namespace leat::hydrology {
namespace {

constexpr std::array<SoilSeepage, 6> rows = {{{"sand", 25.0, 250.0},
                                              {"sandy loam", 13.0, 76.0},
                                              {"loam", 8.0, 20.0},
                                              {"clay loam", 2.5, 15.0},
                                              {"loamy clay", 0.25, 5.0},
                                              {"clay", 1.25, 10.0}}};

constexpr double acceptable_mm_per_day = 6.35;
constexpr double tolerable_mm_per_day = 50.0;
constexpr double leaky_mm_per_day = 100.0;

}  // namespace

std::span<const SoilSeepage> soil_seepages() {
  return rows;
}

std::optional<SoilSeepage> seepage_of_soil(std::string_view soil) {
  for (const SoilSeepage& row : rows) {
    if (row.soil == soil) {
      return row;
    }
  }
  return std::nullopt;
}

double middle_mm_per_day(const SoilSeepage& row) {
  return std::sqrt(row.low_mm_per_day * row.high_mm_per_day);
}

SeepageJudgement judge_seepage(double mm_per_day) {
  if (mm_per_day <= acceptable_mm_per_day) {
    return SeepageJudgement::Acceptable;
  }
  if (mm_per_day < tolerable_mm_per_day) {
    return SeepageJudgement::Tolerable;
  }
  return mm_per_day < leaky_mm_per_day ? SeepageJudgement::Heavy : SeepageJudgement::Leaky;
}

}  // namespace leat::hydrology
