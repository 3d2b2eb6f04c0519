#include "tests/support/allocation_count.h"

#include <cerrno>
#include <cstddef>
#include <cstdlib>

#if defined(__SANITIZE_ADDRESS__)
#define LEAT_HEAP_IS_SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LEAT_HEAP_IS_SANITIZED 1
#endif
#endif

namespace {
std::uint64_t requests = 0;
}  // namespace

#ifdef LEAT_HEAP_IS_SANITIZED

// The sanitizer owns malloc; it tells who asks. Declared here, as its header is not always
// installed.
extern "C" int __sanitizer_install_malloc_and_free_hooks(void (*)(const volatile void*,
                                                                  std::size_t),
                                                         void (*)(const volatile void*));

namespace {
const int installed = __sanitizer_install_malloc_and_free_hooks(
    [](const volatile void*, std::size_t) { ++requests; }, [](const volatile void*) {});
}  // namespace

std::uint64_t leat::tests::heap_requests() {
  return installed > 0 ? requests : 0;
}

#else

// glibc allows a program to bring its own malloc, and keeps its own under these names.
extern "C" {
void* __libc_malloc(std::size_t size);
void* __libc_calloc(std::size_t count, std::size_t size);
void* __libc_realloc(void* old, std::size_t size);
void* __libc_memalign(std::size_t alignment, std::size_t size);
void __libc_free(void* old);

void* malloc(std::size_t size) noexcept {
  ++requests;
  return __libc_malloc(size);
}
void* calloc(std::size_t count, std::size_t size) noexcept {
  ++requests;
  return __libc_calloc(count, size);
}
void* realloc(void* old, std::size_t size) noexcept {
  ++requests;
  return __libc_realloc(old, size);
}
void* memalign(std::size_t alignment, std::size_t size) noexcept {
  ++requests;
  return __libc_memalign(alignment, size);
}
void* aligned_alloc(std::size_t alignment, std::size_t size) noexcept {
  ++requests;
  return __libc_memalign(alignment, size);
}
int posix_memalign(void** made, std::size_t alignment, std::size_t size) noexcept {
  ++requests;
  *made = __libc_memalign(alignment, size);
  return *made == nullptr ? ENOMEM : 0;
}
void free(void* old) noexcept {
  __libc_free(old);
}
}

std::uint64_t leat::tests::heap_requests() {
  return requests;
}

#endif
