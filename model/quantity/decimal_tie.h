// Half a last digit rounds one way, whatever the last bits of a sum say.
#pragma once

namespace leat::model {

/// The value a billionth of itself further from zero: printed with some decimals, 0.625 and what a
/// balance leaves of it, 0.62499999999, both read 0.63. The same flow stands on two sides of a
/// table, worked out in two ways, and must read the same.
[[nodiscard]] constexpr double past_a_tie(double value) {
  return value * (1.0 + 1e-9);
}

}  // namespace leat::model
