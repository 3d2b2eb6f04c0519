// Texts and amounts as they are written into a farm file.
#pragma once

#include <string>
#include <string_view>

#include "model/farm/farm.h"

namespace leat::model {

/// The text as a key or value of YAML, in quotes where it must be: safe inside [ ] and { } too.
[[nodiscard]] std::string yaml_scalar(std::string_view text);

/// "295.81 ft" or "90.163 m": to the hundredth of a foot or the millimetre, no zeros behind.
[[nodiscard]] std::string length_scalar(Length length, UnitSystem units);
[[nodiscard]] std::string level_scalar(Elevation level, UnitSystem units);

}  // namespace leat::model
