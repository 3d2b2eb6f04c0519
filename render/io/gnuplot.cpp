#include "render/io/gnuplot.h"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <string>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "render/io/interruption.h"
#include "render/io/spawn_settings.h"
#include "render/io/system_error.h"

extern char** environ;

namespace leat::render {

namespace {

constexpr std::chrono::seconds longest_wait(30);
constexpr const char* program = "gnuplot";

/// A file descriptor that is closed when it goes.
class Descriptor {
 public:
  Descriptor() = default;
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  ~Descriptor() { shut(); }

  [[nodiscard]] int number() const { return number_; }
  void shut() {
    if (number_ >= 0) {
      close(number_);
    }
    number_ = -1;
  }

 private:
  int number_ = -1;
};

/// Two joined ends: ours and the child's. Sockets, not pipes: a write to one whose reader has gone
/// can be told not to raise SIGPIPE, which is the whole process's.
struct Line {
  Descriptor ours;
  Descriptor theirs;
};

bool open_line(Line& line) {
  std::array<int, 2> ends{};
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) {
    return false;
  }
  line.ours = Descriptor(ends[0]);
  line.theirs = Descriptor(ends[1]);
  return fcntl(ends[0], F_SETFL, O_NONBLOCK) == 0;
}

class GnuplotRun {
 public:
  explicit GnuplotRun(std::string_view script) : script_(script) {}

  GnuplotResult run() {
    if (!open_line(in_) || !open_line(out_) || !open_line(err_)) {
      return {"", fmt::format("cannot start gnuplot: {}", reason_of(errno)), ""};
    }
    if (const int error = start(); error == ENOENT) {
      return {"",
              "gnuplot, which draws the picture, is not installed",
              "on Debian: apt-get install gnuplot-nox"};
    } else if (error != 0) {
      return {"", fmt::format("cannot start gnuplot: {}", reason_of(error)), ""};
    }
    const bool in_time = talk();
    if (!in_time) {
      kill(child_, SIGKILL);
    }
    int status = 0;
    while (waitpid(child_, &status, 0) < 0 && errno == EINTR) {
    }
    half_done_.end(InterruptionHold());
    if (!in_time) {
      return {"", "gnuplot did not finish in half a minute", ""};
    }
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || bytes_.empty()) {
      return {"", fmt::format("gnuplot could not draw it{}", complaint()), ""};
    }
    return {std::move(bytes_), "", ""};
  }

 private:
  int start() {
    SpawnSettings settings(ProcessGroup::Own);
    posix_spawn_file_actions_adddup2(settings.actions(), in_.theirs.number(), STDIN_FILENO);
    posix_spawn_file_actions_adddup2(settings.actions(), out_.theirs.number(), STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(settings.actions(), err_.theirs.number(), STDERR_FILENO);
    std::string name = program;
    std::string no_settings = "-d";
    std::array<char*, 3> words{name.data(), no_settings.data(), nullptr};
    const InterruptionHold hold;
    const int error = posix_spawnp(
        &child_, program, settings.actions(), settings.attributes(), words.data(), environ);
    if (error == 0) {
      half_done_.begin(hold, [child = child_] { kill(child, SIGKILL); });
    }
    in_.theirs.shut();
    out_.theirs.shut();
    err_.theirs.shut();
    return error;
  }

  /// Writes the script and reads both answers, whichever is ready, until both have ended. False
  /// when that takes too long.
  bool talk() {
    const auto end = std::chrono::steady_clock::now() + longest_wait;
    while (out_.ours.number() >= 0 || err_.ours.number() >= 0) {
      // poll() passes over descriptors below 0.
      std::array<pollfd, 3> waits{{{in_.ours.number(), POLLOUT, 0},
                                   {out_.ours.number(), POLLIN, 0},
                                   {err_.ours.number(), POLLIN, 0}}};
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
          end - std::chrono::steady_clock::now());
      if (left.count() <= 0) {
        return false;
      }
      if (poll(waits.data(), waits.size(), static_cast<int>(left.count())) < 0 && errno != EINTR) {
        return false;
      }
      if (waits[0].revents != 0) {
        write_some();
      }
      if (waits[1].revents != 0) {
        read_some(out_.ours, bytes_);
      }
      if (waits[2].revents != 0) {
        read_some(err_.ours, words_);
      }
    }
    return true;
  }

  void write_some() {
    const ssize_t sent =
        send(in_.ours.number(), script_.data(), script_.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (sent >= 0) {
      script_.remove_prefix(static_cast<std::size_t>(sent));
    } else if (errno != EAGAIN && errno != EINTR) {
      in_.ours.shut();  // it reads no further; its exit status says why
    }
    if (script_.empty()) {
      in_.ours.shut();
    }
  }

  static void read_some(Descriptor& from, std::string& into) {
    std::array<char, 65536> buffer{};
    const ssize_t count = read(from.number(), buffer.data(), buffer.size());
    if (count > 0) {
      into.append(buffer.data(), static_cast<std::size_t>(count));
    } else if (count == 0 || (errno != EAGAIN && errno != EINTR)) {
      from.shut();
    }
  }

  /// The last line of what it complained of, where the reason stands.
  [[nodiscard]] std::string complaint() const {
    const std::size_t last = words_.find_last_not_of(" \n");
    if (last == std::string::npos) {
      return "";
    }
    const std::size_t start = words_.rfind('\n', last);
    return ": " + words_.substr(start == std::string::npos ? 0 : start + 1,
                                last - (start == std::string::npos ? 0 : start + 1) + 1);
  }

  std::string_view script_;  // what is still to be written
  Line in_;
  Line out_;
  Line err_;
  pid_t child_ = -1;
  HalfDone half_done_;  // while the child runs
  std::string bytes_;   // the picture
  std::string words_;   // complaints
};

}  // namespace

GnuplotResult run_gnuplot(std::string_view script) {
  return GnuplotRun(script).run();
}

}  // namespace leat::render
