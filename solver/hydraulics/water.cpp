#include "solver/hydraulics/water.h"

#include <algorithm>
#include <cmath>

namespace leat::hydraulics {
namespace {

constexpr double coldest_C = 0.0;
constexpr double warmest_C = 40.0;
constexpr double kelvin_at_0_C = 273.15;

// Density of water at 101.325 kPa, 0 .. 40 C, as the international committee for weights and
// measures recommends it: Tanaka, Girard, Davis, Peuto and Bignell, Metrologia 38 (2001) 301
// (constants from memory; tested against table D1).
double density_kg_m3(double celsius) {
  const double from_densest = celsius - 3.983035;
  return 999.974950 * (1.0 - from_densest * from_densest * (celsius + 301.797) /
                                 (522528.9 * (celsius + 69.34881)));
}

// Dynamic viscosity [Pa s] of water at 0.1 MPa, -20 .. 110 C: IAPWS SR6-08, supplementary release
// on ordinary water at 0.1 MPa (2008, revised 2011) (constants from memory; tested against D1).
double dynamic_viscosity_Pa_s(double celsius) {
  const double t = (celsius + kelvin_at_0_C) / 300.0;
  return 1e-6 * (280.68 * std::pow(t, -1.9) + 511.45 * std::pow(t, -7.7) +
                 61.131 * std::pow(t, -19.6) + 0.45903 * std::pow(t, -40.0));
}

// Vapour pressure of water: Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783, the IAPWS
// supplementary release SR1-86 (1992) (constants from memory; tested against D1).
double vapour_pressure_Pa(double celsius) {
  constexpr double critical_temperature_K = 647.096;
  constexpr double critical_pressure_Pa = 22.064e6;
  const double kelvin = celsius + kelvin_at_0_C;
  const double tau = 1.0 - kelvin / critical_temperature_K;
  const double sum = -7.85951783 * tau + 1.84408259 * std::pow(tau, 1.5) -
                     11.7866497 * std::pow(tau, 3.0) + 22.6807411 * std::pow(tau, 3.5) -
                     15.9618719 * std::pow(tau, 4.0) + 1.80122502 * std::pow(tau, 7.5);
  return critical_pressure_Pa * std::exp(critical_temperature_K / kelvin * sum);
}

}  // namespace

Water water_at(Temperature temperature) {
  const double celsius = std::clamp(in_celsius(temperature), coldest_C, warmest_C);
  const double density = density_kg_m3(celsius);
  return {.density_kg_m3 = density,
          .kinematic_viscosity_m2_s = dynamic_viscosity_Pa_s(celsius) / density,
          .vapour_pressure_Pa = vapour_pressure_Pa(celsius)};
}

}  // namespace leat::hydraulics
