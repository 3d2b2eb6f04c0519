// Sun and long-wave radiation on a level surface, as FAO-56 reckons them.
#pragma once

namespace leat::hydrology {

/// The sun's path on one day at one latitude.
struct SunDay {
  double extraterrestrial_MJ_m2 = 0.0;  // Ra, above the air, in the whole day
  double daylight_h = 0.0;              // N
};

/// Source: FAO-56 equations 21 to 25 and 34. South is negative; `day_of_year` 1 to 366. Where the
/// sun does not set or rise, 24 h or 0 h.
[[nodiscard]] SunDay sun_day(double latitude_degrees, int day_of_year);

/// Radiation that reaches the ground [MJ/m2 a day] when the sun shone `sunshine_h` hours
/// (held to 0 .. daylight): FAO-56 equation 35 with 0.25 and 0.50.
[[nodiscard]] double radiation_from_sunshine_MJ_m2(const SunDay& sun, double sunshine_h);

/// Where a place lies; it sets how much of the daily temperature range the sun makes.
enum class Setting { Inland, Coast };

/// Radiation that reaches the ground [MJ/m2 a day] where no sunshine is known, from the daily
/// temperature range: FAO-56 equation 50 with 0.16 inland and 0.19 at a coast. Never above that
/// of a clear sky (our own limit; it acts at ranges over about 20 C).
[[nodiscard]] double radiation_from_temperature_range_MJ_m2(
    const SunDay& sun, double lowest_C, double highest_C, double altitude_m, Setting setting);

/// Radiation under a clear sky [MJ/m2 a day], FAO-56 equation 37.
[[nodiscard]] double clear_sky_radiation_MJ_m2(const SunDay& sun, double altitude_m);

/// Net long-wave loss [MJ/m2 a day], FAO-56 equation 39. The share of clear-sky radiation is held
/// to 1 at most (FAO-56) and 0.3 at least (ASCE standardized equation 2005, from memory); 0.3 also
/// where the sun does not rise.
[[nodiscard]] double net_longwave_loss_MJ_m2(double lowest_C,
                                             double highest_C,
                                             double vapour_pressure_kPa,
                                             double radiation_MJ_m2,
                                             double clear_sky_MJ_m2);

/// Net radiation on short grass [MJ/m2 a day], albedo 0.23: FAO-56 equations 38 and 40.
[[nodiscard]] double net_radiation_MJ_m2(double radiation_MJ_m2, double longwave_loss_MJ_m2);

}  // namespace leat::hydrology
