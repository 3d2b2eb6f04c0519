// What a pond loses through its bed, by the soil it lies in.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace leat::hydrology {

/// Seepage through an unlined bed of one soil, in depth of water a day over the wetted area.
struct SoilSeepage {
  std::string_view soil;
  double low_mm_per_day = 0.0;
  double high_mm_per_day = 0.0;
};

/// Sand, sandy loam, loam, clay loam, loamy clay, clay. Source: FAO training series, simple methods
/// for aquaculture, from memory: check before relying on it. (That clay stands above loamy clay is
/// as remembered: clay cracks when it dries.)
[[nodiscard]] std::span<const SoilSeepage> soil_seepages();

/// The row of that soil, matched exactly.
[[nodiscard]] std::optional<SoilSeepage> seepage_of_soil(std::string_view soil);

/// The rate taken where no better is known [mm/day]: the geometric mean, as the ends of the range
/// are about a factor of ten apart and neither should drown the other.
[[nodiscard]] double middle_mm_per_day(const SoilSeepage& row);

/// How bad a seepage is.
enum class SeepageJudgement {
  Acceptable,  // up to 6.35 mm (1/4 in) a day: the usual line in the trade, from memory
  Tolerable,   // below 50 mm a day: FAO training text x6705e
  Heavy,       // 50 to 100 mm a day: the same text leaves the space between its two lines open
  Leaky,       // 100 mm a day and more: the same text
};

[[nodiscard]] SeepageJudgement judge_seepage(double mm_per_day);

}  // namespace leat::hydrology
