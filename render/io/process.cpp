#include "render/io/process.h"

#include <array>
#include <cerrno>
#include <csignal>
#include <string>
#include <system_error>
#include <thread>

#include <fcntl.h>
#include <pthread.h>
#include <unistd.h>

#include "render/io/interruption.h"

namespace leat::render {
namespace {

/// A program started without its three streams would find its own files and pipes under their
/// numbers. What stands in for them can only be read: a result without a reader stays noticed.
void fill_missing_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(stream, F_GETFD) < 0 && errno == EBADF) {
      // The lowest free number is this one.
      static_cast<void>(open("/dev/null", O_RDONLY));
    }
  }
}

struct EndSignal {
  int number;
  const char* word;
};
constexpr std::array<EndSignal, 3> end_signals = {
    {{SIGINT, "Ctrl-C"}, {SIGTERM, "SIGTERM"}, {SIGHUP, "SIGHUP"}}};

/// Ends the process as the signal would have, once nothing half done is left.
void end_by(int signal) {
  for (const EndSignal& known : end_signals) {
    if (known.number == signal) {
      std::string words = undo_half_done(known.word);
      if (isatty(STDERR_FILENO) != 0) {
        words.insert(0, "\r\x1b[K");  // over a line of progress
      }
      static_cast<void>(!write(STDERR_FILENO, words.data(), words.size()));
    }
  }
  std::signal(signal, SIG_DFL);
  sigset_t only{};
  sigemptyset(&only);
  sigaddset(&only, signal);
  pthread_sigmask(SIG_UNBLOCK, &only, nullptr);
  static_cast<void>(raise(signal));
}

/// A thread of its own waits for the signals, so that it may do what a signal handler may not.
/// Those that whoever started leat has turned off (nohup, a job in the background) stay so.
void wait_for_end_signals() {
  sigset_t awaited{};
  sigemptyset(&awaited);
  for (const EndSignal& known : end_signals) {
    struct sigaction now {};
    if (sigaction(known.number, nullptr, &now) == 0 && now.sa_handler != SIG_IGN) {
      sigaddset(&awaited, known.number);
    }
  }
  // Blocked before any other thread begins: they all inherit it.
  pthread_sigmask(SIG_BLOCK, &awaited, nullptr);
  try {
    std::thread([awaited] {
      for (;;) {
        int signal = 0;
        if (sigwait(&awaited, &signal) == 0 && !is_interruption_taken()) {
          end_by(signal);
        }
      }
    }).detach();
  } catch (const std::system_error&) {
    pthread_sigmask(SIG_UNBLOCK, &awaited, nullptr);  // no thread to be had: end as others do
  }
}

}  // namespace

void prepare_process() {
  fill_missing_streams();
  // A reader that has seen enough (`leat ... | head`) is no failure, and a disk that is full shows
  // as a failed write: run() sees both.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  wait_for_end_signals();
}

}  // namespace leat::render
