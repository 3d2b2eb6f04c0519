#include "solver/hydraulics/air_sweep.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/quantity/quantity.h"

namespace leat::hydraulics {

namespace {

/// The speed all of these are measured by: of a long wave, had the pipe that depth.
double wave_speed_m_s(double bore_m) {
  return std::sqrt(gravity_m_s2 * bore_m);
}

/// (start + rise sqrt(sin)) sqrt(g D)
double root_law_m_s(double bore_m, double angle_rad, double start, double rise) {
  return (start + rise * std::sqrt(std::max(0.0, std::sin(angle_rad)))) * wave_speed_m_s(bore_m);
}

double escarameia_start(PocketSize pocket) {
  switch (pocket) {
    case PocketSize::Tiny:
      return 0.45;
    case PocketSize::Small:
      return 0.50;
    case PocketSize::Medium:
      return 0.57;
    case PocketSize::Large:
      return 0.61;
  }
  return 0.61;
}

}  // namespace

double escarameia_velocity_m_s(double bore_m, double angle_rad, PocketSize pocket) {
  return root_law_m_s(bore_m, angle_rad, escarameia_start(pocket), 0.56);
}

double wisner_velocity_m_s(double bore_m, double angle_rad) {
  return root_law_m_s(bore_m, angle_rad, 0.825, 0.25);
}

double kalinske_bliss_velocity_m_s(double bore_m, double angle_rad) {
  return std::sqrt(1.146 * std::max(0.0, std::tan(angle_rad))) * wave_speed_m_s(bore_m);
}

double kent_velocity_m_s(double bore_m, double angle_rad) {
  return root_law_m_s(bore_m, angle_rad, 0.55, 0.5);
}

double level_bubble_velocity_m_s(double bore_m) {
  return 0.542 * wave_speed_m_s(bore_m);
}

AirVerdict AirSweep::verdict(double velocity_m_s) const {
  if (velocity_m_s >= swept_above_m_s) {
    return AirVerdict::Swept;
  }
  return velocity_m_s < stays_below_m_s ? AirVerdict::Stays : AirVerdict::Doubtful;
}

AirSweep air_sweep(double bore_m, double angle_rad) {
  AirSweep sweep;
  sweep.stays_below_m_s = escarameia_velocity_m_s(bore_m, angle_rad, PocketSize::Tiny);
  sweep.escarameia_m_s = escarameia_velocity_m_s(bore_m, angle_rad, PocketSize::Large);
  sweep.wisner_m_s = wisner_velocity_m_s(bore_m, angle_rad);
  sweep.swept_above_m_s = std::max(escarameia_safety * sweep.escarameia_m_s, sweep.wisner_m_s);
  sweep.kalinske_bliss_m_s = kalinske_bliss_velocity_m_s(bore_m, angle_rad);
  sweep.kent_m_s = kent_velocity_m_s(bore_m, angle_rad);
  sweep.steeper_than_tested = angle_rad > steepest_tested_degrees * std::numbers::pi / 180.0;
  return sweep;
}

}  // namespace leat::hydraulics
