// A value that several threads use.
#pragma once

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <utility>

namespace leat::render {

/// Holds a value and lets one thread at a time at it; others may wait for its change. What `use`
/// and `change` are given must not be kept beyond the call.
template <class Value>
class Shared {
 public:
  explicit Shared(Value value) : value_(std::move(value)) {}

  /// What `look` makes of the value as it stands.
  template <class Look>
  auto use(Look&& look) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    return std::forward<Look>(look)(value_);
  }

  /// Lets `alter` change the value and wakes those who wait; what it returns.
  template <class Alter>
  auto change(Alter&& alter) {
    const std::lock_guard<std::mutex> lock(mutex_);
    const Waking waking{changed_};
    return std::forward<Alter>(alter)(value_);
  }

  /// Waits until `is_so` of the value, or for that many milliseconds at most.
  template <class Is>
  void wait_until(Is&& is_so, int longest_ms) const {
    std::unique_lock<std::mutex> lock(mutex_);
    changed_.wait_for(
        lock, std::chrono::milliseconds(longest_ms), [&] { return is_so(std::as_const(value_)); });
  }

 private:
  struct Waking {
    std::condition_variable& changed;
    ~Waking() { changed.notify_all(); }
  };

  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  Value value_;
};

}  // namespace leat::render
