// Runoff from a catchment by curve number.
#pragma once

namespace leat::hydrology {

/// Runoff of one day's rain [mm], nothing until a fifth of the storage is wetted:
/// Q = (P - 0.2 S)^2 / (P + 0.8 S), S = 25 400 / CN - 254 mm. Source: USDA TR-55 (1986), equations
/// 2-3 and 2-4. Curve number 0 (nothing runs off) to 100 (all runs off); held to that range.
[[nodiscard]] double day_runoff_mm(double rain_mm, double curve_number);

/// Runoff of a month [mm] from its rain and its number of days with rain, the same depth on each.
/// The formula is one storm's, and steeper the more it rains: a month's sum put through it as one
/// day gives far too much (90 mm at CN 75 runs off 34 mm as one storm, nothing as 9 days of 10 mm).
/// By the same token equal days give the least runoff those days can give; heavy days among them
/// give more, so daily rain is to be preferred where it is known. No rain days, no runoff.
[[nodiscard]] double month_runoff_mm(double rain_mm, double rain_days, double curve_number);

}  // namespace leat::hydrology
