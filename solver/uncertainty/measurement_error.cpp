#include "solver/uncertainty/measurement_error.h"

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

LevelError level_error_of(Instrument instrument) {
  switch (instrument) {
    case Instrument::WaterLevel:
      return {metres_per_inch * 0.1,
              40.0,
              "reference K3: 1 mm over a 40 m hose, a tenth of an inch over hundreds of feet "
              "(builders' reports); the worse of the two for each set-up"};
    case Instrument::BuildersLevel:
      return {metres_per_foot * 0.01,
              metres_per_foot * 125.0,
              "reference K3: 0.01 ft in a sight of 100 to 150 ft (from memory)"};
    case Instrument::Phone:
      return {12.5, 0.0, "reference K3: 10 to 15 m, 95 in 100: unfit for a siphon"};
    case Instrument::HandLevel:
    case Instrument::Unsaid:
    case Instrument::Bucket:
    case Instrument::Gauge:
      break;
  }
  return {metres_per_foot * 0.1,
          metres_per_foot * 50.0,
          "reference K3: 0.1 ft in a sight of 50 ft (from memory)"};
}

double level_deviation_m(const LevelError& error, double distance) {
  const double sights = error.sight_m > 0.0 ? std::max(1.0, distance / error.sight_m) : 1.0;
  return error.half_width_m * std::sqrt(sights) / half_width_95;
}

FactorError factor_error_of(InputKind kind, const model::PipeSize* size) {
  switch (kind) {
    case InputKind::Length:
      return {1.02, "trade-needs 13: taped or paced, or map distance for slope distance, 2 %"};
    case InputKind::Roughness:
      if (size != nullptr && size->friction_factor) {
        return {1.03, "reference A1: a friction factor read off a chart, 3 %"};
      }
      if (size != nullptr && size->hazen_williams_c) {
        return {150.0 / 140.0, "reference A3: C 150 new, 140 aged"};
      }
      return {0.007 / 0.0015, "reference A3: 0.0015 mm new, to 0.007 mm with joints (from memory)"};
    case InputKind::Fittings:
    case InputKind::Seat:
      return {1.25, "trade-needs 15: K factors 25 %"};
    case InputKind::Yield:
      return {std::exp(half_width_95 * plain_flow_share),
              "reference K1: bucket and watch, one standard error 3.2 %"};
    case InputKind::Need:
      return {1.30, "trade-needs 15: what stock drink, 30 %"};
    case InputKind::AirPressure:
      return {1.03, "reference D2: weather alone, 3 %"};
    case InputKind::Bore:
    case InputKind::ValveOpening:
    case InputKind::PlaceLevel:
    case InputKind::EndLevel:
    case InputKind::PathLevel:
      break;
  }
  return {};
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
      reading.error =
          std::hypot(level_deviation_m(level_error_of(measured.with), sight_m), scatter);
      break;
  }
  return reading;
}

}  // namespace leat::solver
