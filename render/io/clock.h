// The day written on a drawing.
#pragma once

#include <string>

namespace leat::render {

/// The day as 2026-08-14: of the environment's SOURCE_DATE_EPOCH (seconds since 1970, UTC) where
/// that is a whole number, so that a drawing can be made again byte by byte; else today, local
/// time.
[[nodiscard]] std::string drawing_date();

}  // namespace leat::render
