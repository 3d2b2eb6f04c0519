#include "solver/uncertainty/on_all_cores.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace leat::solver {

void run_draws(std::size_t count,
               std::size_t a_turn,
               unsigned threads,
               const std::function<std::function<void(std::size_t draw)>(bool calls)>& worker) {
  std::atomic<std::size_t> next{0};
  std::mutex guard;
  std::exception_ptr fault;
  const auto take_turns = [&](bool calls) {
    try {
      const std::function<void(std::size_t)> work = worker(calls);
      for (std::size_t first = next.fetch_add(a_turn); first < count;
           first = next.fetch_add(a_turn)) {
        for (std::size_t draw = first; draw < std::min(count, first + a_turn); ++draw) {
          work(draw);
        }
      }
    } catch (...) {
      const std::lock_guard<std::mutex> lock(guard);
      fault = std::current_exception();
      next = count;  // no further turns: the answer is lost
    }
  };
  const std::size_t cores = threads > 0 ? threads : std::thread::hardware_concurrency();
  const std::size_t turns = (count + a_turn - 1) / a_turn;
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < std::min(std::max<std::size_t>(1, cores), turns); ++i) {
    try {
      others.emplace_back([&] { take_turns(false); });
    } catch (const std::system_error&) {
      break;  // the machine gives no more threads: those there are do all
    }
  }
  take_turns(true);
  for (std::thread& other : others) {
    other.join();
  }
  if (fault) {
    std::rethrow_exception(fault);
  }
}

}  // namespace leat::solver
