// Which pipes make one line.
#include "solver/network/unbranched_lines.h"

#include <vector>

#include <catch2/catch.hpp>

#include "tests/support/farm_text.h"

namespace leat::solver {

namespace {

using tests::farm_of;
using Indexes = std::vector<std::size_t>;

}  // namespace

TEST_CASE("pipes joined by tees where nothing else meets are one line from end to end", "[fit]") {
  const model::Farm farm = farm_of(
      "farm: Test\n"
      "creeks: {pool: {surface: 60 m}}\n"
      "tees: {fork: 45 m, joint: 50 m, bend: 48 m}\n"
      "outlets: {low: {level: 40 m}, high: {level: 46 m}}\n"
      "pipes:\n"
      "  middle: {from: joint, to: bend, size: {bore: 26.6 mm}, length: 100 m}\n"
      "  to low: {from: fork, to: low, size: {bore: 20.9 mm}, length: 100 m}\n"
      "  last: {from: fork, to: bend, size: {bore: 26.6 mm}, length: 100 m}\n"
      "  first: {from: pool, to: joint, size: {bore: 26.6 mm}, length: 100 m}\n"
      "  to high: {from: fork, to: high, size: {bore: 20.9 mm}, length: 80 m}\n");
  const UnbranchedLines lines(farm);
  const UnbranchedLine& main = lines[lines.line_of_pipe(0)];
  CHECK(main.pipes == Indexes{3, 0, 2});
  CHECK(farm.places[main.from].name == "pool");
  CHECK(farm.places[main.to].name == "fork");
  CHECK(lines.line_of_pipe(1) != lines.line_of_pipe(0));
  CHECK(lines.line_of_pipe(4) != lines.line_of_pipe(1));
  const auto count_at = [&](const char* name) {
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      if (farm.places[i].name == name) {
        return lines.lines_at(i).size();
      }
    }
    return std::size_t{0};
  };
  CHECK(count_at("fork") == 3);
  CHECK(count_at("joint") == 1);
  CHECK(count_at("pool") == 1);
}

TEST_CASE("a ring that hangs on one tee is one line that begins and ends there", "[fit]") {
  const model::Farm farm = farm_of(
      "farm: Test\n"
      "creeks: {pool: {surface: 60 m}}\n"
      "tees: {fork: 45 m, left: 44 m, right: 44 m}\n"
      "outlets: {end: {level: 40 m}}\n"
      "pipes:\n"
      "  main: {from: pool, to: fork, size: {bore: 26.6 mm}, length: 100 m}\n"
      "  a: {from: fork, to: left, size: {bore: 20.9 mm}, length: 100 m}\n"
      "  b: {from: left, to: right, size: {bore: 20.9 mm}, length: 100 m}\n"
      "  c: {from: right, to: fork, size: {bore: 20.9 mm}, length: 100 m}\n"
      "  to end: {from: fork, to: end, size: {bore: 20.9 mm}, length: 80 m}\n");
  const UnbranchedLines lines(farm);
  const UnbranchedLine& ring = lines[lines.line_of_pipe(2)];
  CHECK(ring.pipes.size() == 3);
  CHECK(ring.from == ring.to);
  CHECK(farm.places[ring.from].name == "fork");
}

}  // namespace leat::solver
