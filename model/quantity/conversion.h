// Factors between the units in which water, rain and time are spoken of. Exact by definition.
#pragma once

namespace leat {

inline constexpr double seconds_per_minute = 60.0;
inline constexpr double seconds_per_hour = 3600.0;
inline constexpr double seconds_per_day = 86400.0;
inline constexpr double mm_per_m = 1000.0;

}  // namespace leat
