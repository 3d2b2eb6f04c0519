// How far a number may be off: what is read (bucket and watch, pressure gauge, level), and what a
// farm file says. One error model a kind and instrument, each with its source; `fit` weighs
// readings by it, `spread` draws farms by it.
// A "+/-" of a source is read as holding 95 times in 100 (1.96 standard deviations), as the one
// source that says (K3, phones) means it. Bucket and watch alone are read as one standard error
// (K1 does not say which): the cautious reading, and what a hurried filling is like (common
// practice, no source).
#pragma once

#include <string_view>

#include "model/farm/records.h"
#include "solver/uncertainty/farm_input.h"

namespace leat::solver {

/// A reading with its standard error, both in the unit of the reading (m3/s, Pa gauge, m).
struct ReadingWithError {
  double value = 0.0;  // mean of the repeats
  double error = 0.0;  // above 0
};

/// Share by which a bucket's mark is off: 0.1 of 5 gallons (reference K1).
inline constexpr double bucket_share = 0.1 / 5.0;
/// What starting and stopping a watch is off [s] (reference K1).
inline constexpr double watch_error_s = 0.3;
/// Of a flow whose filling time was not kept: that of K1's example, 5 gal in 12 s.
inline constexpr double plain_flow_share = 0.032;

/// No bucket tells less than this from nothing: 0.03 L/min, a fast drip (common practice, no
/// source).
inline constexpr double least_flow_error_m3_s = 5e-7;

/// Standard error of one filling of a bucket, as a share of the flow: the mark and the watch in
/// quadrature. `filling_s` above 0. 5 gal +/-0.1 in 12 s +/-0.3 s gives 3.2 % (reference K1).
[[nodiscard]] double bucket_error_share(double filling_s);

/// Standard error [Pa] of a pressure read on the smallest usual gauge (15, 30, 60, 100, 160, 300
/// psi ...) that the reading fills to three quarters: 3 % of its scale at the most (ASME B40.100
/// grade B, from memory), evenly likely within (JCGM 100:2008, 4.3.7: divided by the root of 3).
[[nodiscard]] double gauge_error_Pa(double pressure_Pa);

/// Half the width that holds 95 of 100 normal deviates, in standard deviations.
inline constexpr double half_width_95 = 1.959963984540054;

/// How levels come out with an instrument: each sight (or set-up of a hose) has an error of its
/// own, so that the error of a level grows with the square root of the distance from the last one.
struct LevelError {
  double half_width_m = 0.0;  // +/-, 95 in 100, of one sight
  double sight_m = 0.0;       // length of one sight; 0: the distance does not matter
  std::string_view source;
};

/// Of a hand level, a builder's level, a water level or a phone. Anything else (nothing said, or an
/// instrument that reads no levels) is taken as a hand level (common practice, no source).
[[nodiscard]] LevelError level_error_of(model::Instrument instrument);

/// Standard error [m] of a level taken over a distance [m, at least 0] from the point before it; at
/// least that of one sight.
[[nodiscard]] double level_deviation_m(const LevelError& error, double distance_m);

/// How a positive number is off: the factor it may be out by, 95 in 100, either way (1.25 for
/// "+/-25 %"), drawn on a logarithmic scale so that it stays positive.
struct FactorError {
  double factor = 1.0;  // 1: taken as exact
  std::string_view source;
};

/// Of every kind that is no level. `size` is asked for a roughness only (C and friction factors
/// have errors of their own).
[[nodiscard]] FactorError factor_error_of(InputKind kind, const model::PipeSize* size = nullptr);

/// The mean of a measurement's repeats with its error. The bucket's mark is the same in every
/// filling; the watch, or the scatter of the repeats where that is more, falls with their number.
/// `sight_m` is the distance a level was carried over.
[[nodiscard]] ReadingWithError reading_of(const model::Measurement& measured, double sight_m);

}  // namespace leat::solver
