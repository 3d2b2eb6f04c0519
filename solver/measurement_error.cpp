#include "solver/measurement_error.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace leat::solver {

namespace {

using model::Instrument;
using model::Measurement;

constexpr double gauge_share_of_scale = 0.03;
constexpr double fullest_share_of_scale = 0.75;
constexpr std::array<double, 8> gauge_scales_psi = {15, 30, 60, 100, 160, 300, 600, 1000};
constexpr double hand_level_ft = 0.1;
constexpr double hand_level_sight_ft = 50.0;
constexpr double builders_level_ft = 0.01;
constexpr double builders_level_sight_ft = 100.0;
constexpr double water_level_m = 1e-3;
constexpr double water_level_hose_m = 40.0;
constexpr double phone_95_m = 12.5;
constexpr double normal_95 = 1.959964;

double of_sights(double each_m, double sight_m, double distance_m) {
  return each_m * std::sqrt(std::max(1.0, std::ceil(distance_m / sight_m - 1e-9)));
}

double mean_of(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) {
    sum += value;
  }
  return sum / static_cast<double>(values.size());
}

/// Standard error of the mean by how the repeats scatter; 0 for one reading.
double scatter_of_mean(const std::vector<double>& values, double mean) {
  if (values.size() < 2) {
    return 0.0;
  }
  double squares = 0.0;
  for (const double value : values) {
    squares += (value - mean) * (value - mean);
  }
  const auto count = static_cast<double>(values.size());
  return std::sqrt(squares / (count - 1.0) / count);
}

/// The watch's part of a mean flow's error, as a share, and the mark's.
double flow_error(const Measurement& measured, double mean, double scatter) {
  double watch_squares = 0.0;
  double mark = bucket_share;
  for (const double filling_s : measured.bucket_s) {
    if (filling_s <= 0.0) {
      mark = plain_flow_share;
      continue;
    }
    watch_squares += (watch_error_s / filling_s) * (watch_error_s / filling_s);
  }
  const auto count = static_cast<double>(measured.values.size());
  const double watch = std::sqrt(watch_squares) / count * std::abs(mean);
  return std::max(least_flow_error_m3_s,
                  std::hypot(mark * std::abs(mean), std::max(watch, scatter)));
}

}  // namespace

double bucket_error_share(double filling_s) {
  return std::hypot(bucket_share, watch_error_s / filling_s);
}

double gauge_error_Pa(double pressure_Pa) {
  double scale_psi = gauge_scales_psi.back();
  for (const double scale : gauge_scales_psi) {
    if (std::abs(pressure_Pa) <= fullest_share_of_scale * scale * pascals_per_psi) {
      scale_psi = scale;
      break;
    }
  }
  return gauge_share_of_scale * scale_psi * pascals_per_psi / std::numbers::sqrt3;
}

double levelling_error_m(Instrument instrument, double distance_m) {
  switch (instrument) {
    case Instrument::BuildersLevel:
      return of_sights(builders_level_ft * metres_per_foot,
                       builders_level_sight_ft * metres_per_foot,
                       distance_m);
    case Instrument::WaterLevel:
      return of_sights(water_level_m, water_level_hose_m, distance_m);
    case Instrument::Phone:
      return phone_95_m / normal_95;
    case Instrument::Unsaid:
    case Instrument::Bucket:
    case Instrument::Gauge:
    case Instrument::HandLevel:
      break;
  }
  return of_sights(
      hand_level_ft * metres_per_foot, hand_level_sight_ft * metres_per_foot, distance_m);
}

ReadingWithError reading_of(const Measurement& measured, double sight_m) {
  ReadingWithError reading;
  reading.value = mean_of(measured.values);
  const double scatter = scatter_of_mean(measured.values, reading.value);
  switch (measured.kind) {
    case Measurement::Kind::Flow:
      reading.error = flow_error(measured, reading.value, scatter);
      break;
    case Measurement::Kind::Pressure:
      reading.error = std::hypot(gauge_error_Pa(reading.value), scatter);
      break;
    case Measurement::Kind::Level:
      reading.error = std::hypot(levelling_error_m(measured.with, sight_m), scatter);
      break;
  }
  return reading;
}

}  // namespace leat::solver
