#include "solver/audit/plain_law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace leat::solver::audit {

namespace {

constexpr double laminar_until = 2000.0;
constexpr double turbulent_from = 4000.0;

double bounded_celsius(Temperature water) {
  return std::clamp(in_celsius(water), 0.0, 40.0);
}

double area_m2(double bore_m) {
  return std::numbers::pi * bore_m * bore_m / 4.0;
}

/// Colebrook and White by repeated insertion into x = 1/sqrt(f).
double colebrook(double reynolds, double relative_roughness) {
  double x = 8.0;
  for (int i = 0; i < 200; ++i) {
    const double next = -2.0 * std::log10(relative_roughness / 3.7 + 2.51 * x / reynolds);
    if (std::abs(next - x) < 1e-15 * next) {
      return 1.0 / (next * next);
    }
    x = next;
  }
  return 1.0 / (x * x);
}

/// ln(f Re^2), which grows with the flow as the loss does.
double log_loss(double factor, double reynolds) {
  return std::log(factor) + 2.0 * std::log(reynolds);
}

double bridge(double reynolds, double relative_roughness) {
  const double width = std::log(turbulent_from / laminar_until);
  const double t = std::log(reynolds / laminar_until) / width;
  const double low = log_loss(64.0 / laminar_until, laminar_until);
  const double high = log_loss(colebrook(turbulent_from, relative_roughness), turbulent_from);
  // Slopes over ln Re: laminar loss grows as the flow; Colebrook's by a difference across 4000.
  const double low_slope = 1.0;
  constexpr double step = 1e-4;
  const double above = turbulent_from * std::exp(step);
  const double below = turbulent_from * std::exp(-step);
  const double high_slope = (log_loss(colebrook(above, relative_roughness), above) -
                             log_loss(colebrook(below, relative_roughness), below)) /
                            (2.0 * step);
  // Hermite's cubic.
  const double value = (1.0 + 2.0 * t) * (1.0 - t) * (1.0 - t) * low +
                       t * (1.0 - t) * (1.0 - t) * width * low_slope +
                       t * t * (3.0 - 2.0 * t) * high + t * t * (t - 1.0) * width * high_slope;
  return std::exp(value) / (reynolds * reynolds);
}

}  // namespace

double plain_density_kg_m3(Temperature water) {
  const double t = bounded_celsius(water);
  const double above =
      999.83952 +
      t * (16.945176 +
           t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return above / (1.0 + 16.879850e-3 * t);
}

double plain_viscosity_m2_s(Temperature water) {
  const double t = bounded_celsius(water);
  const double from_20 = 20.0 - t;
  const double power =
      from_20 / (t + 96.0) * (1.2364 - 1.37e-3 * from_20 + 5.7e-6 * from_20 * from_20);
  return 1.002e-3 * std::pow(10.0, power) / plain_density_kg_m3(water);
}

double plain_vapour_pressure_Pa(Temperature water) {
  const double t = bounded_celsius(water);
  return 611.21 * std::exp((18.678 - t / 234.5) * (t / (257.14 + t)));
}

double plain_air_pressure_Pa(Length altitude) {
  return 101325.0 * std::pow(1.0 - 2.25577e-5 * in_metres(altitude), 5.25588);
}

double plain_velocity_head_m(double bore_m, double flow_m3_s) {
  const double velocity = flow_m3_s / area_m2(bore_m);
  return velocity * velocity / (2.0 * gravity_m_s2);
}

double plain_friction_factor(double reynolds, double relative_roughness) {
  if (reynolds <= laminar_until) {
    return 64.0 / reynolds;
  }
  return reynolds < turbulent_from ? bridge(reynolds, relative_roughness)
                                   : colebrook(reynolds, relative_roughness);
}

double plain_friction_m(const model::PipeSize& size,
                        double length_m,
                        double flow_m3_s,
                        double viscosity_m2_s) {
  const double bore_m = in_metres(size.bore);
  if (flow_m3_s <= 0.0 || length_m <= 0.0) {
    return 0.0;
  }
  if (size.hazen_williams_c) {
    return 10.67 * length_m * std::pow(flow_m3_s / *size.hazen_williams_c, 1.852) /
           std::pow(bore_m, 4.8704);
  }
  const double reynolds = flow_m3_s / area_m2(bore_m) * bore_m / viscosity_m2_s;
  const double factor = size.friction_factor
                            ? *size.friction_factor
                            : plain_friction_factor(reynolds, in_metres(size.roughness) / bore_m);
  return factor * length_m / bore_m * plain_velocity_head_m(bore_m, flow_m3_s);
}

double plain_orifice_m(double bore_m, double discharge_coefficient, double flow_m3_s) {
  const double velocity = flow_m3_s / (discharge_coefficient * area_m2(bore_m));
  return velocity * velocity / (2.0 * gravity_m_s2);
}

}  // namespace leat::solver::audit
