// The sentences about a siphon's two ends: what shuts them while it is filled, and how they are
// opened again.
#pragma once

#include <string>

#include "solver/prime/prime_words.h"

namespace leat::solver {

/// Base of the writer of the steps: knows whether an end has a valve, a float, a foot valve, a cap
/// or plug, or must be given something better before the line is filled.
class PrimeEnds : protected PrimeWords {
 protected:
  using PrimeWords::PrimeWords;

  /// What shuts the lower end, of the file or fitted for it.
  [[nodiscard]] std::string outlet_piece() const;
  [[nodiscard]] bool has_cap_only() const;
  [[nodiscard]] bool lifts_float() const;
  /// A plug that would bear more than a hand should trust is no way to shut the inlet.
  [[nodiscard]] bool fits_foot_valve() const;
  [[nodiscard]] bool has_foot_valve() const;
  [[nodiscard]] std::string foot_valve_words() const;
  /// What is done to the lower end when its air is out.
  [[nodiscard]] std::string shut_lower_end_words() const;

  void close_inlet();
  /// Where the line rises to its end, the end is shut only when water has come to it.
  void close_outlet();
  void let_source_in();
  void open_outlet();

 private:
  [[nodiscard]] std::string why_a_valve() const;

  const bool fits_valve_ = must_fit_valve(farm_, plan_);
};

}  // namespace leat::solver
