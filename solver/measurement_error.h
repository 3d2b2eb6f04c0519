// How far a reading may be off: bucket and watch, pressure gauge, level. One standard error each.
#pragma once

#include "model/records.h"

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

/// Standard error [m] of a level carried over a distance [m, above 0] (reference K3): hand level
/// 0.1 ft in each sight of 50 ft, builder's level 0.01 ft in each of 100 ft, water level 1 mm in
/// each 40 m of hose, the sights adding in quadrature; phone 6.4 m whatever the distance (10 to 15
/// m at 95 %). Unsaid, bucket and gauge count as a hand level (common practice, no source).
[[nodiscard]] double levelling_error_m(model::Instrument instrument, double distance_m);

/// The mean of a measurement's repeats with its error. The bucket's mark is the same in every
/// filling; the watch, or the scatter of the repeats where that is more, falls with their number.
/// `sight_m` is the distance a level was carried over.
[[nodiscard]] ReadingWithError reading_of(const model::Measurement& measured, double sight_m);

}  // namespace leat::solver
