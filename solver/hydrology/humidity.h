// Water vapour in the air, as FAO-56 reckons it.
#pragma once

namespace leat::hydrology {

/// Saturation vapour pressure over water [kPa], FAO-56 equation 11 (Allen et al. 1998).
[[nodiscard]] double saturation_vapour_pressure_kPa(double temperature_C);

/// Its slope [kPa/C], FAO-56 equation 13.
[[nodiscard]] double saturation_slope_kPa_C(double temperature_C);

/// Mean saturation vapour pressure of a day [kPa]: the mean of those at its lowest and highest
/// temperature, FAO-56 equation 12 (that at the mean temperature would be too low).
[[nodiscard]] double day_saturation_vapour_pressure_kPa(double lowest_C, double highest_C);

/// Vapour pressure from the day's highest and lowest relative humidity [kPa], FAO-56 equation 17.
[[nodiscard]] double vapour_pressure_from_humidity_range_kPa(double lowest_C,
                                                             double highest_C,
                                                             double highest_humidity_percent,
                                                             double lowest_humidity_percent);

/// Vapour pressure from the day's mean relative humidity [kPa], FAO-56 equation 19.
[[nodiscard]] double vapour_pressure_from_mean_humidity_kPa(double lowest_C,
                                                            double highest_C,
                                                            double mean_humidity_percent);

/// Vapour pressure where no humidity is known [kPa]: the dew point is taken as the lowest
/// temperature of the day, FAO-56 equation 48. In dry country this is some tenths of a kPa too high
/// (FAO-56 then takes 2 C or more off), and evaporation comes out too low.
[[nodiscard]] double vapour_pressure_from_lowest_temperature_kPa(double lowest_C);

/// Air pressure of FAO-56 equation 7 [kPa]. It differs from the standard atmosphere by under 0.2 %
/// below 3000 m; kept so that the handbook's figures come out as printed.
[[nodiscard]] double fao_air_pressure_kPa(double altitude_m);

/// Psychrometric constant [kPa/C], FAO-56 equation 8.
[[nodiscard]] double psychrometric_constant_kPa_C(double altitude_m);

}  // namespace leat::hydrology
