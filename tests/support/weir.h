// Flow over a sharp-edged notch, for gauging a spring or creek.
#pragma once

namespace leat::hydrology {

/// 90 degree notch [m3/s], 2.49 H^2.48 in feet. Source: USBR Water Measurement Manual, from memory;
/// H 0.2 to 1.25 ft. The head is measured upstream, at least 4 H away. No head, no flow, here and
/// below.
[[nodiscard]] double right_angle_notch_m3_s(double head_m);

/// 60 degree notch [m3/s], 1.443 H^2.5 in feet. Source: ASTM D5242-92.
[[nodiscard]] double sixty_degree_notch_m3_s(double head_m);

/// 45 degree notch [m3/s], 1.035 H^2.5 in feet. Source: ASTM D5242-92.
[[nodiscard]] double forty_five_degree_notch_m3_s(double head_m);

/// Any notch from 25 to 100 degrees [m3/s], fully contracted, H over 50 mm: Kindsvater and Shen's
/// Q = 8/15 Ce tan(angle/2) sqrt(2 g) (H + kh)^2.5 (ISO 1438). Ce and kh by polynomials through the
/// standard's curves, from memory. Throws std::invalid_argument at another angle.
[[nodiscard]] double notch_m3_s(double head_m, double angle_degrees);

}  // namespace leat::hydrology
