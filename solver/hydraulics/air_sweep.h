// How fast water must run to carry air down a falling leg of pipe, by those who measured it.
#pragma once

namespace leat::hydraulics {

/// Volume of an air pocket against its bore, n = 4 volume / (pi D^3), as Escarameia grouped it.
/// The larger the pocket, the faster the water must run.
enum class PocketSize {
  Tiny,    // n < 0.06
  Small,   // 0.06 .. 0.12
  Medium,  // 0.12 .. 0.30
  Large    // 0.30 .. 2
};

/// Velocities [m/s] that clear air from a pipe of `bore_m` that falls at `angle_rad` below the
/// horizontal (0 .. pi/2; the angle, not the grade). No safety factor in any of them. The authors
/// disagree by half, and small bores by +/-20 % more: an answer is a rule, not a measurement.

/// Escarameia 2005/2007, HR Wallingford SR 661: (a + 0.56 sqrt(sin)) sqrt(g D), a = 0.45, 0.50,
/// 0.57, 0.61 by pocket size (a and the groups from memory).
[[nodiscard]] double escarameia_velocity_m_s(double bore_m, double angle_rad, PocketSize pocket);
/// Wisner, Mohsen, Kouwen, J. Hyd. Div. ASCE 101 (HY2) 1975, as Sanks, Pumping Station Design,
/// quotes it: (0.825 + 0.25 sqrt(sin)) sqrt(g D).
[[nodiscard]] double wisner_velocity_m_s(double bore_m, double angle_rad);
/// Kalinske and Bliss 1943 (from memory): V^2/(g D) = 1.146 tan.
[[nodiscard]] double kalinske_bliss_velocity_m_s(double bore_m, double angle_rad);
/// Kent 1952 with Mosvell's correction (from memory): (0.55 + 0.5 sqrt(sin)) sqrt(g D).
[[nodiscard]] double kent_velocity_m_s(double bore_m, double angle_rad);
/// Benjamin 1968 (from memory): the nose of a long bubble in level pipe runs at 0.542 sqrt(g D), so
/// slower water does not fill the pipe's end.
[[nodiscard]] double level_bubble_velocity_m_s(double bore_m);

/// Escarameia's own safety factor (from memory).
inline constexpr double escarameia_safety = 1.1;
/// Steepest fall anybody tested in small pipe: 25 and 38 mm at 0 to 30 degrees (May, Allen, Nelson,
/// Int. J. of Hydraulic Engineering 7 (2018) 51).
inline constexpr double steepest_tested_degrees = 30.0;

enum class AirVerdict { Swept, Doubtful, Stays };

/// What a falling leg asks of the water that runs down it.
struct AirSweep {
  double stays_below_m_s = 0.0;  // slower than this even tiny pockets stand
  double swept_above_m_s = 0.0;  // the working rule: large pockets with safety, and Wisner
  double escarameia_m_s = 0.0;   // large pockets, without safety
  double wisner_m_s = 0.0;
  double kalinske_bliss_m_s = 0.0;  // shown, never used
  double kent_m_s = 0.0;            // shown, never used
  bool steeper_than_tested = false;

  /// The working rule: swept from the greater of 1.1 Escarameia (large pockets) and Wisner on,
  /// stays below Escarameia for tiny pockets, doubtful between.
  [[nodiscard]] AirVerdict verdict(double velocity_m_s) const;
};
[[nodiscard]] AirSweep air_sweep(double bore_m, double angle_rad);

}  // namespace leat::hydraulics
