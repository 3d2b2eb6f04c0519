// How many random farms a run of the law tests takes.
#pragma once

#include <cstdint>
#include <cstdlib>

namespace leat::tests {

/// Whether LEAT_FARMS says how many: then the tests also tell what they counted.
[[nodiscard]] inline bool farms_asked_by_name() {
  return std::getenv("LEAT_FARMS") != nullptr;
}

/// Farms in all: 20 000 unless LEAT_FARMS says otherwise.
[[nodiscard]] inline std::uint64_t farms_asked() {
  const char* const text = std::getenv("LEAT_FARMS");
  return text == nullptr ? 20000 : std::strtoull(text, nullptr, 10);
}

}  // namespace leat::tests
