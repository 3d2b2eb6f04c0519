// A walk over whatever joins: places along pipes, pipes over the tees they meet at, nodes along
// edges.
#pragma once

#include <cstddef>
#include <vector>

namespace leat::solver {

enum class Walk { On, Stop };

/// Goes from `starts` to all that they lead to, of `count` things by their numbers. `visit(here,
/// go)` sees each once, the last found first, says with `go(next)` where it leads (what was found
/// already is passed over) and with its answer whether the walk goes on. Returns what was found.
template <class Visit>
std::vector<bool> walk(std::size_t count, const std::vector<std::size_t>& starts, Visit visit) {
  std::vector<bool> found(count, false);
  std::vector<std::size_t> open;
  const auto go = [&](std::size_t next) {
    if (!found[next]) {
      found[next] = true;
      open.push_back(next);
    }
  };
  for (const std::size_t start : starts) {
    go(start);
  }
  while (!open.empty()) {
    const std::size_t here = open.back();
    open.pop_back();
    if (visit(here, go) == Walk::Stop) {
      break;
    }
  }
  return found;
}

}  // namespace leat::solver
