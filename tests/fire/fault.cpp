// Loaded into leat before the C library (LD_PRELOAD): lets a call of the system fail, or a signal
// come, at one exact moment, and puts the process into the machine's locale.
//   LEAT_FAULT="fsync 28"        fsync fails with error number 28
//   LEAT_FAULT="fsync SIGTERM"   the process is told to end while fsync runs
//   LEAT_LOCALE=1                setlocale(LC_ALL, "") and the C++ locale before main begins
// Only calls on files count: what is written to the three streams of the process never fails here.
#include <cerrno>
#include <clocale>
#include <csignal>
#include <cstdlib>
#include <locale>
#include <string>

#include <dlfcn.h>
#include <pthread.h>
#include <sys/types.h>
#include <unistd.h>

namespace {

/// Whether the call is to fail; errno is set then. A signal comes, and the call waits for its end.
bool fails(const char* call) {
  const char* const asked = std::getenv("LEAT_FAULT");
  const std::string fault = asked == nullptr ? "" : asked;
  const std::string begin = std::string(call) + " ";
  if (fault.compare(0, begin.size(), begin) != 0) {
    return false;
  }
  const std::string what = fault.substr(begin.size());
  if (what == "SIGTERM" || what == "SIGINT") {
    kill(getpid(), what == "SIGINT" ? SIGINT : SIGTERM);
    sleep(20);
    return false;
  }
  errno = std::atoi(what.c_str());
  return true;
}

template <class Function>
Function next(const char* call) {
  return reinterpret_cast<Function>(dlsym(RTLD_NEXT, call));
}

}  // namespace

extern "C" {

int fsync(int file) {
  return fails("fsync") ? -1 : next<int (*)(int)>("fsync")(file);
}

ssize_t write(int file, const void* bytes, size_t count) {
  if (file > STDERR_FILENO && fails("write")) {
    return -1;
  }
  return next<ssize_t (*)(int, const void*, size_t)>("write")(file, bytes, count);
}

int link(const char* from, const char* to) {
  return fails("link") ? -1 : next<int (*)(const char*, const char*)>("link")(from, to);
}

int rename(const char* from, const char* to) {
  return fails("rename") ? -1 : next<int (*)(const char*, const char*)>("rename")(from, to);
}

int pthread_create(pthread_t* thread,
                   const pthread_attr_t* attributes,
                   void* (*work)(void*),
                   void* given) {
  using Create = int (*)(pthread_t*, const pthread_attr_t*, void* (*)(void*), void*);
  return fails("pthread_create") ? errno
                                 : next<Create>("pthread_create")(thread, attributes, work, given);
}

__attribute__((constructor)) void take_locale() {
  unsetenv("LD_PRELOAD");  // what leat starts is not under test
  if (std::getenv("LEAT_LOCALE") != nullptr) {
    if (std::setlocale(LC_ALL, "") == nullptr) {
      std::_Exit(99);  // a test that asked for a locale must not pass without it
    }
    std::locale::global(std::locale(""));
  }
}

}  // extern "C"
