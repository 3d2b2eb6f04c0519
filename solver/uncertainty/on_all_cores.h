// Draws shared out over the machine's cores.
#pragma once

#include <cstddef>
#include <functional>

namespace leat::solver {

/// Calls the work of one thread for draws 0 to `count` - 1, each once, on `threads` threads (0: as
/// many as the machine has cores; never more than there are turns, or than the machine gives).
/// Threads take turns of `a_turn` draws; `worker` is asked on each thread for that thread's own
/// work, with true on the thread that called. Each draw must write to a place of its own; then
/// nothing depends on the threads. What a draw throws ends the handing out of turns and is thrown
/// here, once all threads are done.
void run_draws(std::size_t count,
               std::size_t a_turn,
               unsigned threads,
               const std::function<std::function<void(std::size_t draw)>(bool calls)>& worker);

}  // namespace leat::solver
