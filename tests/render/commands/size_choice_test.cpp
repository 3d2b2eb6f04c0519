// A farm with `size: choose`: every command that needs the size says who chooses it.
#include <fstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "render/cli/run.h"
#include "tests/render/run_words.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

const std::string text =
    "farm: unsized\n"
    "springs: {box: {overflow: 60 m, yield: 20 L/min, map: [2.1, 54.2]}}\n"
    "troughs: {yard: {float: 40 m, need: 900 L/day, within: 8 h, map: [2.102, 54.2]}}\n"
    "pipes: {line: {from: box, to: yard, size: choose, length: 200 m}}\n"
    "measured: [{at: yard, flow: 8 L/min}]\n";

}  // namespace

TEST_CASE("every command says that leat size chooses a size left to choose", "[size]") {
  const TemporaryFolder folder;
  const std::string farm = folder.file("farm.yaml");
  std::ofstream(farm) << text;
  const std::vector<std::vector<std::string>> runs = {
      {"solve", farm},
      {"solve", farm, "--spread", "10"},
      {"draw", farm, "-o", folder.file("farm.dot")},
      {"map", farm, "-o", folder.file("farm.geojson")},
      {"profile", farm},
      {"prime", farm},
      {"season", farm},
      {"season", farm, "--spread", "10"},
      {"compare", farm, farm},
      {"improve", farm},
      {"fit", farm},
      {"report", farm, "-o", folder.file("farm.html")},
  };
  for (const std::vector<std::string>& words : runs) {
    CAPTURE(words.front());
    const Outcome outcome = run_words(words);
    CHECK(outcome.status == 2);
    CHECK(outcome.err.find("size: choose on pipe 'line': there is no size to solve with") !=
          std::string::npos);
    CHECK(outcome.err.find("hint: 'leat size' chooses it") != std::string::npos);
  }
  CHECK(run_words({"read", farm}).out.find("'leat size' chooses it") != std::string::npos);
  CHECK(run_words({"size", farm}).status != 2);
}

}  // namespace leat::render
