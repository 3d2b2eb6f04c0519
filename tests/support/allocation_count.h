// Counts every call that asks the heap for memory, whoever makes it: our code, Eigen, the standard
// library. Linked into a test program it stands in front of malloc, calloc, realloc and their
// aligned sisters (operator new calls malloc).
#pragma once

#include <cstdint>

namespace leat::tests {

/// Heap requests of this process since it began. Meaningful as a difference, in one thread.
[[nodiscard]] std::uint64_t heap_requests();

}  // namespace leat::tests
