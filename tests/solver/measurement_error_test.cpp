// How far readings may be off, against the reference file's rows.
#include "solver/measurement_error.h"

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

TEST_CASE("levels are carried as well as their instruments allow", "[fit][reference]") {
  // Reference K3; sights add in quadrature.
  CHECK(levelling_error_m(Instrument::HandLevel, 15.0) == Approx(0.1 * 0.3048));
  CHECK(levelling_error_m(Instrument::HandLevel, 4.0 * 15.24) == Approx(2.0 * 0.1 * 0.3048));
  CHECK(levelling_error_m(Instrument::BuildersLevel, 30.0) == Approx(0.01 * 0.3048));
  CHECK(levelling_error_m(Instrument::WaterLevel, 40.0) == Approx(0.001));
  const double phone_95_m = 1.96 * levelling_error_m(Instrument::Phone, 100.0);
  CHECK(phone_95_m > 10.0);
  CHECK(phone_95_m < 15.0);
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
