#include "render/io/interruption.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sys/stat.h>

namespace leat::render {

namespace {

struct State {
  std::mutex mutex;
  std::list<std::function<void()>> undo;  // in the order they were begun
  std::function<void()> taker;
  std::vector<std::string> expected;
};

/// Never freed: a signal may come while the process is ending anyway.
State& state() {
  static State* const all = new State;
  return *all;
}

}  // namespace

InterruptionHold::InterruptionHold() : lock_(state().mutex) {}

HalfDone::~HalfDone() {
  if (is_begun_) {
    end(InterruptionHold());
  }
}

void HalfDone::begin(const InterruptionHold& /*hold*/, std::function<void()> undo) {
  where_ = state().undo.insert(state().undo.end(), std::move(undo));
  is_begun_ = true;
}

void HalfDone::end(const InterruptionHold& /*hold*/) {
  if (is_begun_) {
    state().undo.erase(where_);
    is_begun_ = false;
  }
}

InterruptionTaker::InterruptionTaker() {
  const InterruptionHold hold;
  state().taker = [this] { is_told_ = true; };
}

InterruptionTaker::~InterruptionTaker() {
  const InterruptionHold hold;
  state().taker = nullptr;
}

void expect_output(const std::string& file) {
  const InterruptionHold hold;
  state().expected.push_back(file);
}

void output_is_written(const std::string& file) {
  const InterruptionHold hold;
  std::erase(state().expected, file);
}

bool is_interruption_taken() {
  const InterruptionHold hold;
  if (state().taker) {
    state().taker();
  }
  return state().taker != nullptr;
}

std::string undo_half_done(const std::string& by) {
  State& all = state();
  all.mutex.lock();  // for good
  std::for_each(all.undo.rbegin(), all.undo.rend(), [](const auto& undo) { undo(); });
  std::vector<std::string> told;
  for (const std::string& file : all.expected) {
    struct stat there {};
    const bool is_there = stat(file.c_str(), &there) == 0;
    told.push_back(fmt::format("'{}' {}", file, is_there ? "is as it was" : "was not written"));
  }
  return fmt::format("leat: ended by {} before the answer was there; {}run it again\n",
                     by,
                     told.empty() ? "" : fmt::format("{}; ", fmt::join(told, ", ")));
}

}  // namespace leat::render
