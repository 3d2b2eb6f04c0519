// The flow that keeps water from freezing on its way, and how long still water lasts. Rules of
// thumb: the films of air and ground are known within a factor of two at best (see
// `freezing_spread`), and so is every flow and time here.
#pragma once

#include <optional>

namespace leat::hydrology {

/// How far off, either way, a flow or a time of this file may be (common practice, no source).
inline constexpr double freezing_spread = 2.0;

/// Nusselt number of a cylinder across the wind, Reynolds times Prandtl above 0.2. Source:
/// Churchill and Bernstein, J. Heat Transfer 99 (1977) 300, from memory.
[[nodiscard]] double cylinder_nusselt(double reynolds, double prandtl);

/// Film between a bare pipe and cold air [W/m2 K]: wind across it (Churchill and Bernstein, air at
/// -10 C) or, if greater, still air at 6 W/m2 K, plus 5 W/m2 K of radiation (both from memory).
[[nodiscard]] double air_film_W_m2_K(double outside_diameter_m, double wind_m_s);

/// What stands between the water and the cold. Inside film and standing ice are left out.
struct PipeWall {
  double bore_m = 0.0;
  double outside_diameter_m = 0.0;   // above the bore
  double conductivity_W_m_K = 0.40;  // polyethylene 0.40 to 0.50, PVC 0.16, steel 50 (memory)
  double insulation_m = 0.0;         // thickness around it, dry
  double insulation_conductivity_W_m_K = 0.04;  // dry foam (from memory)
};

/// Heat a metre of pipe in the air gives off [W/m K]: wall, insulation and film in series
/// (Fourier's law for a tube).
[[nodiscard]] double exposed_loss_W_m_K(const PipeWall& wall, double wind_m_s);

/// Heat a metre of buried pipe gives off [W/m K], its middle `middle_depth_m` below the surface
/// (more than half its diameter): wall and ground in series, the ground by the shape factor 2 pi k
/// / arcosh(2 z / D) (Incropera and DeWitt, table of shape factors, from memory). Steady: a cold
/// night has not got down to the pipe, so this asks for too much flow in short frosts. Frozen soil
/// conducts 1 to 2.5 W/m K.
[[nodiscard]] double buried_loss_W_m_K(const PipeWall& wall,
                                       double middle_depth_m,
                                       double soil_conductivity_W_m_K);

/// Least flow [m3/s] that leaves a pipe at `outlet_C` or warmer, in air (or ground surface) at
/// `surroundings_C`: q = U L / (rho c ln((Tin - Ta) / (Tout - Ta))) (Incropera and DeWitt, tube in
/// a uniform surrounding, from memory). Nothing where the surroundings are no colder than the
/// outlet may be; empty where the water comes in no warmer than it may leave: no flow is enough.
[[nodiscard]] std::optional<double> least_pipe_flow_m3_s(
    double loss_W_m_K, double length_m, double water_in_C, double surroundings_C, double outlet_C);

/// Hours until still water in a full pipe has cooled to 0 C, and until it is solid across, by the
/// same heat balance; ice that insulates as it grows is left out, so the second is early. Empty at
/// 0 C or warmer surroundings.
struct FreezingHours {
  double to_first_ice = 0.0;
  double to_solid = 0.0;
};
[[nodiscard]] std::optional<FreezingHours> still_pipe_hours(double loss_W_m_K,
                                                            double bore_m,
                                                            double water_C,
                                                            double surroundings_C);

/// Heat an open water surface loses [W/m2] on a clear night: wind 2.8 + 3.0 v W/m2 K (Watmuff et
/// al. 1977, from memory), evaporation by Bowen's ratio with 0.066 kPa/C, radiation at emissivity
/// 0.96 to a sky 20 C colder than the air (from memory). Never negative.
[[nodiscard]] double open_water_loss_W_m2(double water_C,
                                          double air_C,
                                          double air_humidity_percent,
                                          double wind_m_s);

/// Inflow [m3/s] whose heat makes good what a trough's surface loses while the water stays at
/// `water_C`; the walls are left out. Empty where the inflow is no warmer than that.
[[nodiscard]] std::optional<double> least_trough_inflow_m3_s(double loss_W_m2,
                                                             double area_m2,
                                                             double inflow_C,
                                                             double water_C);

}  // namespace leat::hydrology
