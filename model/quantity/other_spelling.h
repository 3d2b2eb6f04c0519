// Spellings of units that people try and a farm file does not take: for hints.
#pragma once

#include <string_view>

namespace leat::model {

/// A spelling that is not accepted, and what to write: `factor` times the number, in `unit`.
struct OtherSpelling {
  std::string_view spelling;
  std::string_view unit;
  double factor = 1.0;
};

/// What to write instead of a spelling that is not accepted ("feet": ft), or nullptr. Case is free
/// where the number stays as it is; "MPa" is not "mPa".
[[nodiscard]] const OtherSpelling* find_other_spelling(std::string_view spelling);

}  // namespace leat::model
