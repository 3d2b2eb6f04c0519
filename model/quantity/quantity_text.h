// Numbers with units as people write them: "120 ft", "6 ft 3 in", "9 gal/min", "1 gal in 16 s".
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "model/quantity/quantity.h"

namespace leat::model {

/// Why a text is not a quantity, and how to write it.
struct QuantityProblem {
  std::string code;  // "missing-unit", "unknown-unit", "wrong-unit", "not-a-number", "out-of-range"
  std::string text;  // one sentence without the key's name: "'120' has no unit"
  std::string hint;  // "write 120 ft or 120 m"
};

template <class Value>
using Parsed = std::variant<Value, QuantityProblem>;

// The grammar is [-]NUMBER[ ]UNIT of FORMAT.md; blanks at the ends do not matter. A minus is read
// for levels and temperatures only. Absurd amounts (a length beyond 10 000 km) are "out-of-range".
// What is sane for a bore or a pipe is the caller's to check.

[[nodiscard]] Parsed<Length> parse_length(std::string_view text);        // never negative
[[nodiscard]] Parsed<Elevation> parse_elevation(std::string_view text);  // may be negative
/// Any flow unit, or a volume in a time: "5 gal in 1 min 12 s".
[[nodiscard]] Parsed<Flow> parse_flow(std::string_view text);
[[nodiscard]] Parsed<Volume> parse_volume(std::string_view text);
[[nodiscard]] Parsed<Area> parse_area(std::string_view text);
/// A bare column of water ("20 ft") is refused: it is written "20 ft water".
[[nodiscard]] Parsed<Pressure> parse_pressure(std::string_view text);
[[nodiscard]] Parsed<Temperature> parse_temperature(std::string_view text);
/// A time, also of several units: "1 h 30 min".
[[nodiscard]] Parsed<Duration> parse_duration(std::string_view text);
[[nodiscard]] Parsed<DepthRate> parse_depth_rate(std::string_view text);
[[nodiscard]] Parsed<Velocity> parse_speed(std::string_view text);  // of wind; never negative
/// A bare number: digits, point, optional exponent, or "3/4", "1-1/4"; may carry a minus.
[[nodiscard]] Parsed<double> parse_number(std::string_view text);
/// A share: "3/8", "0.4" or "40 %", from 0 to 1, both included.
[[nodiscard]] Parsed<double> parse_share(std::string_view text);

/// A need: an amount a day where it is written per day ("350 gal/day"), else a rate.
using WrittenNeed = std::variant<Flow, Volume>;
[[nodiscard]] Parsed<WrittenNeed> parse_need(std::string_view text);

/// What a float valve passes: "9 gal/min at 40 psi".
[[nodiscard]] Parsed<std::pair<Flow, Pressure>> parse_flow_at_pressure(std::string_view text);

}  // namespace leat::model
