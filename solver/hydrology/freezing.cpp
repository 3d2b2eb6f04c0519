#include "solver/hydrology/freezing.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/quantity/conversion.h"
#include "solver/hydrology/humidity.h"

namespace leat::hydrology {
namespace {

constexpr double water_heat_J_m3_K = 4.21e6;      // water near 0 C: 1000 kg/m3, 4.21 kJ/kg K
constexpr double latent_heat_J_m3 = 334e3 * 1e3;  // of fusion, by volume of water

double wall_resistance_m_K_W(const PipeWall& wall) {
  const double insulated_m = wall.outside_diameter_m + 2.0 * wall.insulation_m;
  return std::log(wall.outside_diameter_m / wall.bore_m) /
             (2.0 * std::numbers::pi * wall.conductivity_W_m_K) +
         std::log(insulated_m / wall.outside_diameter_m) /
             (2.0 * std::numbers::pi * wall.insulation_conductivity_W_m_K);
}

}  // namespace

double cylinder_nusselt(double reynolds, double prandtl) {
  const double laminar = 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) /
                         std::pow(1.0 + std::pow(0.4 / prandtl, 2.0 / 3.0), 0.25);
  return 0.3 + laminar * std::pow(1.0 + std::pow(reynolds / 282000.0, 5.0 / 8.0), 0.8);
}

double air_film_W_m2_K(double outside_diameter_m, double wind_m_s) {
  // Dry air at -10 C and 1 atm, from memory.
  constexpr double viscosity_m2_s = 12.4e-6;
  constexpr double conductivity_W_m_K = 0.0236;
  constexpr double prandtl = 0.71;
  constexpr double still_air_W_m2_K = 6.0;
  constexpr double radiation_W_m2_K = 5.0;
  const double reynolds = std::max(wind_m_s, 0.0) * outside_diameter_m / viscosity_m2_s;
  const double wind_film =
      cylinder_nusselt(reynolds, prandtl) * conductivity_W_m_K / outside_diameter_m;
  return std::max(wind_film, still_air_W_m2_K) + radiation_W_m2_K;
}

double exposed_loss_W_m_K(const PipeWall& wall, double wind_m_s) {
  const double outermost_m = wall.outside_diameter_m + 2.0 * wall.insulation_m;
  const double film_m_K_W =
      1.0 / (std::numbers::pi * outermost_m * air_film_W_m2_K(outermost_m, wind_m_s));
  return 1.0 / (wall_resistance_m_K_W(wall) + film_m_K_W);
}

double buried_loss_W_m_K(const PipeWall& wall,
                         double middle_depth_m,
                         double soil_conductivity_W_m_K) {
  const double outermost_m = wall.outside_diameter_m + 2.0 * wall.insulation_m;
  const double ratio =
      std::max(2.0 * middle_depth_m / outermost_m, 1.0);  // 1: it lies at the surface
  return 1.0 / (wall_resistance_m_K_W(wall) +
                std::acosh(ratio) / (2.0 * std::numbers::pi * soil_conductivity_W_m_K));
}

std::optional<double> least_pipe_flow_m3_s(
    double loss_W_m_K, double length_m, double water_in_C, double surroundings_C, double outlet_C) {
  if (surroundings_C >= outlet_C) {
    // Even water that has come to rest with its surroundings is warm enough.
    return water_in_C >= outlet_C ? std::optional<double>(0.0) : std::nullopt;
  }
  if (!(water_in_C > outlet_C)) {
    return std::nullopt;
  }
  const double cooling = std::log((water_in_C - surroundings_C) / (outlet_C - surroundings_C));
  return loss_W_m_K * length_m / (water_heat_J_m3_K * cooling);
}

std::optional<FreezingHours> still_pipe_hours(double loss_W_m_K,
                                              double bore_m,
                                              double water_C,
                                              double surroundings_C) {
  if (!(surroundings_C < 0.0)) {
    return std::nullopt;
  }
  const double water_m2 = 0.25 * std::numbers::pi * bore_m * bore_m;
  const double cooling = std::log((std::max(water_C, 0.0) - surroundings_C) / -surroundings_C);
  const double to_ice_s = water_heat_J_m3_K * water_m2 / loss_W_m_K * cooling;
  const double to_solid_s = to_ice_s + latent_heat_J_m3 * water_m2 / (loss_W_m_K * -surroundings_C);
  return FreezingHours{.to_first_ice = to_ice_s / seconds_per_hour,
                       .to_solid = to_solid_s / seconds_per_hour};
}

double open_water_loss_W_m2(double water_C,
                            double air_C,
                            double air_humidity_percent,
                            double wind_m_s) {
  constexpr double stefan_boltzmann_W_m2_K4 = 5.67e-8;
  constexpr double emissivity = 0.96;
  constexpr double sky_below_air_C = 20.0;
  constexpr double bowen_kPa_C = 0.066;
  constexpr double kelvin_at_0_C = 273.15;
  const double wind_film_W_m2_K = 2.8 + 3.0 * std::max(wind_m_s, 0.0);
  const double vapour_deficit_kPa =
      saturation_vapour_pressure_kPa(water_C) -
      0.01 * air_humidity_percent * saturation_vapour_pressure_kPa(air_C);
  const double radiation_W_m2 = emissivity * stefan_boltzmann_W_m2_K4 *
                                (std::pow(water_C + kelvin_at_0_C, 4.0) -
                                 std::pow(air_C - sky_below_air_C + kelvin_at_0_C, 4.0));
  return std::max(
      wind_film_W_m2_K * (water_C - air_C + vapour_deficit_kPa / bowen_kPa_C) + radiation_W_m2,
      0.0);
}

std::optional<double> least_trough_inflow_m3_s(double loss_W_m2,
                                               double area_m2,
                                               double inflow_C,
                                               double water_C) {
  if (!(inflow_C > water_C)) {
    return std::nullopt;
  }
  return loss_W_m2 * area_m2 / (water_heat_J_m3_K * (inflow_C - water_C));
}

}  // namespace leat::hydrology
