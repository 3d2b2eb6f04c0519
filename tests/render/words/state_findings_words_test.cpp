// States and flags: which figure earns which, and which of two goes first.
#include <algorithm>

#include <catch2/catch.hpp>

#include "solver/findings/states.h"
#include "tests/render/words/told_farm.h"

namespace leat::tests {

using solver::PipeState;

namespace {

/// A siphon over a rise between two creeks a little apart: the summit's pressure is its height.
ToldFarm siphon(const std::string& summit_m, const std::string& site = "{altitude: 0 m}") {
  return told("farm: siphon\nsite: " + site +
              "\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 99.9 m}}\npipes: {a: {from: "
              "c, to: p, size: 1 in SIDR 15, path: [[0 m, 100 m], [30 m, " +
              summit_m + " m], [60 m, 99.9 m]]}}\n");
}

}  // namespace

TEST_CASE("a summit that a storm would part is parted although fair weather holds it") {
  // Three hundredths of 10.34 m are 0.31 m.
  const ToldFarm fair = siphon("109.7");
  CHECK(fair.flag(solver::Code::Parted, "a") == nullptr);
  CHECK(fair.flag(solver::Code::NearVapour, "a") != nullptr);
  const ToldFarm storm = siphon("109.95");
  REQUIRE(storm.flag(solver::Code::Parted, "a") != nullptr);
  CHECK(storm.flag(solver::Code::Parted, "a")->value.value() > 0.0);
  CHECK(storm.text(solver::Code::Parted, "a").find("storm") != std::string::npos);
  CHECK(storm.pipe("a").summit->parted);
  CHECK(storm.pipe("a").state == PipeState::Parted);
  // The flow is still that of the whole fall: the storm is a judgement, not this day's weather.
  CHECK(storm.pipe("a").flow_m3_s == Approx(fair.pipe("a").flow_m3_s).epsilon(0.05));
}

TEST_CASE("what stands above the water of a part-full pipe is air or vapour, as the cause says") {
  // The creek holds 100 m, the pipe falls gently to 95 m and then steeply: below a vent there air
  // stands above the water. Over the knee at 80 m it falls 40 m more: there the water parts.
  const auto brow = [](const std::string& keys, const std::string& path) {
    return told(
               "farm: brow\ncreeks: {c: {surface: 100 m}}\nponds: {p: {surface: 41 m}}\npipes: "
               "{a: {from: c, to: p, size: 1 in SIDR 15, " +
               keys + "path: [" + path + "[410 m, 40 m]]}}\n")
        .text(solver::Code::PartFull, "a");
  };
  const auto ends_in = [](const std::string& sentence, const std::string& end) {
    return sentence.size() > end.size() &&
           sentence.compare(sentence.size() - end.size(), end.size(), end) == 0;
  };
  const std::string knee = "[400 m, 80 m], ";
  const std::string vented = "[0 m, 99 m], [200 m, 95 m], [210 m, 60 m], ";
  CHECK(ends_in(brow("", "[0 m, 99 m], " + knee), ", with its own vapour above the water"));
  CHECK(ends_in(brow("vents: [200 m], ", vented), ", with air above the water"));
  CHECK(ends_in(brow("vents: [200 m], ", vented + knee),
                ", with air above the water in one reach, its own vapour in another"));
}

}  // namespace leat::tests
