// Other programs, run for real: those that every POSIX system has.
#include "render/io/child_process.h"

#include <cerrno>
#include <chrono>
#include <string>

#include <catch2/catch.hpp>

namespace {

using namespace leat::render;

ChildCommand shell(const std::string& script) {
  ChildCommand command;
  command.programs = {"sh"};
  command.arguments = {"-c", script};
  command.longest_s = 30;
  return command;
}

double seconds_of(const std::chrono::steady_clock::time_point& began) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

}  // namespace

TEST_CASE("A child reads its input and its words are kept apart, however many they are") {
  std::string much;
  for (int i = 0; i < 200000; ++i) {
    much += std::to_string(i) + '\n';
  }
  const ChildResult ran = run_child(shell("awk '{print; print | \"cat 1>&2\"}'"), much);
  CHECK(ran.start_error == 0);
  CHECK(ran.ended_well);
  CHECK_FALSE(ran.is_late);
  CHECK((ran.out == much));  // not shown: it is long
  CHECK((ran.err == much));
}

TEST_CASE("A child that fails is told from one that does well") {
  const ChildResult ran = run_child(shell("echo so >&2; exit 3"), "");
  CHECK(ran.start_error == 0);
  CHECK_FALSE(ran.ended_well);
  CHECK_FALSE(ran.is_late);
  CHECK(ran.err == "so\n");
  CHECK(run_silent_child(shell("true")).ended_well);
  CHECK_FALSE(run_silent_child(shell("exit 1")).ended_well);
  CHECK_FALSE(run_silent_child(shell("kill -9 $$")).ended_well);
}

TEST_CASE("The first program that is there is started, and none is said to be missing") {
  ChildCommand command;
  command.programs = {"leat-knows-no-such-program", "cat"};
  CHECK(run_child(command, "water").out == "water");
  command.programs = {"leat-knows-no-such-program"};
  CHECK(run_child(command, "water").start_error == ENOENT);
  CHECK(run_silent_child(command).start_error == ENOENT);
  CHECK_NOTHROW(start_and_leave(command));
}

TEST_CASE("A child that reads nothing does not end the process that feeds it") {
  const std::string much(4'000'000, 'w');
  CHECK(run_child(shell("exec <&-; exit 0"), much).ended_well);
}

TEST_CASE("A child that takes too long is ended with all that it has started") {
  for (const bool is_silent : {false, true}) {
    CAPTURE(is_silent);
    ChildCommand command = shell("sleep 600 & sleep 600");
    command.longest_s = 1;
    const auto began = std::chrono::steady_clock::now();
    const ChildResult ran = is_silent ? run_silent_child(command) : run_child(command, "");
    CHECK(ran.is_late);
    CHECK_FALSE(ran.ended_well);
    CHECK(seconds_of(began) < 20.0);
  }
}

TEST_CASE("A silent child hears nothing and is not heard") {
  CHECK(run_silent_child(shell("test -z \"$(cat)\" && echo heard && echo heard >&2")).ended_well);
}
