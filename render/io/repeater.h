// Something done again and again beside the rest, on a thread of its own.
#pragma once

#include <atomic>
#include <functional>
#include <thread>

namespace leat::render {

/// Runs `step` until it goes. `step` returns how long to wait before the next one [ms].
class Repeater {
 public:
  explicit Repeater(std::function<int()> step);
  ~Repeater();
  Repeater(const Repeater&) = delete;
  Repeater& operator=(const Repeater&) = delete;
  Repeater(Repeater&&) = delete;
  Repeater& operator=(Repeater&&) = delete;

 private:
  std::atomic<bool> is_over_ = false;
  std::thread thread_;
};

}  // namespace leat::render
