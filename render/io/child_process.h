// Other programs: how they are started, fed, listened to, waited for and ended. The only file that
// starts any.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace leat::render {

/// A program and the words it gets.
struct ChildCommand {
  std::vector<std::string> programs;   // names looked for on the PATH: the first that is there
  std::vector<std::string> arguments;  // behind the name
  int longest_s = 60;                  // then it is ended [s]
};

/// What came of it.
struct ChildResult {
  int start_error = 0;      // value of errno when it could not be started; ENOENT: none is there
  bool is_late = false;     // it took longer than it may and was ended
  bool ended_well = false;  // it ended by itself with status 0
  std::string out;          // what it wrote to stdout ...
  std::string err;          // ... and to stderr
};

/// Runs a program on `input`, its stdin, and takes what it writes. It runs in a process group of
/// its own with no signal blocked: Ctrl-C is leat's to answer, and ends it and all that it started.
/// Never raises SIGPIPE.
[[nodiscard]] ChildResult run_child(const ChildCommand& command, std::string_view input);

/// The same with nothing to read and nobody to write to.
[[nodiscard]] ChildResult run_silent_child(const ChildCommand& command);

/// Starts a program in leat's own process group and lets it be: nobody hears it or waits for it.
/// Where there is no such program nothing happens.
void start_and_leave(const ChildCommand& command);

}  // namespace leat::render
