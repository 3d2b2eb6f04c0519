// How far readings and the numbers of a farm file may be off, against the reference file's rows.
#include "solver/uncertainty/measurement_error.h"

#include <cmath>

#include <catch2/catch.hpp>

namespace leat::solver {

using model::Instrument;
using model::Measurement;

TEST_CASE("five gallons in twelve seconds are known to 3.2 percent", "[fit][reference]") {
  // Reference K1: 5 gal +/-0.1 and 12 s +/-0.3 s gives 25.0 gpm +/-3.2 %.
  CHECK(bucket_error_share(12.0) == Approx(0.032).epsilon(0.01));
}

TEST_CASE("under four seconds the watch is off by more than the bucket", "[fit][reference]") {
  CHECK(watch_error_s / 3.9 > bucket_share);  // reference K1
  CHECK(watch_error_s / 20.0 < bucket_share);
}

TEST_CASE("levels are as good as the instrument they were taken with", "[fit][spread][reference]") {
  // Reference K3. One sight each: its "+/-" holds 95 times in 100.
  const auto half_width_m = [](Instrument instrument, double distance_m) {
    return half_width_95 * level_deviation_m(level_error_of(instrument), distance_m);
  };
  CHECK(half_width_m(Instrument::HandLevel, 10.0) == Approx(0.1 * 0.3048));
  CHECK(half_width_m(Instrument::BuildersLevel, 30.0) == Approx(0.01 * 0.3048));
  CHECK(half_width_m(Instrument::WaterLevel, 40.0) == Approx(0.1 * 0.0254));
  CHECK(half_width_m(Instrument::Phone, 40.0) == Approx(12.5));
  CHECK(half_width_m(Instrument::Phone, 4000.0) == Approx(12.5));
  SECTION("A level carried over four sights is off by twice as much as over one") {
    CHECK(half_width_m(Instrument::HandLevel, 200.0 * 0.3048) == Approx(0.2 * 0.3048));
  }
  SECTION("A level of which nothing is said is taken as a hand level's") {
    CHECK(half_width_m(Instrument::Unsaid, 30.0) == half_width_m(Instrument::HandLevel, 30.0));
    CHECK(half_width_m(Instrument::Bucket, 30.0) == half_width_m(Instrument::HandLevel, 30.0));
  }
  SECTION("Even a water level keeps to a tenth of an inch over a hundred feet or so") {
    // Reference K3: a tenth of an inch over hundreds of feet (a homesteader's report).
    CHECK(half_width_m(Instrument::WaterLevel, 300.0 * 0.3048) < 0.2 * 0.0254);
  }
}

TEST_CASE("losses, needs and yields are as uncertain as the trade says", "[spread][reference]") {
  CHECK(factor_error_of(InputKind::Fittings).factor == 1.25);  // trade-needs 15
  CHECK(factor_error_of(InputKind::Need).factor == 1.30);      // trade-needs 15
  // Reference K1: 3.2 %, of the spread's yields as of the fit's readings.
  CHECK(std::log(factor_error_of(InputKind::Yield).factor) / half_width_95 == Approx(0.032));
  CHECK(factor_error_of(InputKind::AirPressure).factor == 1.03);  // reference D2
  model::PipeSize size;
  size.hazen_williams_c = 150.0;
  CHECK(factor_error_of(InputKind::Roughness, &size).factor == Approx(150.0 / 140.0));  // A3
  CHECK(factor_error_of(InputKind::Bore).factor == 1.0);
}

TEST_CASE("a level read for a fit is as good as the same level in a spread", "[fit][spread]") {
  Measurement level;
  level.kind = Measurement::Kind::Level;
  level.with = Instrument::BuildersLevel;
  level.values = {100.0};
  CHECK(reading_of(level, 200.0).error ==
        Approx(level_deviation_m(level_error_of(Instrument::BuildersLevel), 200.0)));
}

TEST_CASE("more fillings make the watch better but not the bucket's mark", "[fit]") {
  Measurement once;
  once.values = {1e-3};
  once.bucket_s = {4.0};
  Measurement often = once;
  often.values.assign(100, 1e-3);
  often.bucket_s.assign(100, 4.0);
  CHECK(reading_of(once, 1.0).error == Approx(1e-3 * bucket_error_share(4.0)));
  CHECK(reading_of(often, 1.0).error == Approx(1e-3 * std::hypot(bucket_share, 0.3 / 40.0)));
  CHECK(reading_of(often, 1.0).value == Approx(1e-3));
}

TEST_CASE("fillings that scatter more than the watch are trusted less", "[fit]") {
  Measurement calm;
  calm.values = {1.00e-3, 1.00e-3};
  calm.bucket_s = {30.0, 30.0};
  Measurement wild = calm;
  wild.values = {0.8e-3, 1.2e-3};
  CHECK(reading_of(wild, 1.0).error > 5.0 * reading_of(calm, 1.0).error);
}

TEST_CASE("a coarse gauge tells less than a fine one", "[fit]") {
  CHECK(gauge_error_Pa(5.0 * pascals_per_psi) ==
        Approx(0.03 * 15.0 * pascals_per_psi / std::sqrt(3.0)));
  CHECK(gauge_error_Pa(100.0 * pascals_per_psi) > gauge_error_Pa(5.0 * pascals_per_psi));
}

}  // namespace leat::solver
