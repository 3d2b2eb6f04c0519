// Surge: what a column of water does to its pipe when something shuts.
#pragma once

namespace leat::hydraulics {

/// Bulk modulus of water [Pa]: 2.15 GPa, reference G3.
inline constexpr double water_bulk_modulus_Pa = 2.15e9;

/// Speed of a pressure wave in a full pipe with expansion joints [m/s]: Korteweg's form,
/// sqrt(K/rho) / sqrt(1 + (K/E)(D/e)), D the bore (reference G2; anchoring changes it by less than
/// 10 %). E is the wall's modulus of short load.
[[nodiscard]] double wave_speed_m_s(double density_kg_m3,
                                    double modulus_Pa,
                                    double bore_m,
                                    double wall_m);

/// Head by which water rises when it is stopped at once [m]: a V / g (Joukowsky, reference G1).
[[nodiscard]] double sudden_stop_head_m(double wave_speed_m_s, double velocity_m_s);

/// Head by which a column that is stopped over `closing_s` rises at most [m]: 2 L V / (g tc), for
/// water whose flow falls evenly (Michaud; from memory). `length_velocity_m2_s` is the sum of
/// length times velocity back to open water.
[[nodiscard]] double slow_stop_head_m(double length_velocity_m2_s, double closing_s);

/// The knock of something that shuts [m]: the lesser of both. They meet at a closing time of 2 L/a.
[[nodiscard]] double surge_head_m(double wave_speed_m_s,
                                  double velocity_m_s,
                                  double length_velocity_m2_s,
                                  double closing_s);

/// How long a quarter-turn valve and a wheel valve take to shut by hand [s]: common practice, no
/// source.
inline constexpr double ball_valve_closes_in_s = 1.0;
inline constexpr double gate_valve_closes_in_s = 10.0;

/// Share of its rating that polyethylene bears with an occasional surge; AWWA C901/C906 (from
/// memory) allow 1.5 recurring, 2.0 occasional: the design takes the lesser. Other pipe: no more
/// than its rating.
inline constexpr double polyethylene_surge_share = 1.5;

}  // namespace leat::hydraulics
