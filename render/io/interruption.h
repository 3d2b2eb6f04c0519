// What is half done when the process is told to end (Ctrl-C, SIGTERM, a terminal that closes), and
// how it is undone: no half file, no folder, no other program stays behind. The program's main
// waits for the signals; nothing here prints or ends anything.
#pragma once

#include <atomic>
#include <functional>
#include <list>
#include <mutex>
#include <string>

namespace leat::render {

/// While one lives the process does not end by such a signal: for steps that must not be parted,
/// such as putting a file in its place and knowing that it is there.
class InterruptionHold {
 public:
  InterruptionHold();

 private:
  std::unique_lock<std::mutex> lock_;
};

/// Something half done. `undo` runs, once, when the process is told to end while this is begun; it
/// may do what any thread may, but must not take a hold.
class HalfDone {
 public:
  HalfDone() = default;
  ~HalfDone();
  HalfDone(const HalfDone&) = delete;
  HalfDone& operator=(const HalfDone&) = delete;
  HalfDone(HalfDone&&) = delete;
  HalfDone& operator=(HalfDone&&) = delete;

  void begin(const InterruptionHold& hold, std::function<void()> undo);
  void end(const InterruptionHold& hold);

 private:
  bool is_begun_ = false;
  std::list<std::function<void()>>::iterator where_;
};

/// Takes the signals for itself while it lives: it is told instead of the process ending. For a
/// command that ends by being told to. One at a time.
class InterruptionTaker {
 public:
  InterruptionTaker();
  ~InterruptionTaker();
  InterruptionTaker(const InterruptionTaker&) = delete;
  InterruptionTaker& operator=(const InterruptionTaker&) = delete;
  InterruptionTaker(InterruptionTaker&&) = delete;
  InterruptionTaker& operator=(InterruptionTaker&&) = delete;

  [[nodiscard]] bool is_told() const { return is_told_; }

 private:
  std::atomic<bool> is_told_ = false;
};

/// A file that a command is going to write, for what is said when it never comes to that.
void expect_output(const std::string& file);
/// It is written.
void output_is_written(const std::string& file);

/// Whether somebody takes the signal; if so he was told.
[[nodiscard]] bool is_interruption_taken();

/// Undoes what is half done and returns what a person should know, in one line. Nothing else may be
/// begun or put in place afterwards: every hold waits for the process to end. `by` is the word for
/// what ended it, such as "Ctrl-C".
[[nodiscard]] std::string undo_half_done(const std::string& by);

}  // namespace leat::render
