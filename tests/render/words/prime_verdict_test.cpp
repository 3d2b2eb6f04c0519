// Whether a line holds, and why one is not to be filled or has no plan.
#include "render/words/prime_verdict.h"

#include <utility>

#include <catch2/catch.hpp>

#include "tests/render/words/primed_words.h"

namespace leat::tests {

TEST_CASE("a valve that the file has shut is told to be planned for as open") {
  CHECK(has_text(told_of(high_siphon("    valve: {type: gate, shut: yes, at: end}\n")).verdict,
                 "The file has the valve of 'siphon' shut"));
}

TEST_CASE("a siphon that is not to be primed is told with the reason") {
  CHECK(
      has_text(told_of(siphon_over_deep_dip).verdict, "filled to the summit with both ends shut"));
  CHECK(has_text(told_of(siphon_too_high).verdict, "Do not prime it as it is"));
  CHECK(has_text(told_of(high_siphon("    vents: [20 m]\n")).verdict,
                 "the vent on 'siphon' at 20 m"));
  CHECK(has_text(told_of(high_siphon("    vents: [{at: 20 m, top: 25 m}]\n")).verdict,
                 "lets air in"));
  CHECK(has_text(told_of(demo_text("06-siphon-that-breaks")).verdict,
                 "throttle the outlet until it takes less than the yield"));
  CHECK(has_text(told_of(siphon_uphill()).verdict, "does not run uphill"));
  const std::string flat = told_of(demo_text("11-sucked-flat")).verdict;
  CHECK(has_text(flat, "Do not prime it as it is: roll pipe stands"));
  CHECK(has_text(flat, "it sucks flat here"));
}

TEST_CASE("a line that fills by itself into harm is told not to be filled") {
  for (const auto& [name, reason] :
       {std::pair<const char*, const char*>{"10-dip-over-its-rating", "with everything shut"},
        std::pair<const char*, const char*>{"14-knee-before-the-bank", "the water parts"},
        std::pair<const char*, const char*>{"15-float-that-lets-air-in", "draws air in"}}) {
    const std::string verdict = told_of(demo_text(name)).verdict;
    CAPTURE(name);
    CHECK(has_text(verdict, "Do not fill it as it is: "));
    CHECK(has_text(verdict, reason));
  }
}

TEST_CASE("why a line has no plan is a problem with a code and a hint") {
  solver::PrimeOptions options;
  options.pipe = "sihpon";
  const Planned unknown = planned(high_siphon(), options);
  const std::vector<model::Diagnostic> problems =
      render::prime_problems(unknown.farm, unknown.plan);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].code == "unknown-pipe");
  CHECK(problems[0].hint == "did you mean 'siphon'?");
  const Planned backwards = planned(R"(farm: backwards
ponds:
  upper: {surface: 20 m}
  lower: {surface: 10 m}
pipes:
  line: {from: lower, to: upper, size: 32 mm PE100 SDR 11, length: 100 m}
)");
  REQUIRE(render::prime_problems(backwards.farm, backwards.plan).size() == 1);
  CHECK(render::prime_problems(backwards.farm, backwards.plan)[0].code == "runs-backwards");
  const Planned sound = planned(high_siphon());
  CHECK(render::prime_problems(sound.farm, sound.plan).empty());
}

}  // namespace leat::tests
