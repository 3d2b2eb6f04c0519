#include "render/io/repeater.h"

#include <chrono>
#include <utility>

namespace leat::render {

Repeater::Repeater(std::function<int()> step)
    : thread_([this, step = std::move(step)] {
        while (!is_over_) {
          std::this_thread::sleep_for(std::chrono::milliseconds(step()));
        }
      }) {}

Repeater::~Repeater() {
  is_over_ = true;
  thread_.join();
}

}  // namespace leat::render
