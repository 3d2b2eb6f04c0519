// How figures of one kind are written: from SI to the unit of the key in JSON and CSV, the decimals
// of CSV, and the cell of a table on the screen.
#pragma once

#include <optional>
#include <string>

#include "model/farm/farm.h"
#include "render/words/table_cells.h"

namespace leat::render {

/// A figure in SI times `times`, over `over`, is what JSON prints. Of the two one is always 1:
/// 96400 Pa over 1000 read 96.4, times 0.001 they would not.
struct Scale {
  double times = 1.0;
  double over = 1.0;
  int decimals = 6;  // of CSV
  /// In the units a person reads, "-" for none; absent where every table has cells of its own.
  std::string (*cell)(std::optional<double> si, model::UnitSystem units) = nullptr;

  [[nodiscard]] constexpr double printed(double si) const { return si * times / over; }
  [[nodiscard]] constexpr Scale with_decimals(int other) const {
    return {times, over, other, cell};
  }
};

namespace scale {

// The decimals lose nothing a farm can measure: 1 mL/s is three of L/s.
inline constexpr Scale flow{1e3, 1.0, 6, flow_cell};            // m3/s as L/s
inline constexpr Scale level{1.0, 1.0, 4, level_cell};          // of the datum, or a head [m]
inline constexpr Scale length{1.0, 1.0, 4, length_cell};        // m
inline constexpr Scale bore{1e3, 1.0, 6};                       // m as mm
inline constexpr Scale pressure{1.0, 1e3, 3, pressure_cell};    // Pa as kPa
inline constexpr Scale velocity{1.0, 1.0, 4, velocity_cell};    // m/s
inline constexpr Scale volume{1.0, 1.0, 4};                     // m3
inline constexpr Scale litres{1e3, 1.0, 3, volume_cell};        // m3 as L
inline constexpr Scale hours{1.0, 1.0, 3};                      // h
inline constexpr Scale days{1.0, 1.0, 3};                       // day
inline constexpr Scale seconds_as_hours{1.0, 3600.0, 3};        // s as h
inline constexpr Scale share{1.0, 1.0, 4, share_of_need_cell};  // 0 to 1, on the screen per cent
inline constexpr Scale ratio{1.0, 1.0, 4};                      // without a unit
inline constexpr Scale money{1.0, 1.0, 4, money_cell};          // of the file's prices

}  // namespace scale

/// The figure of a quantity that may be absent, in SI.
template <class Quantity>
std::optional<double> si_of(const std::optional<Quantity>& quantity) {
  return quantity ? std::optional(quantity->in_si()) : std::nullopt;
}

}  // namespace leat::render
