#include "render/io/child_process.h"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstddef>
#include <thread>
#include <utility>

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "render/io/interruption.h"

extern char** environ;

namespace leat::render {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::chrono::milliseconds look_again(50);

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

/// One of its own: Ctrl-C is then leat's to answer.
enum class ProcessGroup { Own, Leats };

/// Attributes and file actions of one start, given back at its end.
class SpawnSettings {
 public:
  explicit SpawnSettings(ProcessGroup group) {
    posix_spawn_file_actions_init(&actions_);
    posix_spawnattr_init(&attributes_);
    const bool is_own = group == ProcessGroup::Own;
    const int flags = POSIX_SPAWN_SETSIGMASK | (is_own ? POSIX_SPAWN_SETPGROUP : 0);
    posix_spawnattr_setflags(&attributes_, static_cast<short>(flags));
    posix_spawnattr_setpgroup(&attributes_, 0);
    sigset_t none{};
    sigemptyset(&none);
    posix_spawnattr_setsigmask(&attributes_, &none);
  }
  ~SpawnSettings() {
    posix_spawnattr_destroy(&attributes_);
    posix_spawn_file_actions_destroy(&actions_);
  }
  SpawnSettings(const SpawnSettings&) = delete;
  SpawnSettings& operator=(const SpawnSettings&) = delete;

  void join(int stream, const Descriptor& end) {
    posix_spawn_file_actions_adddup2(&actions_, end.number(), stream);
  }
  void shut_off_streams() {
    posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  }

  /// Starts the first of the programs that is there. Returns 0 or a value of errno.
  [[nodiscard]] int start(const ChildCommand& command, pid_t& child) const {
    std::vector<std::string> words = {""};
    words.insert(words.end(), command.arguments.begin(), command.arguments.end());
    std::vector<char*> pointers;
    for (std::string& word : words) {
      pointers.push_back(word.data());
    }
    pointers.push_back(nullptr);
    int error = ENOENT;
    for (const std::string& program : command.programs) {
      std::string name = program;
      pointers.front() = name.data();
      error =
          posix_spawnp(&child, program.c_str(), &actions_, &attributes_, pointers.data(), environ);
      if (error != ENOENT) {
        break;
      }
    }
    return error;
  }

 private:
  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

/// A child from its start to its end.
class ChildRun {
 public:
  explicit ChildRun(const ChildCommand& command)
      : command_(command), end_(Clock::now() + std::chrono::seconds(command.longest_s)) {}

  /// Its streams are joined to ours.
  ChildResult run(std::string_view input) {
    input_ = input;
    if (!open_line(in_) || !open_line(out_) || !open_line(err_)) {
      result_.start_error = errno;
      return std::move(result_);
    }
    SpawnSettings settings(ProcessGroup::Own);
    settings.join(STDIN_FILENO, in_.theirs);
    settings.join(STDOUT_FILENO, out_.theirs);
    settings.join(STDERR_FILENO, err_.theirs);
    if (start(settings)) {
      in_.theirs.shut();
      out_.theirs.shut();
      err_.theirs.shut();
      result_.is_late = !talk();
      // Who has shut both its streams is at its end: no need to look for it again and again.
      take_status(result_.is_late ? Wait::Killed : Wait::Blocked);
    }
    return std::move(result_);
  }

  /// Its streams lead nowhere.
  ChildResult run_silent() {
    SpawnSettings settings(ProcessGroup::Own);
    settings.shut_off_streams();
    if (start(settings)) {
      take_status(Wait::UntilLate);
    }
    return std::move(result_);
  }

 private:
  enum class Wait { Blocked, UntilLate, Killed };

  bool start(const SpawnSettings& settings) {
    const InterruptionHold hold;
    result_.start_error = settings.start(command_, child_);
    if (result_.start_error != 0) {
      return false;
    }
    half_done_.begin(hold, [child = child_] {
      kill(-child, SIGKILL);
      int status = 0;
      static_cast<void>(waitpid(child, &status, 0));
    });
    return true;
  }

  /// Waits for the child's end and keeps how it came.
  void take_status(Wait wait) {
    int status = 0;
    if (wait == Wait::UntilLate && !ends_in_time(status)) {
      result_.is_late = true;
      wait = Wait::Killed;
    }
    if (wait == Wait::Killed) {
      kill(-child_, SIGKILL);  // its own group: what it has started as well
    }
    if (wait != Wait::UntilLate) {
      while (waitpid(child_, &status, 0) < 0 && errno == EINTR) {
      }
    }
    half_done_.end(InterruptionHold());
    result_.ended_well = !result_.is_late && WIFEXITED(status) && WEXITSTATUS(status) == 0;
  }

  /// Looks for the child's end now and then. False where it does not come in time.
  bool ends_in_time(int& status) const {
    for (;;) {
      const pid_t ended = waitpid(child_, &status, WNOHANG);
      if (ended == child_) {
        return true;
      }
      if ((ended < 0 && errno != EINTR) || Clock::now() > end_) {
        return false;
      }
      std::this_thread::sleep_for(look_again);
    }
  }

  /// Writes the input and reads both answers, whichever is ready, until both have ended. False
  /// when that takes too long.
  bool talk() {
    while (out_.ours.number() >= 0 || err_.ours.number() >= 0) {
      // poll() passes over descriptors below 0.
      std::array<pollfd, 3> waits{{{in_.ours.number(), POLLOUT, 0},
                                   {out_.ours.number(), POLLIN, 0},
                                   {err_.ours.number(), POLLIN, 0}}};
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end_ - Clock::now());
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
        read_some(out_.ours, result_.out);
      }
      if (waits[2].revents != 0) {
        read_some(err_.ours, result_.err);
      }
    }
    return true;
  }

  void write_some() {
    const ssize_t sent =
        send(in_.ours.number(), input_.data(), input_.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (sent >= 0) {
      input_.remove_prefix(static_cast<std::size_t>(sent));
    } else if (errno != EAGAIN && errno != EINTR) {
      in_.ours.shut();  // it reads no further; its exit status says why
    }
    if (input_.empty()) {
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

  const ChildCommand& command_;
  Clock::time_point end_;
  std::string_view input_;  // what is still to be written
  Line in_;
  Line out_;
  Line err_;
  pid_t child_ = -1;
  HalfDone half_done_;  // while the child runs
  ChildResult result_;
};

}  // namespace

ChildResult run_child(const ChildCommand& command, std::string_view input) {
  return ChildRun(command).run(input);
}

ChildResult run_silent_child(const ChildCommand& command) {
  return ChildRun(command).run_silent();
}

void start_and_leave(const ChildCommand& command) {
  SpawnSettings settings(ProcessGroup::Leats);
  settings.shut_off_streams();
  pid_t child = -1;
  static_cast<void>(settings.start(command, child));
}

}  // namespace leat::render
