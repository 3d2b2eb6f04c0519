#include "solver/network/walk.h"

#include <cstddef>
#include <vector>

#include <catch2/catch.hpp>

namespace leat::solver {

TEST_CASE("a walk finds what is joined, sees each once and ends where it is told to") {
  // 0 - 1 - 2 - 0 is a loop, 3 hangs on 2, 4 and 5 stand apart.
  const std::vector<std::vector<std::size_t>> joins = {{1, 2}, {0, 2}, {0, 1, 3}, {2}, {5}, {4}};
  std::vector<std::size_t> order;
  const auto see_all = [&](std::size_t here, const auto& go) {
    order.push_back(here);
    for (const std::size_t next : joins[here]) {
      go(next);
    }
    return Walk::On;
  };
  CHECK(walk(6, {0}, see_all) == std::vector<bool>{true, true, true, true, false, false});
  CHECK(order == std::vector<std::size_t>{0, 2, 3, 1});  // the last found first

  order.clear();
  CHECK(walk(6, {4, 4, 5}, see_all) == std::vector<bool>{false, false, false, false, true, true});
  CHECK(order == std::vector<std::size_t>{5, 4});

  order.clear();
  const auto until_two = [&](std::size_t here, const auto& go) {
    return here == 2 ? Walk::Stop : see_all(here, go);
  };
  CHECK(walk(6, {0}, until_two) == std::vector<bool>{true, true, true, false, false, false});
  CHECK(order == std::vector<std::size_t>{0});
  CHECK(walk(3, {}, see_all) == std::vector<bool>{false, false, false});
}

}  // namespace leat::solver
